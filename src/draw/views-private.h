/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * views-private.h - what the files of the views share: an eye, a hand that draws, and shapes in space
 */
#pragma once

#include "base/error.h"
#include "draw/views.h"

G_BEGIN_DECLS

/* What lies no farther beyond the middle of the nearest core is beside it, not behind it; mm. */
#define TW_VIEW_BESIDE_MM 60.0

/* What one view is drawn with. */
typedef struct {
  const TwViewSource *source;
  const TwViewManner *manner;
  TwFrame eye; /* u across, v up, w away */
  TwInk *ink;
  GArray *labels;    /* of TwViewLabel */
  double nearest_mm; /* how far the middle of the nearest core lies; G_MAXDOUBLE without one */
  gboolean behind;   /* what is drawn now lies farther than that */
} TwViewHand;

/* --- the eye
 * ------------------------------------------------------------------------------------------------ */

/* Where a place of the job frame is seen, mm of the view, and how far away it is. */
TwPoint tw_view_point (const TwViewHand *hand, TwVec at);
double tw_view_depth_mm (const TwViewHand *hand, TwVec at);
/* A direction: its share along the way of looking, dimensionless: 1 away from the eye, −1 towards it. */
double tw_view_away (const TwViewHand *hand, TwVec direction);
/* Direction on the page of a direction in space; FALSE if it is seen end on. */
gboolean tw_view_angle (const TwViewHand *hand, TwVec direction, double *angle_rad);

/* Whether a place lies behind a core, tank or shroud, each taken as the box round it. */
gboolean tw_view_is_covered (const TwViewHand *hand, TwVec at);

/* @paper units of the look in mm of the view. */
double tw_view_paper_mm (const TwViewHand *hand, double paper);
/* Width of a pen in mm of the view. */
double tw_view_pen_mm (const TwViewHand *hand, TwInkPen pen);

/* --- drawing
 * ------------------------------------------------------------------------------------------------ */

/* On @layer, or on the one behind it when the hand draws what is behind. */
TwInkStyle tw_view_style (const TwViewHand *hand, TwInkPen pen, TwInkTint tint, const char *layer, TwId part);

/* A polyhedron: what it covers in paper, its visible edges with the pen; edges under 12° are not drawn. A
 * @tone over 0 (share of faint, dimensionless) fills it with that. */
void tw_view_solid (const TwViewHand *hand, const TwConvex *solid, const TwInkStyle *style, double tone);

/* A box in the frame of a core, from and to in its (u, v, w). */
void
tw_view_box (const TwViewHand *hand, const TwFrame *frame, TwVec from, TwVec to, const TwInkStyle *style);

/* A cylinder: circle end on, rectangle from the side, else its hull with the nearer end. @covers: filled with
 * paper first. */
void tw_view_cylinder (const TwViewHand *hand,
                       const TwVec ends[2],
                       double radius_mm,
                       const TwInkStyle *style,
                       gboolean covers);

/* A circle in space round @at square to @axis: circle, ellipse as polygon, or line. */
void tw_view_circle (const TwViewHand *hand, TwVec at, TwVec axis, double radius_mm, const TwInkStyle *style);

/* Centre lines of something round: a cross that reaches beyond the radius, or the axis from end to end and
 * beyond. */
void tw_view_centre (const TwViewHand *hand, const TwVec ends[2], double radius_mm, const TwInkStyle *style);

/* All rings of an area as one closed item of the pen. Nothing for an empty one. */
void tw_view_area (const TwViewHand *hand, const TwArea *area, const TwInkStyle *style);
/* The same as corners for a fill or hatch. (transfer full) (element-type TwInkCorner) */
GArray *tw_view_area_corners (const TwArea *area) G_GNUC_WARN_UNUSED_RESULT;

/* Wants a text that names what lies within @reach_mm of @at; @text is taken over. (transfer none): good until
 * the next. */
TwViewLabel *tw_view_label (const TwViewHand *hand,
                            TwViewLabelKind kind,
                            TwId part,
                            TwPoint at,
                            double reach_mm,
                            char *text);

/* Words for a person. */
const char *tw_view_words (const TwViewHand *hand, const char *words);

/* --- subjects
 * ----------------------------------------------------------------------------------------------- */

/* Rooms of the bay and what takes room behind the nearest core; then what takes room before it. */
void tw_view_draw_bay (const TwViewHand *hand);
void tw_view_draw_taken (const TwViewHand *hand, gboolean before);

/* A core, with its tubes and fins where its face is looked at. */
void tw_view_draw_block (const TwViewHand *hand, const TwPlacedSolid *solid);
/* A tank or header plate. */
void tw_view_draw_tank (const TwViewHand *hand, const TwPlacedSolid *solid);
/* All baffles that no core hides, dashed. */
void tw_view_draw_baffles (const TwViewHand *hand);

/* A stub or boss with its bore and centre lines. */
void tw_view_draw_port (const TwViewHand *hand, const TwPlacedSolid *solid);
/* The same of the engine, with its name. */
void tw_view_draw_engine_port (const TwViewHand *hand, const TwPlacedSolid *solid);
/* Ports that point away from the eye, dashed; letters of all. */
void tw_view_draw_hidden_ports (const TwViewHand *hand);
/* Arrows at inlets and outlets. */
void tw_view_draw_port_ways (const TwViewHand *hand);

/* A shroud, with its flaps where they are seen. */
void tw_view_draw_shroud (const TwViewHand *hand, const TwPlacedSolid *solid);
/* A fan: ring, hub and blades, or from the side. */
void tw_view_draw_fan (const TwViewHand *hand, const TwPlacedSolid *solid);
/* Mouths, flaps and fans behind a face that is looked at, dashed. */
void tw_view_draw_hidden_airway (const TwViewHand *hand);

/* A header tank, swirl pot or bottle with its name and the level of the cold water. */
void tw_view_draw_header_tank (const TwViewHand *hand, const TwPlacedSolid *solid);
/* Openings and exits that lie behind the nearest core, dashed, or the others; with their names. */
void tw_view_draw_openings (const TwViewHand *hand, gboolean behind);
/* The air's arrows through them. */
void tw_view_draw_opening_ways (const TwViewHand *hand);

/* Pieces of a run that are painted together: a leg that is seen end on, or what lies between two such legs.
 */
typedef struct {
  const TwRoute *route;
  guint first; /* piece of the route */
  guint n;     /* pieces, at least 1 */
  gboolean end_on;
  double depth_mm; /* how far its middle is away */
} TwViewStretch;

/* All stretches of all runs. (transfer full) (element-type TwViewStretch) */
GArray *tw_view_hose_stretches (const TwViewHand *hand) G_GNUC_WARN_UNUSED_RESULT;
/* A stretch as two lines with its centreline; the first of a run wants numbers for its bends. */
void tw_view_draw_hose (const TwViewHand *hand, const TwViewStretch *stretch);

/* Arrows of the passes over a face, and of the air before it. */
void tw_view_draw_passes (const TwViewHand *hand);
void tw_view_draw_air (const TwViewHand *hand);

G_END_DECLS
