/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/session.h"

#include "app/chosen.h"
#include "base/source.h"
#include "cards/cards.h"

#include "job/read.h"
#include "job/write.h"

#include <gio/gio.h>
#include <glib/gi18n-lib.h>
#include <locale.h>

struct _TwSession {
  GObject parent_instance;

  TwCatalogue *catalogue;
  TwJob *job;
  TwHistory *history;
  TwGeos *geos;
  TwAnswer *answer; /* of the job as it is */
  TwSources *sources;
  GPtrArray *cards; /* of the answer, of TwCard; NULL: not written yet */
  guint watch;

  char *path;
  TwChosen *chosen;
  TwId core; /* that the Face view looks at */
  TwView view;
  gboolean was_modified;
};

enum { PROP_0, PROP_TITLE, PROP_PATH, PROP_MODIFIED, PROP_UNDO_LABEL, PROP_REDO_LABEL, PROP_VIEW, N_PROPS };

enum { JOB_LEAVES, JOB_REPLACED, JOB_CHANGED, SELECTION_CHANGED, N_SIGNALS };

static GParamSpec *props[N_PROPS];
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (TwSession, tw_session, G_TYPE_OBJECT)

static void
notify_history (TwSession *self)
{
  gboolean modified = tw_session_is_modified (self);

  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_UNDO_LABEL]);
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_REDO_LABEL]);
  if (modified != self->was_modified) {
    self->was_modified = modified;
    g_object_notify_by_pspec (G_OBJECT (self), props[PROP_MODIFIED]);
  }
}

/* A part that is gone cannot stay chosen. */
static void
check_selection (TwSession *self)
{
  if (tw_chosen_check (self->chosen, self->job))
    g_signal_emit (self, signals[SELECTION_CHANGED], 0);
}

static void
answer_again (TwSession *self)
{
  g_clear_pointer (&self->answer, tw_answer_unref);
  if (self->job != NULL)
    self->answer = tw_answer_new (self->job, self->catalogue, self->geos);
}

/* The widgets show the old cards until they are told of the change: these outlive that. */
static GPtrArray *
write_cards (TwSession *self)
{
  TwUnitStyle style = tw_session_style (self);
  GPtrArray *old = self->cards;

  self->cards = self->answer ? tw_cards_new (self->answer, self->sources, &style) : NULL;
  return old;
}

static void
tell_change (TwSession *self)
{
  g_autoptr (GPtrArray) old_cards = NULL;

  answer_again (self);
  old_cards = write_cards (self);
  check_selection (self);
  g_signal_emit (self, signals[JOB_CHANGED], 0);
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_TITLE]);
  notify_history (self);
}

static void
job_changed_cb (const TwJob *job, gpointer data)
{
  tell_change (data);
}

static void
drop_job (TwSession *self)
{
  if (self->job != NULL)
    tw_job_unwatch (self->job, self->watch);
  g_clear_pointer (&self->history, tw_history_free);
  g_clear_pointer (&self->answer, tw_answer_unref);
  g_clear_pointer (&self->cards, g_ptr_array_unref);
  g_clear_pointer (&self->job, tw_job_free);
}

static void
tw_session_finalize (GObject *object)
{
  TwSession *self = TW_SESSION (object);

  drop_job (self);
  tw_chosen_free (self->chosen);
  g_free (self->path);
  tw_geos_free (self->geos);
  if (self->sources != NULL)
    tw_sources_free (self->sources);
  tw_catalogue_free (self->catalogue);
  G_OBJECT_CLASS (tw_session_parent_class)->finalize (object);
}

static void
tw_session_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  TwSession *self = TW_SESSION (object);

  switch (id) {
  case PROP_TITLE:
    g_value_take_string (value, tw_session_title (self));
    break;
  case PROP_PATH:
    g_value_set_string (value, self->path);
    break;
  case PROP_MODIFIED:
    g_value_set_boolean (value, tw_session_is_modified (self));
    break;
  case PROP_UNDO_LABEL:
    g_value_set_string (value, self->history ? tw_history_undo_label (self->history) : NULL);
    break;
  case PROP_REDO_LABEL:
    g_value_set_string (value, self->history ? tw_history_redo_label (self->history) : NULL);
    break;
  case PROP_VIEW:
    g_value_set_uint (value, self->view);
    break;
  default:
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
  }
}

static void
tw_session_class_init (TwSessionClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  const GParamFlags readable = G_PARAM_READABLE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS;

  object_class->finalize = tw_session_finalize;
  object_class->get_property = tw_session_get_property;

  props[PROP_TITLE] = g_param_spec_string ("title", NULL, NULL, NULL, readable);
  props[PROP_PATH] = g_param_spec_string ("path", NULL, NULL, NULL, readable);
  props[PROP_MODIFIED] = g_param_spec_boolean ("modified", NULL, NULL, FALSE, readable);
  props[PROP_UNDO_LABEL] = g_param_spec_string ("undo-label", NULL, NULL, NULL, readable);
  props[PROP_REDO_LABEL] = g_param_spec_string ("redo-label", NULL, NULL, NULL, readable);
  props[PROP_VIEW] = g_param_spec_uint ("view", NULL, NULL, 0, TW_N_VIEWS - 1, 0, readable);
  g_object_class_install_properties (object_class, N_PROPS, props);

  signals[JOB_LEAVES]
      = g_signal_new ("job-leaves", TW_TYPE_SESSION, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[JOB_REPLACED] = g_signal_new ("job-replaced", TW_TYPE_SESSION, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                        NULL, G_TYPE_NONE, 0);
  signals[JOB_CHANGED]
      = g_signal_new ("job-changed", TW_TYPE_SESSION, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[SELECTION_CHANGED] = g_signal_new ("selection-changed", TW_TYPE_SESSION, G_SIGNAL_RUN_LAST, 0, NULL,
                                             NULL, NULL, G_TYPE_NONE, 0);
}

static void
tw_session_init (TwSession *self)
{
  g_autoptr (GError) error = NULL;

  self->catalogue = tw_catalogue_load (&error);
  self->sources = tw_sources_load (NULL);
  self->geos = tw_geos_new ();
  self->chosen = tw_chosen_new ();
  if (self->catalogue == NULL)
    g_error ("The program's own data cannot be read: %s", error->message);
}

TwSession *
tw_session_new (void)
{
  return g_object_new (TW_TYPE_SESSION, NULL);
}

gboolean
tw_session_has_job (TwSession *self)
{
  return self->job != NULL;
}

static void
set_path (TwSession *self, const char *path)
{
  char *copy = g_strdup (path);

  g_free (self->path);
  self->path = copy;
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_PATH]);
}

void
tw_session_take_job (TwSession *self, TwJob *job, const char *path)
{
  g_return_if_fail (job != NULL);

  g_signal_emit (self, signals[JOB_LEAVES], 0);
  drop_job (self);
  self->job = job;
  self->history = tw_history_new (job);
  self->watch = tw_job_watch (job, job_changed_cb, self);
  set_path (self, path);
  self->core = TW_ID_NONE;
  (void)tw_chosen_set (self->chosen, NULL, 0);
  g_signal_emit (self, signals[JOB_REPLACED], 0);
  tell_change (self);
}

gboolean
tw_session_open (TwSession *self, const char *path, GError **error)
{
  TwJob *job = tw_job_read_file (path, error);

  if (job == NULL)
    return FALSE;
  tw_session_take_job (self, job, path);
  return TRUE;
}

gboolean
tw_session_save (TwSession *self, const char *path, GError **error)
{
  g_return_val_if_fail (self->job != NULL, FALSE);

  if (tw_history_is_open (self->history))
    tw_history_close (self->history);
  if (!tw_job_save (self->job, path, error))
    return FALSE;
  tw_history_mark_saved (self->history);
  set_path (self, path);
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_TITLE]);
  notify_history (self);
  return TRUE;
}

TwJob *
tw_session_job (TwSession *self)
{
  return self->job;
}

TwHistory *
tw_session_history (TwSession *self)
{
  return self->history;
}

const TwAnswer *
tw_session_answer (TwSession *self)
{
  return self->answer;
}

const TwDrawing *
tw_session_drawing (TwSession *self)
{
  return self->answer ? tw_answer_drawing (self->answer) : NULL;
}

const TwPlacement *
tw_session_placement (TwSession *self)
{
  return self->answer ? tw_answer_placement (self->answer) : NULL;
}

const TwPasses *
tw_session_passes (TwSession *self)
{
  return self->answer ? tw_answer_passes (self->answer) : NULL;
}

TwGeos *
tw_session_geos (TwSession *self)
{
  return self->geos;
}

const TwCatalogue *
tw_session_catalogue (TwSession *self)
{
  return self->catalogue;
}

const GPtrArray *
tw_session_cards (TwSession *self)
{
  return self->cards;
}

void
tw_session_tell_history (TwSession *self)
{
  notify_history (self);
}

const char *
tw_session_path (TwSession *self)
{
  return self->path;
}

char *
tw_session_title (TwSession *self)
{
  const char *name = self->job ? tw_job_settings (self->job)->name : NULL;

  if (name != NULL && name[0] != '\0')
    return g_strdup (name);
  if (self->path != NULL)
    return g_filename_display_basename (self->path);
  return g_strdup (self->job ? _ ("New job") : "");
}

gboolean
tw_session_is_modified (TwSession *self)
{
  return self->history != NULL && !tw_history_is_saved (self->history);
}

gboolean
tw_session_do (TwSession *self, TwChange *change, GError **error)
{
  g_return_val_if_fail (self->history != NULL, FALSE);

  if (tw_history_is_open (self->history))
    tw_history_cancel (self->history);
  if (!tw_history_do (self->history, change, error))
    return FALSE;
  notify_history (self);
  return TRUE;
}

void
tw_session_undo (TwSession *self)
{
  if (self->history == NULL)
    return;
  tw_history_undo (self->history);
  notify_history (self);
}

void
tw_session_redo (TwSession *self)
{
  if (self->history == NULL)
    return;
  tw_history_redo (self->history);
  notify_history (self);
}

TwUnitStyle
tw_session_style (TwSession *self)
{
  TwUnitStyle style = self->job ? tw_job_unit_style (self->job) : TW_UNIT_STYLE_MM;
  const struct lconv *locale = localeconv ();

  style.decimal = locale->decimal_point[0] == ',' ? ',' : '.';
  return style;
}

TwId
tw_session_selection (TwSession *self)
{
  return tw_chosen_lead (self->chosen);
}

const TwId *
tw_session_chosen (TwSession *self, guint *n)
{
  return tw_chosen_parts (self->chosen, n);
}

gboolean
tw_session_is_chosen (TwSession *self, TwId part)
{
  return tw_chosen_has (self->chosen, part);
}

TwId
tw_session_element (TwSession *self)
{
  return tw_chosen_element (self->chosen);
}

/* The core that @part belongs to, or TW_ID_NONE. */
static TwId
core_of (TwSession *self, TwId part)
{
  guint n;
  const TwPlacedSolid *solids = tw_placement_solids (tw_session_placement (self), &n);

  for (guint i = 0; i < n; i++)
    if (tw_id_equal (solids[i].part, part))
      return solids[i].core;
  return TW_ID_NONE;
}

static void
look_at_core (TwSession *self, TwId part)
{
  TwId core = self->answer ? core_of (self, part) : TW_ID_NONE;

  if (tw_id_is_none (core) || tw_id_equal (core, self->core))
    return;
  self->core = core;
  if (self->view != TW_VIEW_FACE)
    return;
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_VIEW]);
}

static void
tell_chosen (TwSession *self, gboolean changed)
{
  if (!changed)
    return;
  look_at_core (self, tw_chosen_lead (self->chosen));
  g_signal_emit (self, signals[SELECTION_CHANGED], 0);
}

void
tw_session_select (TwSession *self, TwId part)
{
  tell_chosen (self, tw_chosen_set (self->chosen, &part, 1));
}

void
tw_session_choose_also (TwSession *self, TwId part)
{
  tell_chosen (self, tw_chosen_toggle (self->chosen, part));
}

void
tw_session_choose (TwSession *self, const TwId *ids, guint n)
{
  tell_chosen (self, tw_chosen_set (self->chosen, ids, n));
}

void
tw_session_choose_element (TwSession *self, TwId part, TwId element)
{
  tell_chosen (self, tw_chosen_set_element (self->chosen, part, element));
}

TwView
tw_session_view (TwSession *self)
{
  return self->view;
}

void
tw_session_set_view (TwSession *self, TwView view)
{
  g_return_if_fail (view < TW_N_VIEWS);

  if (self->view == view)
    return;
  self->view = view;
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_VIEW]);
}

const TwPlacedCore *
tw_session_core (TwSession *self)
{
  const TwPlacement *placement = tw_session_placement (self);
  const TwPlacedCore *core, *cores;
  guint n;

  if (placement == NULL)
    return NULL;
  core = tw_placement_core (placement, self->core);
  cores = tw_placement_cores (placement, &n);
  return core ? core : n > 0 ? &cores[0] : NULL;
}

gboolean
tw_session_view_axes (TwSession *self, TwStageView *axes)
{
  const TwPlacedCore *core = tw_session_core (self);
  TwFrame frame;

  if (self->answer == NULL || (self->view == TW_VIEW_FACE && core == NULL))
    return FALSE;
  frame = tw_view_frame (tw_session_placement (self), self->view, core ? core->id : TW_ID_NONE);
  *axes = (TwStageView){ frame.u, frame.v, frame.origin };
  return TRUE;
}
