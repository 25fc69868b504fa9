/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/change-private.h"
#include "job/history.h"

/* What takes the job from where it is to the step before or after. */
typedef struct {
  TwChange *change;
  char *label;
} Step;

struct _TwHistory {
  TwJob *job;
  GArray *undo, *redo; /* of Step, newest last */
  int saved_at;        /* number of steps to undo when the job was saved, -1: no longer to be reached */
  GPtrArray *open;     /* inverses of the open step, oldest first; NULL when none is open */
  char *open_label;
  GHashTable *set_in_open; /* "part/element/field" of sets in the open step */
};

static void
clear_step (gpointer data)
{
  Step *step = data;

  tw_change_free (step->change);
  g_free (step->label);
}

static GArray *
steps_new (void)
{
  GArray *steps = g_array_new (FALSE, FALSE, sizeof (Step));

  g_array_set_clear_func (steps, clear_step);
  return steps;
}

TwHistory *
tw_history_new (TwJob *job)
{
  TwHistory *self = g_new0 (TwHistory, 1);

  self->job = job;
  self->undo = steps_new ();
  self->redo = steps_new ();
  return self;
}

void
tw_history_free (TwHistory *self)
{
  if (self->open != NULL)
    tw_history_close (self);
  g_array_unref (self->undo);
  g_array_unref (self->redo);
  g_free (self);
}

static void
remember (TwHistory *self, TwChange *inverse, char *label)
{
  Step step = { inverse, label };

  if (self->saved_at > (int)self->undo->len)
    self->saved_at = -1;
  g_array_set_size (self->redo, 0);
  g_array_append_val (self->undo, step);
}

/* Takes @inverse into the open step. Groups are taken apart, last member first, so that a second set of a
 * field finds the first one: a drag of several fields is as short as its fields. */
static void
keep_inverse (TwHistory *self, TwChange *inverse)
{
  if (inverse->kind == TW_CHANGE_GROUP) {
    while (inverse->members->len > 0)
      keep_inverse (self, g_ptr_array_steal_index (inverse->members, inverse->members->len - 1));
    tw_change_free (inverse);
  } else if (inverse->kind != TW_CHANGE_SET) {
    /* After another kind of change a later set may not fall on the same part any more. */
    g_hash_table_remove_all (self->set_in_open);
    g_ptr_array_add (self->open, inverse);
  } else if (g_hash_table_add (self->set_in_open, tw_change_set_key (inverse))) {
    g_ptr_array_add (self->open, inverse);
  } else {
    tw_change_free (inverse);
  }
}

gboolean
tw_history_do (TwHistory *self, TwChange *change, GError **error)
{
  g_autoptr (TwChange) owned = change;
  g_autofree char *label = tw_change_label (owned, self->job);
  TwChange *inverse;

  if (!tw_change_apply (change, self->job, &inverse, error))
    return FALSE;
  if (self->open == NULL) {
    remember (self, inverse, g_steal_pointer (&label));
    return TRUE;
  }
  if (self->open_label == NULL)
    self->open_label = g_steal_pointer (&label);
  keep_inverse (self, inverse);
  return TRUE;
}

void
tw_history_open (TwHistory *self, const char *label)
{
  g_return_if_fail (self->open == NULL);
  self->open = g_ptr_array_new_with_free_func ((GDestroyNotify)tw_change_free);
  self->open_label = g_strdup (label);
  self->set_in_open = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
}

gboolean
tw_history_is_open (const TwHistory *self)
{
  return self->open != NULL;
}

/* Takes the open step's inverses as one group, newest first; NULL when there are none. */
static TwChange *
end_open (TwHistory *self, char **label)
{
  TwChange *group = NULL;

  if (self->open->len > 0) {
    group = tw_change_group (self->open_label);
    while (self->open->len > 0)
      tw_change_group_add (group, g_ptr_array_steal_index (self->open, self->open->len - 1));
  }
  *label = g_steal_pointer (&self->open_label);
  g_clear_pointer (&self->open, g_ptr_array_unref);
  g_clear_pointer (&self->set_in_open, g_hash_table_unref);
  return group;
}

void
tw_history_close (TwHistory *self)
{
  char *label = NULL;
  TwChange *inverse;

  g_return_if_fail (self->open != NULL);
  inverse = end_open (self, &label);
  if (inverse != NULL && !tw_change_is_noop (inverse, self->job)) {
    remember (self, inverse, label);
  } else {
    g_free (label);
    g_clear_pointer (&inverse, tw_change_free);
  }
}

void
tw_history_cancel (TwHistory *self)
{
  g_autofree char *label = NULL;
  g_autoptr (TwChange) inverse = NULL, forth = NULL;

  g_return_if_fail (self->open != NULL);
  inverse = end_open (self, &label);
  if (inverse != NULL && !tw_change_apply (inverse, self->job, &forth, NULL))
    g_assert_not_reached ();
}

gboolean
tw_history_can_undo (const TwHistory *self)
{
  return self->undo->len > 0 || (self->open != NULL && self->open->len > 0);
}

gboolean
tw_history_can_redo (const TwHistory *self)
{
  return self->redo->len > 0 && self->open == NULL;
}

/* Applies the newest step of @from and puts its inverse on @to. */
static void
step (TwHistory *self, GArray *from, GArray *to)
{
  Step *newest, other;

  if (self->open != NULL)
    tw_history_close (self);
  if (from->len == 0)
    return;
  newest = &g_array_index (from, Step, from->len - 1);
  if (!tw_change_apply (newest->change, self->job, &other.change, NULL))
    g_assert_not_reached ();
  other.label = g_steal_pointer (&newest->label);
  g_array_set_size (from, from->len - 1);
  g_array_append_val (to, other);
}

void
tw_history_undo (TwHistory *self)
{
  step (self, self->undo, self->redo);
}

void
tw_history_redo (TwHistory *self)
{
  if (self->open != NULL)
    tw_history_close (self);
  step (self, self->redo, self->undo);
}

static const char *
newest_label (GArray *steps)
{
  return steps->len > 0 ? g_array_index (steps, Step, steps->len - 1).label : NULL;
}

const char *
tw_history_undo_label (const TwHistory *self)
{
  return newest_label (self->undo);
}

const char *
tw_history_redo_label (const TwHistory *self)
{
  return newest_label (self->redo);
}

gboolean
tw_history_is_saved (const TwHistory *self)
{
  return self->saved_at == (int)self->undo->len && (self->open == NULL || self->open->len == 0);
}

void
tw_history_mark_saved (TwHistory *self)
{
  if (self->open != NULL)
    tw_history_close (self);
  self->saved_at = (int)self->undo->len;
}

void
tw_history_mark_unsaved (TwHistory *self)
{
  self->saved_at = -1;
}
