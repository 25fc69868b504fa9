/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * convex.h - convex solids in the job frame: distances, clipping, shadows
 *
 * A TwConvex is the hull of its points, grown by a radius: a box, a prism, a cylinder (radius 0), or a
 * capsule (two points and a radius). It never changes once made: counted, safe to share between threads.
 * Polyhedra keep their faces, so that clipping costs a few operations a corner.
 */
#pragma once

#include "base/area.h"
#include "base/space.h"

G_BEGIN_DECLS

typedef struct _TwConvex TwConvex;

/* An upright box in space; empty while any end lies before its start. */
typedef struct {
  TwVec from; /* the least x, y, z */
  TwVec to;   /* the greatest */
} TwSolidBox;

/* How two solids lie to each other. */
typedef struct {
  double distance_mm; /* 0 when they touch or cross */
  gboolean crosses;   /* they share room, not only a touching point, edge or face */
  double depth_mm;    /* of a crossing: the least move along a face's normal that frees them; else 0 */
  TwVec at_a;         /* the points nearest to each other; a point of both when they touch or cross */
  TwVec at_b;
} TwGap;

/* ---- Makers: (transfer full), free with tw_convex_unref(). All figures must be sane (tw_vec_is_sane()).
 * ---- */

/* A box in @frame from (u, v, w) @from to @to, in any order. */
TwConvex *tw_convex_new_box (const TwFrame *frame, TwVec from, TwVec to) G_GNUC_WARN_UNUSED_RESULT;

/**
 * tw_convex_new_prism:
 * @frame: the ring lies in its u-v plane; the prism along its w
 * @points: (array length=n_points): a convex ring, either way round
 * @n_points: at least 3
 * @from_mm: start along w
 * @to_mm: end along w
 */
TwConvex *tw_convex_new_prism (const TwFrame *frame,
                               const TwPoint *points,
                               guint n_points,
                               double from_mm,
                               double to_mm) G_GNUC_WARN_UNUSED_RESULT;

/* The same in a job plane, along its third axis: one convex piece of a volume. */
TwConvex *tw_convex_new_plane_prism (TwPlane plane,
                                     const TwPoint *points,
                                     guint n_points,
                                     double from_mm,
                                     double to_mm) G_GNUC_WARN_UNUSED_RESULT;

/* A cylinder with flat ends, as a prism on the polygon of tw_circle_points(): its volume is the cylinder's,
 * its width right to 1.6 parts in a million (0.0005 mm on 300 mm). @from and @to are not the same place. */
TwConvex *tw_convex_new_cylinder (TwVec from, TwVec to, double radius_mm) G_GNUC_WARN_UNUSED_RESULT;

/* The same with @sides sides, a multiple of 8 up to TW_GEOM_CIRCLE_SIDES: quicker, and of the cylinder's
 * volume too, but its corners stand out by 1.65/sides² of the diameter: 1 µm on 32 mm for 256. */
TwConvex *tw_convex_new_rod (TwVec from, TwVec to, double radius_mm, guint sides) G_GNUC_WARN_UNUSED_RESULT;

/* All within @radius_mm of the line from @from to @to, which may be one point (a ball). Exact. */
TwConvex *tw_convex_new_capsule (TwVec from, TwVec to, double radius_mm) G_GNUC_WARN_UNUSED_RESULT;

/* A flat convex polygon in space, without thickness: a wall. @points in order round it. */
TwConvex *tw_convex_new_wall (const TwVec *points, guint n_points) G_GNUC_WARN_UNUSED_RESULT;

TwConvex *tw_convex_ref (TwConvex *self);
void tw_convex_unref (TwConvex *self);

/* ---- Questions. ---- */

/* TRUE for what clipping left nothing of. */
gboolean tw_convex_is_empty (const TwConvex *self);
guint tw_convex_n_points (const TwConvex *self);
TwVec tw_convex_point (const TwConvex *self, guint nth);
double tw_convex_radius_mm (const TwConvex *self);
/* Radius counted. */
TwSolidBox tw_convex_bounds (const TwConvex *self);
/* How far it reaches along the direction @along: the greatest and least along · p, radius counted. */
double tw_convex_reach_mm (const TwConvex *self, TwVec along);
double tw_convex_least_mm (const TwConvex *self, TwVec along);
/* Axis and radius of a capsule, or of a cylinder as it was made; FALSE for other solids and cut ones. */
gboolean tw_convex_axis (const TwConvex *self, TwVec *from, TwVec *to, double *radius_mm);
/* Faces of a polyhedron: it is what lies in the half-spaces of all of them. 0 for a capsule, 1 for a wall. */
guint tw_convex_n_faces (const TwConvex *self);
TwHalfSpace tw_convex_face (const TwConvex *self, guint nth);
/* Of a polyhedron (radius 0); 0 for a wall. */
double tw_convex_volume_mm3 (const TwConvex *self);
/* The distance between two boxes, 0 when they overlap: never more than that of what lies in them. */
double tw_solid_box_distance_mm (TwSolidBox a, TwSolidBox b);

/**
 * tw_convex_gap:
 * @a: a solid, not empty
 * @b: another
 *
 * The distance by the method of Gilbert, Johnson and Keerthi (IEEE J. Robotics and Automation 4 (1988) 193),
 * exact to 1e-6 mm on solids of up to 5 m.
 */
TwGap tw_convex_gap (const TwConvex *a, const TwConvex *b);

/**
 * tw_convex_clip:
 * @self: a polyhedron or wall (radius 0)
 * @half: what to keep
 *
 * Returns: (transfer full): the part of @self in @half; @self again when all of it is, empty when none. What
 * only touches the plane is none.
 */
TwConvex *tw_convex_clip (TwConvex *self, TwHalfSpace half) G_GNUC_WARN_UNUSED_RESULT;

/**
 * tw_convex_shadow:
 * @self: a solid
 * @geos: a handle
 * @frame: seen along its w; the result is in its (u, v)
 *
 * Returns: (transfer full): what @self covers, radius counted; never NULL
 */
TwArea *tw_convex_shadow (const TwConvex *self, TwGeos *geos, const TwFrame *frame) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwConvex, tw_convex_unref)

G_END_DECLS
