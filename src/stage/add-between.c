/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "stage/add-between.h"

#include "base/geom.h"
#include "stage/freedom.h"

#include <math.h>

#define FLAP_GAP_MM 10.0 /* between a flap and the one made after it; common practice, no source */

/* The list that gets an element, which comes to stand between two. */
typedef struct {
  const TwPlacement *placement;
  const TwPart *part;
  GPtrArray *list;
  guint nth;
  const TwPart *before, *after; /* NULL at an end */
  TwPart *made;
  TwChange *group;
} Job;

static TwId
new_id (const TwPart *part, TwKind kind)
{
  TwId id;

  for (guint n = 1;; n++) {
    g_autofree char *text = g_strdup_printf ("%s-%u", tw_kind_info (kind)->stem, n);

    if (tw_id_from_text (text, &id) && tw_part_element (part, id, NULL) == NULL)
      return id;
  }
}

static double
number_of (const TwPart *part, guint field)
{
  return G_STRUCT_MEMBER (double, part, tw_kind_info (part->kind)->fields[field].offset);
}

/* Lengths are cleaned of the last bits of halving; what is not known stays so. */
static void
put (Job *self, guint field, double number)
{
  const TwField *info = &tw_kind_info (self->made->kind)->fields[field];
  TwValue value
      = tw_value_number (info->quantity == TW_QUANTITY_LENGTH ? tw_freedom_clean_mm (number) : number);

  if (isfinite (number) && number >= info->low && number <= info->high)
    tw_part_put (self->made, field, &value);
}

static double
bow_mm (const TwPart *corner)
{
  double bow = ((const TwOutlineCorner *)corner)->bow_mm;

  return isfinite (bow) ? bow : 0.0;
}

static TwPoint
place_of (const TwPart *corner)
{
  return (TwPoint){ ((const TwOutlineCorner *)corner)->across_mm, ((const TwOutlineCorner *)corner)->up_mm };
}

/* Halves the edge from the corner before to the one after; a ring has no ends. */
static void
make_corner (Job *self)
{
  guint n = self->list->len;
  const TwPart *from = g_ptr_array_index (self->list, (self->nth + n - 1) % n);
  TwPoint a = place_of (from), b = place_of (g_ptr_array_index (self->list, self->nth % n)), at;
  TwValue rise;
  TwArc arc;

  at = (TwPoint){ (a.x_mm + b.x_mm) / 2.0, (a.y_mm + b.y_mm) / 2.0 };
  if (bow_mm (from) != 0.0) {
    arc = tw_arc_of_edge (a, b, bow_mm (from));
    at = tw_arc_point (&arc, 0.5);
    /* rise of half the arc: r·(1 − cos(θ/4)), elementary geometry */
    rise = tw_value_number (
        tw_freedom_clean_mm (copysign (arc.radius_mm * (1.0 - cos (arc.turn_rad / 4.0)), arc.turn_rad)));
    put (self, TW_CORNER_bow_mm, rise.number);
    tw_change_group_add (self->group, tw_change_set (self->part->id, from->id, TW_CORNER_bow_mm, &rise));
  }
  put (self, TW_CORNER_across_mm, at.x_mm);
  put (self, TW_CORNER_up_mm, at.y_mm);
}

/* Where the hose begins or ends; FALSE when that has no place. */
static gboolean
end_of (const Job *self, gboolean last, double at_mm[3])
{
  const TwHose *hose = (const TwHose *)self->part;
  TwId end = last ? hose->to : hose->from;
  const TwPlacedPort *port = tw_placement_port (self->placement, end);
  const TwPlacedEnginePort *engine = tw_placement_engine_port (self->placement, end);
  TwVec tip;

  if (port == NULL && engine == NULL)
    return FALSE;
  tip = port != NULL ? port->tip : engine->tip;
  at_mm[0] = tip.x;
  at_mm[1] = tip.y;
  at_mm[2] = tip.z;
  return TRUE;
}

static void
make_via (Job *self)
{
  const TwPart *beside = self->before != NULL ? self->before : self->after;
  double end_mm[3] = { 0, 0, 0 };
  gboolean at_end = self->before == NULL || self->after == NULL;
  gboolean placed = at_end && end_of (self, self->after == NULL, end_mm);

  for (guint i = 0; i < 3; i++) {
    double one_mm = number_of (beside, TW_VIA_x_mm + i), other_mm = one_mm;

    if (!at_end)
      other_mm = number_of (self->after, TW_VIA_x_mm + i);
    else if (placed)
      other_mm = end_mm[i];
    put (self, TW_VIA_x_mm + i, (one_mm + other_mm) / 2.0);
  }
}

/* Between its neighbours; at an end as far on as the last step, as far as the field allows. */
static void
make_curve_point (Job *self)
{
  int n = (int)self->list->len, nth = (int)self->nth;
  int a = self->before == NULL ? MIN (1, n - 1) : nth - 1;
  int b = self->before == NULL ? 0 : self->after == NULL ? MAX (0, n - 2) : nth;
  double share = self->before != NULL && self->after != NULL ? 0.5 : self->before == NULL ? 2.0 : -1.0;

  for (guint i = 0; i < TW_CURVE_POINT_N_FIELDS; i++) {
    double one = number_of (g_ptr_array_index (self->list, a), i);
    double other = number_of (g_ptr_array_index (self->list, b), i);
    const TwField *info = &tw_kind_info (TW_KIND_CURVE_POINT)->fields[i];

    put (self, i, CLAMP (one + share * (other - one), info->low, info->high));
  }
}

/* As large as its neighbour, beside it. */
static void
make_flap (Job *self)
{
  const TwPart *beside = self->before != NULL ? self->before : self->after;
  double step_mm = number_of (beside, TW_FLAP_width_mm) + FLAP_GAP_MM;

  put (self, TW_FLAP_u_mm, number_of (beside, TW_FLAP_u_mm) + (self->before != NULL ? step_mm : -step_mm));
  put (self, TW_FLAP_v_mm, number_of (beside, TW_FLAP_v_mm));
  put (self, TW_FLAP_width_mm, number_of (beside, TW_FLAP_width_mm));
  put (self, TW_FLAP_height_mm, number_of (beside, TW_FLAP_height_mm));
}

static gboolean
is_plugged (const Job *self, int tube, int row)
{
  for (guint i = 0; i < self->list->len; i++) {
    const TwPlug *plug = TW_ELEMENT (self->list, TwPlug, i);

    if (plug->tube == tube && (plug->row == row || plug->row < 0 || row < 0))
      return TRUE;
  }
  return FALSE;
}

/* The next tube that is not plugged, in the same row. */
static void
make_plug (Job *self)
{
  const TwPart *beside = self->before != NULL ? self->before : self->after;
  const TwField *info = &tw_kind_info (TW_KIND_PLUG)->fields[TW_PLUG_tube];
  int row = ((const TwPlug *)beside)->row, step = self->before != NULL ? 1 : -1;
  int tube = ((const TwPlug *)beside)->tube;
  TwValue value;

  while (tube >= (int)info->low && tube <= (int)info->high && is_plugged (self, tube, row))
    tube += step;
  value = tw_value_choice (TW_FIELD_COUNT, CLAMP (tube, (int)info->low, (int)info->high));
  tw_part_put (self->made, TW_PLUG_tube, &value);
  value = tw_value_choice (TW_FIELD_COUNT, row);
  tw_part_put (self->made, TW_PLUG_row, &value);
}

TwChange *
tw_add_between (const TwJob *job,
                const TwPlacement *placement,
                TwId part,
                guint list,
                guint nth,
                TwId *element)
{
  Job self = { .placement = placement, .part = tw_job_find (job, part), .nth = nth };
  TwKind kind = tw_kind_info (self.part->kind)->lists[list].element;

  self.list = tw_part_list (self.part, list);
  g_return_val_if_fail (self.list->len > 0 && nth <= self.list->len, NULL);

  self.before = nth > 0 ? g_ptr_array_index (self.list, nth - 1) : NULL;
  self.after = nth < self.list->len ? g_ptr_array_index (self.list, nth) : NULL;
  self.made = tw_part_new (kind, new_id (self.part, kind));
  self.group = tw_change_group (NULL);
  tw_change_group_add (self.group, tw_change_add_element (part, list, self.made, (int)nth));
  if (kind == TW_KIND_CORNER)
    make_corner (&self);
  else if (kind == TW_KIND_VIA)
    make_via (&self);
  else if (kind == TW_KIND_CURVE_POINT)
    make_curve_point (&self);
  else if (kind == TW_KIND_FLAP)
    make_flap (&self);
  else
    make_plug (&self);
  *element = self.made->id;
  return self.group;
}
