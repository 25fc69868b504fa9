/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * outline.h - a drawn outline with arcs and holes: is it one, and the area in it
 */
#pragma once

#include "base/area.h"

G_BEGIN_DECLS

/* One closed outline as drawn: the outer one, or a hole. Either way round. */
typedef struct {
  const TwCorner *corners; /* the last edge returns to the first corner */
  guint n_corners;
} TwOutline;

typedef enum {
  TW_OUTLINE_OK,
  TW_OUTLINE_TOO_FEW,      /* fewer than 3 corners, or 2 with a bow */
  TW_OUTLINE_NO_NUMBER,    /* a coordinate or bow is no number or beyond TW_GEOM_LIMIT_MM */
  TW_OUTLINE_ZERO_EDGE,    /* two neighbouring corners at one place */
  TW_OUTLINE_BOW,          /* a bow above TW_GEOM_BOW_LIMIT chords */
  TW_OUTLINE_CROSSES,      /* it crosses or touches itself or another ring */
  TW_OUTLINE_NO_AREA,      /* nothing inside */
  TW_OUTLINE_HOLE_OUTSIDE, /* a hole not inside the outer ring */
  TW_OUTLINE_HOLE_IN_HOLE, /* a hole inside another hole */
} TwOutlineCode;

/* What is wrong, and where. */
typedef struct {
  TwOutlineCode code;
  guint ring;   /* 0 the outer ring, 1 the first hole …; of a crossing: the ring nearest to it */
  guint corner; /* the corner, or the one that the faulty edge leaves; 0 when the ring as a whole is meant */
  TwPoint at;   /* where it crosses, or that corner; not set (0, 0) for TW_OUTLINE_NO_NUMBER */
} TwOutlineFault;

/**
 * tw_outline_check:
 * @geos: a handle; its trouble is left as it was
 * @rings: (array length=n_rings): the outer ring first, then its holes
 * @n_rings: at least 1
 * @fault: (out): the first fault, with code TW_OUTLINE_OK when there is none
 *
 * Returns: TRUE when the outline can be used
 */
gboolean tw_outline_check (TwGeos *geos, const TwOutline *rings, guint n_rings, TwOutlineFault *fault);

/* `crosses itself at (12.0, 40.0)`, in English; for the @found of a trouble. Millimetres with one decimal and
 * a point in any locale. (transfer full) */
char *tw_outline_fault_text (const TwOutlineFault *fault) G_GNUC_WARN_UNUSED_RESULT;

/* The area in an outline with its holes taken out; arcs flattened as tw_outline_flatten() does. Empty and a
 * trouble in @geos when tw_outline_check() would refuse it. (transfer full) */
TwArea *tw_area_new_outline (TwGeos *geos, const TwOutline *rings, guint n_rings) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
