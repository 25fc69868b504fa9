/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Actions that change the drawing: adding, copying, mirroring, aligning, spacing, ordering, removing.
 */
#include "app/window-private.h"

#include "app/part-words.h"
#include "stage/add.h"
#include "stage/arrange.h"

#include <glib/gi18n-lib.h>

#define COPY_AWAY_PX 24.0
#define WINDOW(data) TW_WINDOW (data)

/* Does @change, or says why it cannot be. FALSE then. */
static gboolean
do_or_say (TwWindow *self, TwChange *change, GError *refusal)
{
  g_autoptr (GError) error = refusal;

  if (change != NULL && tw_session_do (self->session, change, error ? NULL : &error))
    return TRUE;
  if (error != NULL)
    tw_window_say (self, error->message);
  return FALSE;
}

static gboolean
fill_where (TwWindow *self, TwAddWhere *where, TwStageView *axes)
{
  TwSession *session = self->session;

  if (!tw_session_has_job (session))
    return FALSE;
  if (!tw_session_view_axes (session, axes))
    *axes = tw_stage_view_plane (TW_PLANE_FRONT);
  *where = (TwAddWhere){
    .job = tw_session_job (session),
    .placement = tw_session_placement (session),
    .passes = tw_session_passes (session),
    .view = axes,
    .chosen = tw_session_selection (session),
    .element = tw_session_element (session),
  };
  where->n_points = tw_canvas_menu_points (self->canvas, where->points);
  return TRUE;
}

static void
add_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  TwWindow *self = WINDOW (data);
  const char *wanted = g_variant_get_string (parameter, NULL);
  GError *error = NULL;
  TwStageView axes;
  TwAddWhere where;
  TwChange *change;
  TwId id = TW_ID_NONE;
  guint kind;

  for (kind = 0; kind < TW_FIRST_ELEMENT; kind++)
    if (g_str_equal (tw_kind_info (kind)->stem, wanted))
      break;
  if (kind == TW_FIRST_ELEMENT || !fill_where (self, &where, &axes))
    return;
  change = tw_add_part (&where, kind, &id, &error);
  if (do_or_say (self, change, error))
    tw_session_select (self->session, id);
}

static void
add_element_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  TwWindow *self = WINDOW (data);
  const char *wanted = g_variant_get_string (parameter, NULL);
  const TwPart *part;
  GError *error = NULL;
  TwStageView axes;
  TwAddWhere where;
  TwChange *change;
  TwId element = TW_ID_NONE;

  if (!fill_where (self, &where, &axes))
    return;
  part = tw_job_find (where.job, where.chosen);
  for (guint i = 0; part != NULL && i < tw_kind_info (part->kind)->n_lists; i++) {
    if (!g_str_equal (tw_kind_info (part->kind)->lists[i].name, wanted))
      continue;
    change = tw_add_element (&where, i, &element, &error);
    if (do_or_say (self, change, error))
      tw_session_choose_element (self->session, where.chosen, element); /* @part is gone */
    return;
  }
}

/* FALSE when nothing is chosen that could be arranged. */
static gboolean
fill_set (TwWindow *self, TwArrangeSet *set, TwStageView *axes, const char *label)
{
  TwSession *session = self->session;
  guint n;
  const TwId *ids = tw_session_chosen (session, &n);

  if (!tw_session_has_job (session) || n == 0 || g_str_equal (ids[0].text, "job"))
    return FALSE;
  if (!tw_session_view_axes (session, axes))
    *axes = tw_stage_view_plane (TW_PLANE_FRONT);
  *set = (TwArrangeSet){ tw_session_job (session), tw_session_placement (session), axes, ids, n, label };
  return TRUE;
}

static const char *
lead_name (TwWindow *self)
{
  const TwPart *lead = tw_job_find (tw_session_job (self->session), tw_session_selection (self->session));

  return lead ? tw_part_words_name (lead) : "";
}

static void
delete_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  TwWindow *self = WINDOW (data);
  TwId element = tw_session_element (self->session), lead = tw_session_selection (self->session);
  GError *error = NULL;
  TwArrangeSet set;
  TwStageView axes;
  g_autofree char *label = NULL;

  if (!tw_id_is_none (element)) {
    (void)do_or_say (self, tw_change_remove (lead, element), NULL);
    return;
  }
  label = g_strdup_printf (_ ("Removal of %s"), lead_name (self));
  if (!fill_set (self, &set, &axes, label))
    return;
  {
    TwChange *change = tw_arrange_remove (&set, &error);

    (void)do_or_say (self, change, error);
  }
}

static void
duplicate_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  TwWindow *self = WINDOW (data);
  double away_mm = COPY_AWAY_PX / tw_canvas_px_mm (self->canvas);
  g_autofree char *label = g_strdup_printf (_ ("Copy of %s"), lead_name (self));
  g_autoptr (GArray) made = NULL;
  GError *error = NULL;
  TwArrangeSet set;
  TwStageView axes;
  TwChange *change;

  if (!fill_set (self, &set, &axes, label))
    return;
  change = tw_arrange_duplicate (&set, (TwPoint){ away_mm, -away_mm }, &made, &error);
  if (do_or_say (self, change, error))
    tw_session_choose (self->session, (const TwId *)made->data, made->len);
}

static void
mirror_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  static const char *const names[] = { "core", "job", "set" };
  g_autofree char *label = g_strdup_printf (_ ("Mirroring of %s"), lead_name (WINDOW (data)));
  TwWindow *self = WINDOW (data);
  GError *error = NULL;
  TwArrangeSet set;
  TwStageView axes;

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    if (g_str_equal (names[i], g_variant_get_string (parameter, NULL))
        && fill_set (self, &set, &axes, label)) {
      TwChange *change = tw_arrange_mirror (&set, i, &error);

      (void)do_or_say (self, change, error);
    }
}

static void
align_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  static const char *const names[] = { "left", "middle", "right", "top", "centre", "bottom" };
  TwWindow *self = WINDOW (data);
  GError *error = NULL;
  TwArrangeSet set;
  TwStageView axes;

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    if (g_str_equal (names[i], g_variant_get_string (parameter, NULL))
        && fill_set (self, &set, &axes, _ ("Alignment"))) {
      TwChange *change = tw_arrange_align (&set, i, &error);

      (void)do_or_say (self, change, error);
    }
}

static void
space_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  TwWindow *self = WINDOW (data);
  const char *wanted = g_variant_get_string (parameter, NULL);
  GError *error = NULL;
  TwArrangeSet set;
  TwStageView axes;
  TwChange *change;

  if (!fill_set (self, &set, &axes, _ ("Even Spacing")))
    return;
  change = tw_arrange_space (&set, g_str_has_prefix (wanted, "up"), g_str_has_suffix (wanted, "middles"),
                             &error);
  (void)do_or_say (self, change, error);
}

static void
order_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  TwWindow *self = WINDOW (data);
  gboolean first = g_str_equal (g_variant_get_string (parameter, NULL), "first");
  GError *error = NULL;
  TwArrangeSet set;
  TwStageView axes;
  TwChange *change;

  if (!fill_set (self, &set, &axes, _ ("Order of the Parts")))
    return;
  change = tw_arrange_reorder (&set, first, &error);
  (void)do_or_say (self, change, error);
}

/* All parts, or all of the lead part's kind. */
static void
choose_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  TwWindow *self = WINDOW (data);
  const TwJob *job = tw_session_job (self->session);
  gboolean kind_only = g_str_equal (g_variant_get_string (parameter, NULL), "kind");
  const TwPart *lead = job ? tw_job_find (job, tw_session_selection (self->session)) : NULL;
  g_autoptr (GArray) ids = g_array_new (FALSE, FALSE, sizeof (TwId));

  for (guint kind = TW_KIND_SETTINGS + 1; job != NULL && kind < TW_FIRST_ELEMENT; kind++) {
    if (kind_only && (lead == NULL || lead->kind != kind))
      continue;
    for (guint i = 0; i < tw_job_count (job, kind); i++)
      g_array_append_val (ids, tw_job_get (job, kind, i)->id);
  }
  if (ids->len > 0)
    tw_session_choose (self->session, (const TwId *)ids->data, ids->len);
}

static void
zoom_chosen_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  tw_canvas_zoom_to_chosen (WINDOW (data)->canvas);
}

static const GActionEntry entries[] = {
  { "add", add_cb, "s" },       { "add-element", add_element_cb, "s" },
  { "delete", delete_cb },      { "duplicate", duplicate_cb },
  { "mirror", mirror_cb, "s" }, { "align", align_cb, "s" },
  { "space", space_cb, "s" },   { "order", order_cb, "s" },
  { "choose", choose_cb, "s" }, { "zoom-chosen", zoom_chosen_cb },
};

static void
enable (TwWindow *self, const char *name, gboolean enabled)
{
  GAction *action = g_action_map_lookup_action (G_ACTION_MAP (self), name);

  g_simple_action_set_enabled (G_SIMPLE_ACTION (action), enabled);
}

void
tw_window_update_edit_actions (TwWindow *self)
{
  gboolean has_job = tw_session_has_job (self->session);
  TwId lead = tw_session_selection (self->session);
  gboolean has_part = has_job && !tw_id_is_none (lead) && !g_str_equal (lead.text, "job");
  guint n;

  (void)tw_session_chosen (self->session, &n);
  enable (self, "add", has_job);
  enable (self, "choose", has_job);
  enable (self, "add-element", has_part && n == 1);
  enable (self, "delete", has_part);
  enable (self, "duplicate", has_part);
  enable (self, "mirror", has_part);
  enable (self, "order", has_part);
  enable (self, "zoom-chosen", has_part);
  enable (self, "align", has_part && n > 1);
  enable (self, "space", has_part && n > 2);
}

void
tw_window_add_edit_actions (TwWindow *self)
{
  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
}
