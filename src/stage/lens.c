/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "stage/lens.h"

#include <math.h>

#define EMPTY_MM 1000.0 /* shown of an empty job */

TwLens
tw_lens_fit (TwBox box, double width_px, double height_px, double margin_px)
{
  double room_x = MAX (width_px - 2.0 * margin_px, 1.0);
  double room_y = MAX (height_px - 2.0 * margin_px, 1.0);
  double wide, high;
  TwLens self = { .width_px = width_px, .height_px = height_px };

  if (tw_box_is_empty (box))
    box = (TwBox){ -EMPTY_MM / 2.0, -EMPTY_MM / 2.0, EMPTY_MM / 2.0, EMPTY_MM / 2.0 };
  wide = MAX (box.x1_mm - box.x0_mm, 1.0);
  high = MAX (box.y1_mm - box.y0_mm, 1.0);
  self.middle = (TwPoint){ (box.x0_mm + box.x1_mm) / 2.0, (box.y0_mm + box.y1_mm) / 2.0 };
  self.px_mm = CLAMP (MIN (room_x / wide, room_y / high), TW_LENS_LEAST_PX_MM, TW_LENS_MOST_PX_MM);
  return self;
}

TwPixel
tw_lens_to_screen (const TwLens *self, TwPoint at)
{
  return (TwPixel){ self->width_px / 2.0 + (at.x_mm - self->middle.x_mm) * self->px_mm,
                    self->height_px / 2.0 - (at.y_mm - self->middle.y_mm) * self->px_mm };
}

TwPoint
tw_lens_to_view (const TwLens *self, TwPixel at)
{
  return (TwPoint){ self->middle.x_mm + (at.x_px - self->width_px / 2.0) / self->px_mm,
                    self->middle.y_mm - (at.y_px - self->height_px / 2.0) / self->px_mm };
}

TwPixel
tw_lens_origin (const TwLens *self)
{
  return tw_lens_to_screen (self, (TwPoint){ 0.0, 0.0 });
}

TwBox
tw_lens_shown (const TwLens *self)
{
  double half_x = self->width_px / 2.0 / self->px_mm;
  double half_y = self->height_px / 2.0 / self->px_mm;

  return (TwBox){ self->middle.x_mm - half_x, self->middle.y_mm - half_y, self->middle.x_mm + half_x,
                  self->middle.y_mm + half_y };
}

TwLens
tw_lens_zoom (const TwLens *self, double by, TwPixel fixed)
{
  TwPoint before = tw_lens_to_view (self, fixed);
  TwLens zoomed = *self;
  TwPoint after;

  g_return_val_if_fail (by > 0.0, *self);
  zoomed.px_mm = CLAMP (self->px_mm * by, TW_LENS_LEAST_PX_MM, TW_LENS_MOST_PX_MM);
  after = tw_lens_to_view (&zoomed, fixed);
  zoomed.middle.x_mm += before.x_mm - after.x_mm;
  zoomed.middle.y_mm += before.y_mm - after.y_mm;
  return zoomed;
}

TwLens
tw_lens_pan (const TwLens *self, double right_px, double down_px)
{
  TwLens moved = *self;

  moved.middle.x_mm -= right_px / self->px_mm;
  moved.middle.y_mm += down_px / self->px_mm;
  return moved;
}

TwLens
tw_lens_resize (const TwLens *self, double width_px, double height_px)
{
  TwLens resized = *self;

  resized.width_px = width_px;
  resized.height_px = height_px;
  return resized;
}

static double
metric_step_mm (double least_mm)
{
  static const double steps_mm[] = { 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0 };

  for (guint i = 0; i < G_N_ELEMENTS (steps_mm); i++)
    if (steps_mm[i] >= least_mm)
      return steps_mm[i];
  return 100.0;
}

double
tw_lens_step_mm (const TwLens *self, gboolean inches, double least_px)
{
  double least_mm = least_px / self->px_mm;
  double step_mm = 25.4 / 64.0;

  if (!inches)
    return metric_step_mm (least_mm);
  while (step_mm < least_mm && step_mm < 25.4)
    step_mm *= 2.0;
  return step_mm;
}
