/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * heights.h - how high chambers, ports and header tanks stand, and where air stays in or water is left
 *
 * Heights are along the upright of an attitude, from the job's zero; standing level they are the job's y.
 * Folds of the tanks are taken as sharp. Air leaves a chamber through tubes that nowhere lead down, water
 * through tubes that nowhere lead up; hoses are not looked at here.
 */
#pragma once

#include "layout/passes.h"

G_BEGIN_DECLS

/* How the vehicle stands, seen from the driver's place. */
typedef struct {
  double nose_up_rad;    /* the nose higher than the tail */
  double right_down_rad; /* rolled: the right-hand side lower, looking towards the nose */
} TwAttitude;

#define TW_ATTITUDE_LEVEL ((TwAttitude){ 0.0, 0.0 })

/* The direction that is up in the job frame. The nose points against the air (−z), turned about the upright
 * by the settings' nose heading in the same sense as a core's heading. */
TwVec tw_attitude_up (const TwDrawing *drawing, TwAttitude attitude);

/* Of one chamber; same number as in the passes. */
typedef struct {
  double highest_mm; /* inside */
  double lowest_mm;  /* inside */
  TwVec highest_at;  /* one such place, in the job frame */
  TwVec lowest_at;
  gboolean is_high; /* from here air finds no way to a higher chamber: it needs a bleed */
  gboolean is_low;  /* from here water finds no way to a lower chamber, nor to another with a drain: it needs
                     * a drain */
  double pocket_mm; /* height of the air that stays over the highest way out or bleed; of a high chamber
                     * over its highest bleed, NaN when it has none */
  double pool_mm;   /* height of the water that stays under the lowest way out or drain; same */
  gboolean has_bleed; /* a bleed or filler opens into it */
  gboolean has_drain; /* a drain opens into it */
} TwChamberHeight;

/* Of one port; same number as in the passes. */
typedef struct {
  TwId port;
  double height_mm; /* of the middle of its bore at the wall; NaN when its place is not known */
  TwVec at;
} TwPortHeight;

/* Of one header tank, swirl pot or bottle; numbered as in the placement. */
typedef struct {
  TwId tank;
  double highest_mm; /* inside: as high as its water can stand */
  double lowest_mm;  /* inside */
  double cold_mm;    /* where its water stands cold; NaN when that is not known. Leaning, the surface turns
                      * about the middle of the level one: right as long as it meets neither top nor bottom
                      * (of a level cylinder: as long as it leans along its axis) */
  TwVec highest_at;  /* one such place, in the job frame */
} TwTankHeight;

typedef struct _TwHeights TwHeights; /* never changes once found; may be shared between threads */

/**
 * tw_heights_find:
 * @placement: only read during the call
 * @passes: found from the same placement; not kept
 * @attitude: how the vehicle stands
 *
 * Returns: (transfer full): free with tw_heights_unref()
 */
TwHeights *tw_heights_find (const TwPlacement *placement,
                            const TwPasses *passes,
                            TwAttitude attitude) G_GNUC_WARN_UNUSED_RESULT;
TwHeights *tw_heights_ref (TwHeights *self);
void tw_heights_unref (TwHeights *self);

/* Numbered as in the passes; NULL past the last. (transfer none) */
guint tw_heights_n_chambers (const TwHeights *self);
const TwChamberHeight *tw_heights_chamber (const TwHeights *self, guint nth);
guint tw_heights_n_ports (const TwHeights *self);
const TwPortHeight *tw_heights_port (const TwHeights *self, guint nth);
guint tw_heights_n_tanks (const TwHeights *self);
const TwTankHeight *tw_heights_tank (const TwHeights *self, guint nth);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwHeights, tw_heights_unref)

G_END_DECLS
