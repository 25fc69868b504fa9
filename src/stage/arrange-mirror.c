/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * arrange-mirror.c - mirroring what stands in the job frame
 */
#include "stage/arrange-private.h"

#include "stage/extent.h"

#include <math.h>

#define TYPED_SAME_MM 1e-6 /* what was typed may be read again to another last bit */

/* --- figures -------------------------------------------------------------------------------------------- */

static void
set_value (TwArrangeMirror *self, const TwPart *part, const TwPart *element, guint field, TwValue *value)
{
  tw_change_group_add (self->group,
                       tw_change_set (part->id, element != NULL ? element->id : TW_ID_NONE, field, value));
}

/* What was typed, with the other sign, when that reads as @number. (transfer full) (nullable) */
static char *
negated_text (const TwArrangeMirror *self, const TwField *field, const char *typed, double number)
{
  TwUnitStyle style = tw_job_unit_style (self->set->job);
  g_autofree char *text = typed[0] == '-' ? g_strdup (typed + 1) : g_strconcat ("-", typed, NULL);
  TwValue value;
  gboolean same;

  if (!tw_value_parse (field, &style, text, &value, NULL))
    return NULL;
  same = fabs (value.number - number) < TYPED_SAME_MM;
  tw_value_clear (&value);
  return same ? g_steal_pointer (&text) : NULL;
}

/* -@value of a field, with what was typed. (transfer full) */
static TwValue
negated (const TwArrangeMirror *self, const TwField *field, const TwValue *value)
{
  TwValue made = tw_value_number (value->number == 0.0 ? 0.0 : -value->number);

  if (value->typed != NULL)
    made.typed = value->number == 0.0 ? g_strdup (value->typed)
                                      : negated_text (self, field, value->typed, made.number);
  return made;
}

void
tw_arrange_flip (TwArrangeMirror *self,
                 const TwPart *part,
                 const TwPart *element,
                 guint field,
                 double twice_mm)
{
  const TwPart *owner = element != NULL ? element : part;
  const TwField *info = &tw_kind_info (owner->kind)->fields[field];
  TwValue value = tw_part_get (owner, field), made;
  double filled = isfinite (value.number) ? value.number : 0.0;

  if (twice_mm == 0.0) {
    if (isfinite (value.number) && value.number != 0.0) {
      made = negated (self, info, &value);
      set_value (self, part, element, field, &made);
    }
  } else if (twice_mm - filled != filled) {
    made = tw_value_number (tw_freedom_clean_mm (twice_mm - filled));
    set_value (self, part, element, field, &made);
  }
  tw_value_clear (&value);
}

void
tw_arrange_carry (TwArrangeMirror *self, const TwPart *part, guint from, guint to, gboolean is_negated)
{
  TwValue value = tw_part_get (part, from), now = tw_part_get (part, to);
  TwValue made = tw_value_unknown (TW_FIELD_NUMBER);

  if (isfinite (value.number) && is_negated) {
    made = negated (self, &tw_kind_info (part->kind)->fields[from], &value);
  } else if (isfinite (value.number)) {
    made = tw_value_number (value.number);
    made.typed = g_strdup (value.typed);
  }
  if (isfinite (made.number) || isfinite (now.number))
    set_value (self, part, NULL, to, &made);
  tw_value_clear (&made);
  tw_value_clear (&value);
  tw_value_clear (&now);
}

void
tw_arrange_choose (TwArrangeMirror *self, const TwPart *part, guint field, int choice)
{
  TwValue value = tw_value_choice (TW_FIELD_CHOICE, choice);

  set_value (self, part, NULL, field, &value);
}

/* --- the job frame -------------------------------------------------------------------------------------- */

static void
flip_ring (TwArrangeMirror *self, const TwPart *part, GPtrArray *ring)
{
  for (guint i = 0; i < ring->len; i++) {
    const TwPart *corner = g_ptr_array_index (ring, i);

    tw_arrange_flip (self, part, corner, TW_CORNER_across_mm, self->twice_mm);
    tw_arrange_flip (self, part, corner, TW_CORNER_bow_mm, 0.0);
  }
}

static void
mirror_volume (TwArrangeMirror *self, const TwPart *part)
{
  const TwVolume *volume = (const TwVolume *)part;

  if (volume->plane != TW_DRAWN_SIDE) {
    flip_ring (self, part, volume->outline);
    flip_ring (self, part, volume->hole);
  } else if (self->twice_mm == 0.0) {
    tw_arrange_carry (self, part, TW_VOLUME_from_mm, TW_VOLUME_to_mm, TRUE);
    tw_arrange_carry (self, part, TW_VOLUME_to_mm, TW_VOLUME_from_mm, TRUE);
  } else if (isfinite (volume->from_mm) && isfinite (volume->to_mm)) {
    TwValue from = tw_value_number (tw_freedom_clean_mm (self->twice_mm - volume->to_mm));
    TwValue to = tw_value_number (tw_freedom_clean_mm (self->twice_mm - volume->from_mm));

    set_value (self, part, NULL, TW_VOLUME_from_mm, &from);
    set_value (self, part, NULL, TW_VOLUME_to_mm, &to);
  }
}

static void
mirror_opening (TwArrangeMirror *self, const TwPart *part)
{
  const TwOpening *opening = (const TwOpening *)part;

  if (opening->plane == TW_DRAWN_SIDE) {
    tw_arrange_flip (self, part, NULL, TW_OPENING_at_mm, self->twice_mm);
    tw_arrange_choose (self, part, TW_OPENING_way,
                       opening->way == TW_WAY_AGAINST ? TW_WAY_ALONG : TW_WAY_AGAINST);
  } else if (opening->outline->len > 0) {
    flip_ring (self, part, opening->outline);
  } else {
    tw_arrange_flip (self, part, NULL, TW_OPENING_across_mm, self->twice_mm);
  }
}

static void
mirror_engine_port (TwArrangeMirror *self, const TwPart *part)
{
  int leaves = ((const TwEnginePort *)part)->leaves;

  tw_arrange_flip (self, part, NULL, TW_ENGINE_PORT_x_mm, self->twice_mm);
  if (leaves == TW_LEAVES_AXIS_LEFT || leaves == TW_LEAVES_AXIS_RIGHT)
    tw_arrange_choose (self, part, TW_ENGINE_PORT_leaves,
                       leaves == TW_LEAVES_AXIS_LEFT ? TW_LEAVES_AXIS_RIGHT : TW_LEAVES_AXIS_LEFT);
}

static void
mirror_hose (TwArrangeMirror *self, const TwPart *part)
{
  GPtrArray *vias = ((const TwHose *)part)->vias;

  for (guint i = 0; i < vias->len; i++)
    tw_arrange_flip (self, part, g_ptr_array_index (vias, i), TW_VIA_x_mm, self->twice_mm);
}

static void
mirror_header_tank (TwArrangeMirror *self, const TwPart *part)
{
  tw_arrange_flip (self, part, NULL, TW_HEADER_TANK_x_mm, self->twice_mm);
  tw_arrange_flip (self, part, NULL, TW_HEADER_TANK_heading_deg, 0.0);
}

/* --- cores ---------------------------------------------------------------------------------------------- */

static gboolean
is_upright (const TwPart *core)
{
  return ((const TwCore *)core)->tubes == TW_TUBES_UPRIGHT;
}

/* Upright tubes are counted from the left: the first becomes the last. */
static void
mirror_tubes (TwArrangeMirror *self, const TwPart *part)
{
  const TwDrawing *drawing = tw_placement_drawing (self->set->placement);
  const TwCore *core = (const TwCore *)part, *drawn = (const TwCore *)tw_drawing_find (drawing, part->id);

  if (isfinite (core->first_tube_mm)) {
    TwValue first = tw_value_number (tw_freedom_clean_mm (
        drawn->face_width_mm - (drawn->tube_count - 1) * drawn->tube_pitch_mm - core->first_tube_mm));

    set_value (self, part, NULL, TW_CORE_first_tube_mm, &first);
  }
  for (guint i = 0; i < core->plugged->len; i++) {
    const TwPart *plug = g_ptr_array_index (core->plugged, i);
    TwValue tube = tw_value_choice (TW_FIELD_COUNT, drawn->tube_count + 1 - ((const TwPlug *)plug)->tube);

    set_value (self, part, plug, TW_PLUG_tube, &tube);
  }
}

/* The core's place and turns, and all that is fixed to it. */
static gboolean
mirror_core (TwArrangeMirror *self, const TwPart *part, GError **error)
{
  static const TwKind fixed[] = { TW_KIND_TANK, TW_KIND_SHROUD, TW_KIND_FAN };

  tw_arrange_flip (self, part, NULL, TW_CORE_x_mm, self->twice_mm);
  tw_arrange_flip (self, part, NULL, TW_CORE_turn_deg, 0.0);
  tw_arrange_flip (self, part, NULL, TW_CORE_roll_deg, 0.0);
  tw_arrange_flip (self, part, NULL, TW_CORE_heading_deg, 0.0);
  if (is_upright (part))
    mirror_tubes (self, part);
  for (guint k = 0; k < G_N_ELEMENTS (fixed); k++)
    for (guint i = 0; i < tw_job_count (self->set->job, fixed[k]); i++) {
      const TwPart *other = tw_job_get (self->set->job, fixed[k], i);

      if (tw_part_refers_to (other, part->id) && !tw_arrange_mirror_on_core (self, other, FALSE, error))
        return FALSE;
    }
  return TRUE;
}

/* Whether something that takes the part along is in the set too. */
static gboolean
goes_along (const TwArrangeSet *set, const TwPart *part)
{
  TwId owner = part->kind == TW_KIND_BAFFLE   ? ((const TwBaffle *)part)->tank
               : part->kind == TW_KIND_PORT   ? ((const TwPort *)part)->tank
               : part->kind == TW_KIND_TANK   ? ((const TwTank *)part)->core
               : part->kind == TW_KIND_SHROUD ? ((const TwShroud *)part)->core
               : part->kind == TW_KIND_FAN    ? ((const TwFan *)part)->core
                                              : TW_ID_NONE;
  const TwPart *found = tw_id_is_none (owner) ? NULL : tw_job_find (set->job, owner);

  return found != NULL && (tw_arrange_holds (set, owner) || goes_along (set, found));
}

static gboolean
mirror_part (TwArrangeMirror *self, const TwPart *part, GError **error)
{
  static void (*const in_job[TW_FIRST_ELEMENT]) (TwArrangeMirror *, const TwPart *) = {
    [TW_KIND_VOLUME] = mirror_volume,
    [TW_KIND_ENGINE_PORT] = mirror_engine_port,
    [TW_KIND_HOSE] = mirror_hose,
    [TW_KIND_OPENING] = mirror_opening,
    [TW_KIND_HEADER_TANK] = mirror_header_tank,
    [TW_KIND_EXIT] = mirror_opening,
  };

  if (goes_along (self->set, part))
    return TRUE;
  if (part->kind == TW_KIND_CORE)
    return mirror_core (self, part, error);
  if (in_job[part->kind] == NULL)
    return tw_arrange_mirror_on_core (self, part, TRUE, error);
  in_job[part->kind](self, part);
  return TRUE;
}

/* --- the plane ------------------------------------------------------------------------------------------ */

/* The middle of a core of the set, else of the first one. */
static gboolean
middle_of_core (const TwArrangeSet *set, double *x_mm, GError **error)
{
  guint n;
  const TwPlacedCore *cores = tw_placement_cores (set->placement, &n);

  for (guint i = 0; i < n; i++)
    if (tw_arrange_holds (set, cores[i].id)) {
      *x_mm = cores[i].frame.origin.x;
      return TRUE;
    }
  if (n > 0) {
    *x_mm = cores[0].frame.origin.x;
    return TRUE;
  }
  g_set_error (error, TW_ERROR, TW_ERROR_REFUSED, _ ("there is no core about whose middle it could be"));
  return FALSE;
}

static gboolean
plane_of (const TwArrangeSet *set, TwMirrorAbout about, double *x_mm, GError **error)
{
  TwSolidBox all = TW_SOLID_BOX_EMPTY;

  *x_mm = 0.0;
  if (about == TW_MIRROR_CORE)
    return middle_of_core (set, x_mm, error);
  if (about == TW_MIRROR_JOB)
    return TRUE;
  for (guint i = 0; i < set->n; i++)
    all = tw_solid_box_add (all, tw_extent_box (set->placement, set->ids[i]));
  if (all.from.x <= all.to.x)
    *x_mm = tw_freedom_clean_mm ((all.from.x + all.to.x) / 2.0);
  return TRUE;
}

TwChange *
tw_arrange_mirror (const TwArrangeSet *set, TwMirrorAbout about, GError **error)
{
  g_autoptr (TwChange) group = tw_change_group (set->label);
  TwArrangeMirror mirror = { set, group, 0.0 };
  double x_mm;

  if (!plane_of (set, about, &x_mm, error))
    return NULL;
  mirror.twice_mm = 2.0 * x_mm;
  for (guint i = 0; i < set->n; i++) {
    const TwPart *part = tw_arrange_part (set, i, error);

    if (part == NULL || !mirror_part (&mirror, part, error))
      return NULL;
  }
  return tw_arrange_finish (g_steal_pointer (&group), _ ("mirrored it would be as it is"), error);
}
