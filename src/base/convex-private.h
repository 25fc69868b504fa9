/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * convex-private.h - what the files of base/convex share: how a solid is kept
 */
#pragma once

#include "base/convex.h"

G_BEGIN_DECLS

struct _TwConvex {
  gatomicrefcount refs;
  TwVec *points;
  guint n_points;
  guint *loops; /* the faces' corners one face after the other, counter-clockwise by the algebra's cross
                 * product when looked at from outside */
  guint
      *face_starts; /* where each face begins in loops, and one more for the end of the last; NULL for none */
  guint n_faces;    /* 0 for a capsule, 1 for a wall */
  guint n_ring;     /* of a prism: its first so many points go round one end, the next as many round the other
                     * in the same order; else 0 */
  double radius_mm; /* how far the hull of the points is grown */
  double round_mm;  /* of a cylinder: its radius; else 0 */
  TwVec axis[2];    /* of a cylinder: from and to */
  TwSolidBox bounds;
};

/* Takes the arrays; @loops and @face_starts may be NULL with @n_faces 0. (transfer full) */
TwConvex *tw_convex_take (GArray *points, GArray *loops, GArray *face_starts) G_GNUC_WARN_UNUSED_RESULT;

/* Grows a solid that is still being made. */
void tw_convex_round (TwConvex *self, double radius_mm);

/* Twice the area of a face as a vector out of the solid. */
TwVec tw_convex_face_vector (const TwConvex *self, guint face);

/* The corner furthest along @along; the first of equals. */
guint tw_convex_support (const TwConvex *self, TwVec along);

G_END_DECLS
