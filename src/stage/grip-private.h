/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * grip-private.h - how the files of stage/grip say what can be taken
 *
 * A grip is begun, gets its freedoms (go) and what each changes (change), and is ended: it is then kept when
 * the view shows a way in which it can go.
 */
#pragma once

#include "stage/grip.h"

#include <glib/gi18n-lib.h>

G_BEGIN_DECLS

/* A grip with what it changes. */
typedef struct {
  TwGrip grip;
  TwFreedoms freedoms;
} TwGripEntry;

/* The grips of one part being listed. */
typedef struct {
  const TwPlacement *placement;
  const TwStageView *view;
  const TwPart *part; /* of the drawing: filled */
  GArray *entries;    /* of TwGripEntry */
  TwGripEntry now;    /* being made */
  gboolean is_lame;   /* its newest freedom changes a figure that is not known */
} TwGripMaker;

/* @what is N_()-marked and not owned. */
void tw_grip_begin (TwGripMaker *self, TwGripKind kind, guint nth, TwVec place, const char *what);
/* The grip is of an element. */
void tw_grip_of (TwGripMaker *self, const TwPart *element);
/* Another freedom: @along is a direction, job frame. */
void tw_grip_go (TwGripMaker *self, TwVec along);
/* A figure of the part that the newest freedom changes, and one of an element. No change with a factor of 0.
 */
void tw_grip_change (TwGripMaker *self, guint field, double factor);
void tw_grip_change_of (TwGripMaker *self, const TwPart *element, guint field, double factor);
/* The newest freedom goes no further than this, whatever its figures take. */
void tw_grip_limit (TwGripMaker *self, double low_mm, double high_mm);
void tw_grip_end (TwGripMaker *self);

/* x, y and z of the part, or of an element of it (NULL: the part), each on its own. */
void tw_grip_go_axes (TwGripMaker *self, const TwPart *element, const guint fields[3]);

/* Fields of a box that is given by its middle and its sizes. */
typedef struct {
  guint u, v, width, height;
} TwGripBox;

/* Four sides and four corners of @box in (u, v) of @frame at @w_mm; @element or NULL, as above. */
void tw_grip_sides (TwGripMaker *self,
                    const TwFrame *frame,
                    const TwPart *element,
                    const TwGripBox *fields,
                    const TwBox *box,
                    double w_mm);

/* Names of sides and corners by TW_GRIP_LEFT …, N_()-marked. */
const char *tw_grip_side_words (guint nth);

/* A plane in which outlines are drawn, with its directions in the job. */
typedef struct {
  TwPlane plane;
  TwVec across;
  TwVec up;
  TwVec third;
  double middle_mm; /* along the third axis: where handles stand */
} TwGripPlane;

/* With handles at @middle_mm along the third axis. */
TwGripPlane tw_grip_plane (TwPlane plane, double middle_mm);
/* Whether the view shows it square on. */
gboolean tw_grip_plane_is_seen (const TwGripMaker *self, const TwGripPlane *plane);

/* Middle of the box round the corners of a ring, in its plane. */
TwPoint tw_grip_ring_middle (GPtrArray *ring);
/* The newest freedom changes this field of all corners of a ring. */
void tw_grip_change_ring (TwGripMaker *self, GPtrArray *ring, guint field);
/* Corners and edges of a ring, or four radii of a circle; @first: number of the first radius. */
void tw_grip_ring (TwGripMaker *self, const TwGripPlane *plane, GPtrArray *ring, guint first);

/* One for each kind of part; called only for parts of that kind. */
void tw_grip_list_core (TwGripMaker *self);
void tw_grip_list_tank (TwGripMaker *self);
void tw_grip_list_baffle (TwGripMaker *self);
void tw_grip_list_port (TwGripMaker *self);
void tw_grip_list_shroud (TwGripMaker *self);
void tw_grip_list_fan (TwGripMaker *self);
void tw_grip_list_engine_port (TwGripMaker *self);
void tw_grip_list_hose (TwGripMaker *self);
void tw_grip_list_volume (TwGripMaker *self);
void tw_grip_list_header_tank (TwGripMaker *self);
void tw_grip_list_opening (TwGripMaker *self); /* and exits */

G_END_DECLS
