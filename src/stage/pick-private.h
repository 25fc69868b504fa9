/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * pick-private.h - what the files of stage/pick share
 */
#pragma once

#include "stage/pick.h"

G_BEGIN_DECLS

/* A ring or line of an item of the ink. */
typedef struct {
  guint item;
  guint first; /* corner */
  guint end;   /* corner behind the last */
  gboolean closed;
  gboolean is_solid; /* its inside counts */
  gboolean is_inner; /* lies within another path of its part */
  TwBox box;
} TwPickPath;

typedef struct {
  TwPickShape seen;
  GArray *paths;   /* of TwPickPath */
  double size_mm2; /* area of the largest box round a solid ring; 0 when there is none */
} TwPickPart;

struct _TwPick {
  TwInk *ink;
  GArray *shapes;     /* of TwPickPart, in the order of their first item */
  GHashTable *places; /* id text → place + 1 */
};

/* A path with straight edges only. (transfer full) (element-type TwPoint) */
GArray *tw_pick_flatten (const TwPick *self, const TwPickPath *path) G_GNUC_WARN_UNUSED_RESULT;

/* From a place to a path: 0 inside a solid ring, else to its edges. */
double tw_pick_distance_mm (const TwPick *self, const TwPickPath *path, TwPoint at);

/* Whether one box lies in another. */
gboolean tw_pick_holds (TwBox outer, TwBox inner);

G_END_DECLS
