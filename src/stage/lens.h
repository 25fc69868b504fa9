/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * lens.h - from a view of the job to a screen and back
 *
 * A view has millimetres, x to the right and y up; a screen has pixels, x to the right and y down from the
 * upper left corner. A lens is plain data: copy it, compare it, keep it.
 */
#pragma once

#include "base/geom.h"

G_BEGIN_DECLS

#define TW_LENS_LEAST_PX_MM 0.01 /* a kilometre on a laptop's screen */
#define TW_LENS_MOST_PX_MM 200.0 /* a tube mouth fills it */

/* A place on the screen. */
typedef struct {
  double x_px; /* from the left */
  double y_px; /* from the top */
} TwPixel;

/* What is looked at, and how large. */
typedef struct {
  TwPoint middle;   /* of the view, in the middle of the screen */
  double px_mm;     /* pixels a millimetre of the view: over 0 */
  double width_px;  /* of the screen */
  double height_px; /* of the screen */
} TwLens;

/* @box as large as fits with @margin_px free on each side, in the middle. An empty box gives a metre. */
TwLens tw_lens_fit (TwBox box, double width_px, double height_px, double margin_px);

/* From the view to the screen, and back. */
TwPixel tw_lens_to_screen (const TwLens *self, TwPoint at);
TwPoint tw_lens_to_view (const TwLens *self, TwPixel at);

/* Where the view's 0, 0 lies on the screen. */
TwPixel tw_lens_origin (const TwLens *self);

/* The part of the view that the screen shows. */
TwBox tw_lens_shown (const TwLens *self);

/* Larger by @by (dimensionless, over 0; under 1 smaller); what lies under @fixed stays there. Stops at the
 * limits above. */
TwLens tw_lens_zoom (const TwLens *self, double by, TwPixel fixed);

/* The picture moves by so many pixels, right and down positive. */
TwLens tw_lens_pan (const TwLens *self, double right_px, double down_px);

/* The same middle and size on a screen of another size. */
TwLens tw_lens_resize (const TwLens *self, double width_px, double height_px);

/* The finest step of 1, 2 or 5 times a power of ten (with @inches: of a halved inch, at most one) that is no
 * less than @least_px on the screen, in mm: what a free drag rounds to. */
double tw_lens_step_mm (const TwLens *self, gboolean inches, double least_px);

G_END_DECLS
