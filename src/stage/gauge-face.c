/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * gauge-face.c - distances of fans, shrouds and flaps on the face
 */
#include "stage/gauge-private.h"

#include <math.h>

/* From the four sides of a box to those of another, straight across; @w_mm: where both are drawn. */
static void
measure_sides (TwGaugeSearch *self, const TwPlacedCore *core, const TwBox *from, const TwBox *to, double w_mm)
{
  double u_mm = (from->x0_mm + from->x1_mm) / 2.0, v_mm = (from->y0_mm + from->y1_mm) / 2.0;
  const TwVec starts[4] = { { from->x0_mm, v_mm, w_mm },
                            { from->x1_mm, v_mm, w_mm },
                            { u_mm, from->y0_mm, w_mm },
                            { u_mm, from->y1_mm, w_mm } };
  const TwVec ends[4] = {
    { to->x0_mm, v_mm, w_mm }, { to->x1_mm, v_mm, w_mm }, { u_mm, to->y0_mm, w_mm }, { u_mm, to->y1_mm, w_mm }
  };

  for (guint i = 0; i < 4; i++)
    tw_gauge_take (self, i, tw_frame_to_job (&core->frame, starts[i]),
                   tw_frame_to_job (&core->frame, ends[i]), TW_ID_NONE);
}

/* What was measured leads to @neighbour. */
static void
name_all (TwGaugeSearch *self, TwId neighbour)
{
  for (guint i = 0; i < TW_GAUGE_MOST; i++)
    if (tw_id_is_none (self->found[i].neighbour))
      self->found[i].neighbour = neighbour;
}

/* Ring to ring on the line between the centres, in the place of its main direction. */
static void
measure_fans (TwGaugeSearch *self, const TwPlacedFan *fan, const TwPlacedCore *core)
{
  guint n;
  const TwPlacedFan *fans = tw_placement_fans (self->placement, &n);

  for (guint i = 0; i < n; i++) {
    double apart_mm = tw_point_distance_mm (fan->centre, fans[i].centre);
    double across = (fans[i].centre.x_mm - fan->centre.x_mm) / apart_mm;
    double up = (fans[i].centre.y_mm - fan->centre.y_mm) / apart_mm;
    double from_mm = fan->ring_mm / 2.0, to_mm = apart_mm - fans[i].ring_mm / 2.0;
    guint nth = fabs (across) >= fabs (up) ? (across < 0.0 ? 0 : 1) : (up < 0.0 ? 2 : 3);

    if (!tw_id_equal (fans[i].core, fan->core) || fans[i].is_pusher != fan->is_pusher || !(to_mm > from_mm))
      continue;
    tw_gauge_take (
        self, nth,
        tw_frame_to_job (&core->frame, tw_vec (fan->centre.x_mm + across * from_mm,
                                               fan->centre.y_mm + up * from_mm, fan->mounting_w_mm)),
        tw_frame_to_job (&core->frame, tw_vec (fan->centre.x_mm + across * to_mm,
                                               fan->centre.y_mm + up * to_mm, fan->mounting_w_mm)),
        fans[i].id);
  }
}

static void
measure_fan (TwGaugeSearch *self, const TwPlacedFan *fan)
{
  const TwPlacedCore *core = tw_placement_core (self->placement, fan->core);
  const TwPlacedShroud *shroud = tw_placement_shroud (self->placement, fan->shroud);
  double radius_mm = fan->ring_mm / 2.0;
  TwBox ring = { fan->centre.x_mm - radius_mm, fan->centre.y_mm - radius_mm, fan->centre.x_mm + radius_mm,
                 fan->centre.y_mm + radius_mm };

  measure_sides (self, core, &ring, shroud != NULL ? &shroud->mouth : &core->face, fan->mounting_w_mm);
  name_all (self, shroud != NULL ? shroud->id : core->id);
  measure_fans (self, fan, core);
}

void
tw_gauge_faces (TwGaugeSearch *self, TwId part, TwId element)
{
  const TwPlacedFan *fan = tw_placement_fan (self->placement, part);
  const TwPlacedShroud *shroud = tw_placement_shroud (self->placement, part);
  const TwPlacedCore *core = shroud != NULL ? tw_placement_core (self->placement, shroud->core) : NULL;
  guint n;
  const TwPlacedFlap *flaps = tw_placement_flaps (self->placement, &n);

  if (fan != NULL)
    measure_fan (self, fan);
  if (core == NULL)
    return;
  if (tw_id_is_none (element)) {
    measure_sides (self, core, &shroud->mouth, &core->face, shroud->mouth_w_mm);
    name_all (self, core->id);
    return;
  }
  for (guint i = 0; i < n; i++)
    if (tw_id_equal (flaps[i].shroud, part) && tw_id_equal (flaps[i].id, element))
      measure_sides (self, core, &flaps[i].opening, &shroud->mouth, shroud->fans_w_mm);
  name_all (self, part);
}
