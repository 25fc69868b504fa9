/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "stage/grip-private.h"

#include <math.h>

#define LEAST_FACTOR 1e-9 /* dimensionless: less changes nothing */
#define SAME_PLACE_MM 1e-6

struct _TwGrips {
  GArray *entries; /* of TwGripEntry */
};

/* A kind of part: how its grips are listed. */
static void (*const list_of_kind[TW_N_KINDS]) (TwGripMaker *) = {
  [TW_KIND_CORE] = tw_grip_list_core,
  [TW_KIND_TANK] = tw_grip_list_tank,
  [TW_KIND_BAFFLE] = tw_grip_list_baffle,
  [TW_KIND_PORT] = tw_grip_list_port,
  [TW_KIND_SHROUD] = tw_grip_list_shroud,
  [TW_KIND_FAN] = tw_grip_list_fan,
  [TW_KIND_ENGINE_PORT] = tw_grip_list_engine_port,
  [TW_KIND_HOSE] = tw_grip_list_hose,
  [TW_KIND_VOLUME] = tw_grip_list_volume,
  [TW_KIND_HEADER_TANK] = tw_grip_list_header_tank,
  [TW_KIND_OPENING] = tw_grip_list_opening,
  [TW_KIND_EXIT] = tw_grip_list_opening,
};

/* --- making one ----------------------------------------------------------------------------------------- */

static TwFreedom *
newest (TwGripMaker *self)
{
  return &self->now.freedoms.list[self->now.freedoms.n - 1];
}

/* A freedom that changes nothing, or something unknown, is none. */
static void
drop_lame (TwGripMaker *self)
{
  TwFreedoms *freedoms = &self->now.freedoms;

  if (freedoms->n == 0 || (!self->is_lame && newest (self)->n_targets > 0))
    return;
  g_array_set_size (freedoms->targets, newest (self)->first_target);
  freedoms->n--;
}

void
tw_grip_begin (TwGripMaker *self, TwGripKind kind, guint nth, TwVec place, const char *what)
{
  self->now = (TwGripEntry){ { kind, self->part->id, TW_ID_NONE, nth, place, { 0 }, { { 0 } }, 0, what },
                             tw_freedoms () };
  self->now.grip.at = tw_stage_view_place (self->view, place);
  self->is_lame = FALSE;
}

void
tw_grip_of (TwGripMaker *self, const TwPart *element)
{
  if (element != NULL)
    self->now.grip.element = element->id;
}

void
tw_grip_go (TwGripMaker *self, TwVec along)
{
  TwFreedoms *freedoms = &self->now.freedoms;

  drop_lame (self);
  g_return_if_fail (freedoms->n < TW_FREEDOM_MOST);
  freedoms->list[freedoms->n++] = (TwFreedom){ along, -G_MAXDOUBLE, G_MAXDOUBLE, freedoms->targets->len, 0 };
  self->is_lame = FALSE;
}

void
tw_grip_limit (TwGripMaker *self, double low_mm, double high_mm)
{
  newest (self)->low_mm = MIN (0.0, MAX (newest (self)->low_mm, low_mm));
  newest (self)->high_mm = MAX (0.0, MIN (newest (self)->high_mm, high_mm));
}

void
tw_grip_change_of (TwGripMaker *self, const TwPart *element, guint field, double factor)
{
  const TwPart *owner = element != NULL ? element : self->part;
  const TwField *info = &tw_kind_info (owner->kind)->fields[field];
  double value_mm = G_STRUCT_MEMBER (double, owner, info->offset);
  TwFreedomTarget target = { element != NULL ? element->id : TW_ID_NONE, field, factor, value_mm };
  double ends_mm[2] = { (info->low - value_mm) / factor, (info->high - value_mm) / factor };

  if (fabs (factor) < LEAST_FACTOR)
    return;
  if (!isfinite (value_mm)) {
    self->is_lame = TRUE;
    return;
  }
  g_array_append_val (self->now.freedoms.targets, target);
  newest (self)->n_targets++;
  tw_grip_limit (self, MIN (ends_mm[0], ends_mm[1]), MAX (ends_mm[0], ends_mm[1]));
}

void
tw_grip_change (TwGripMaker *self, guint field, double factor)
{
  tw_grip_change_of (self, NULL, field, factor);
}

/* Which ways are seen: one, or two that are not the same. */
static void
find_ways (TwGripMaker *self)
{
  TwGrip *grip = &self->now.grip;

  for (guint i = 0; i < self->now.freedoms.n && grip->n_ways < 2; i++) {
    TwPoint seen = tw_stage_view_direction (self->view, self->now.freedoms.list[i].along);
    double long_mm = hypot (seen.x_mm, seen.y_mm);
    TwPoint way = { seen.x_mm / long_mm, seen.y_mm / long_mm };

    if (long_mm < TW_FREEDOM_LEAST
        || (grip->n_ways == 1
            && fabs (way.x_mm * grip->ways[0].y_mm - way.y_mm * grip->ways[0].x_mm) < TW_FREEDOM_LEAST))
      continue;
    grip->ways[grip->n_ways++] = way;
  }
}

void
tw_grip_end (TwGripMaker *self)
{
  gboolean wanted;

  drop_lame (self);
  find_ways (self);
  wanted = self->now.grip.n_ways >= (self->now.grip.kind == TW_GRIP_CORNER ? 2 : 1);
  if (wanted)
    g_array_append_val (self->entries, self->now);
  else
    tw_freedoms_clear (&self->now.freedoms);
}

void
tw_grip_go_axes (TwGripMaker *self, const TwPart *element, const guint fields[3])
{
  const TwVec axes[3] = { { 1.0, 0.0, 0.0 }, { 0.0, 1.0, 0.0 }, { 0.0, 0.0, 1.0 } };

  for (guint i = 0; i < 3; i++) {
    tw_grip_go (self, axes[i]);
    tw_grip_change_of (self, element, fields[i], 1.0);
  }
}

/* --- all of a part -------------------------------------------------------------------------------------- */

static void
clear_entry (gpointer data)
{
  tw_freedoms_clear (&((TwGripEntry *)data)->freedoms);
}

TwGrips *
tw_grips_new (const TwPlacement *placement, const TwStageView *view, TwId part)
{
  TwGrips *self = g_new0 (TwGrips, 1);
  TwGripMaker maker = { .placement = placement, .view = view };

  self->entries = g_array_new (FALSE, FALSE, sizeof (TwGripEntry));
  g_array_set_clear_func (self->entries, clear_entry);
  maker.entries = self->entries;
  maker.part = tw_drawing_find (tw_placement_drawing (placement), part);
  if (maker.part != NULL && list_of_kind[maker.part->kind] != NULL)
    list_of_kind[maker.part->kind](&maker);
  return self;
}

void
tw_grips_free (TwGrips *self)
{
  g_array_unref (self->entries);
  g_free (self);
}

guint
tw_grips_count (const TwGrips *self)
{
  return self->entries->len;
}

const TwGrip *
tw_grips_get (const TwGrips *self, guint nth)
{
  return nth < self->entries->len ? &g_array_index (self->entries, TwGripEntry, nth).grip : NULL;
}

const TwFreedoms *
tw_grips_freedoms (const TwGrips *self, guint nth)
{
  g_return_val_if_fail (nth < self->entries->len, NULL);
  return &g_array_index (self->entries, TwGripEntry, nth).freedoms;
}

const TwGrip *
tw_grips_body (const TwGrips *self)
{
  const TwGrip *first = tw_grips_get (self, 0);

  return first != NULL && first->kind == TW_GRIP_BODY ? first : NULL;
}

int
tw_grips_find (const TwGrips *self, const TwGrip *grip)
{
  for (guint i = 0; i < self->entries->len; i++) {
    const TwGrip *one = tw_grips_get (self, i);

    if (one->kind == grip->kind && one->nth == grip->nth && tw_id_equal (one->element, grip->element))
      return (int)i;
  }
  return -1;
}

const TwGrip *
tw_grips_at (const TwGrips *self, TwPoint at, double reach_mm)
{
  const TwGrip *best = NULL;
  double best_mm = reach_mm;

  for (guint i = 0; i < self->entries->len; i++) {
    const TwGrip *grip = tw_grips_get (self, i);
    double off_mm = tw_point_distance_mm (grip->at, at);

    if (grip->kind == TW_GRIP_BODY || !(off_mm <= reach_mm))
      continue;
    if (best == NULL || off_mm < best_mm - SAME_PLACE_MM
        || (off_mm <= best_mm + SAME_PLACE_MM && grip->kind == TW_GRIP_ELEMENT
            && best->kind != TW_GRIP_ELEMENT)) {
      best = grip;
      best_mm = off_mm;
    }
  }
  return best;
}

const char *
tw_grips_why_none (const TwPlacement *placement, const TwStageView *view, TwId part)
{
  g_autoptr (TwGrips) grips = tw_grips_new (placement, view, part);
  const TwPart *drawn = tw_drawing_find (tw_placement_drawing (placement), part);
  guint n;
  const TwUnplaced *unplaced = tw_placement_unplaced (placement, &n);

  if (tw_grips_count (grips) > 0)
    return NULL;
  if (drawn == NULL)
    return N_ ("it is not there any more");
  for (guint i = 0; i < n; i++)
    if (tw_id_equal (unplaced[i].part, part))
      return unplaced[i].why;
  if (list_of_kind[drawn->kind] == NULL)
    return N_ ("it has no place of its own");
  if (drawn->kind == TW_KIND_HOSE && ((const TwHose *)drawn)->vias->len == 0)
    return N_ ("a hose without via-points goes where its ends go");
  return N_ ("this view does not show the way in which it can go");
}
