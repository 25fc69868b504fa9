/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * canvas-private.h - what the canvas' own files share
 */
#pragma once

#include "app/canvas.h"
#include "app/canvas-layers.h"
#include "app/canvas-typing.h"
#include "stage/hand.h"
#include "stage/pick.h"
#include "stage/span.h"

G_BEGIN_DECLS

#define TW_CANVAS_MARGIN_PX 44.0 /* free round the drawing when it is fitted */
#define TW_CANVAS_REACH_PX 7.0   /* how near a pick or snap must be */
#define TW_CANVAS_CLICK_PX 3.0   /* less movement is a click */

struct _TwCanvas {
  GtkWidget parent_instance;

  TwSession *session;
  TwLens lenses[TW_N_VIEWS];   /* each view keeps its own; px_mm is 0 until it has been fitted */
  gboolean fitted[TW_N_VIEWS]; /* nobody has zoomed or moved it since: follows the window's size */
  gboolean framed[TW_N_VIEWS]; /* as it was fitted, to the middle or to all: names stay within its edges */
  TwViewDrawing *drawing;      /* of the view as it is; NULL without a job */
  double drawn_px_mm;          /* scale that it was drawn for */
  TwPick *pick;
  TwCanvasLayers *layers;
  TwLetters *letters;
  GPtrArray *parts; /* of TwCanvasPart, children, in the order of the ink */

  TwGrips *grips; /* of the lead part when it alone is chosen and this view can change it; else NULL */
  TwGrip grip;    /* that keys move; only when has_grip */
  gboolean has_grip;
  TwId hovered; /* part under the pointer, or none */
  TwCanvasTyping *typing;
  GtkPopover *menu;        /* NULL until the window gives one */
  TwPixel menu_place;      /* where the menu was opened, or an edge clicked twice */
  gboolean has_menu_place; /* it says where something is meant to stand */

  TwHand *hand;
  gboolean has_pressed_chosen; /* the part under the press was chosen already: a click may mean another */
  gboolean is_boxing;          /* a box is being drawn round parts */
  gboolean box_adds;           /* to those that are chosen */
  TwPixel pressed;             /* where a drag began */
  TwPixel pointer;             /* where it is */
  gboolean has_pointer;
  gboolean is_empty;     /* the view has nothing to show */
  gboolean is_measuring; /* clicks choose the ends of the span: canvas-distance.c */
  TwSpan span;
  TwPixel pointed; /* where the pointer itself was last: keys may have gone on from there */
  gboolean is_panning;
  gboolean space_held;
  TwLens lens_pressed; /* when panning or pinching began */

  char *position;
  char *snap;
  char *zoom;
};

/* The lens of the view that is shown. */
TwLens *tw_canvas_lens (TwCanvas *self);
/* Fits the middle of the job, or with @all everything: canvas-fit.c. Nothing is drawn again. */
void tw_canvas_fit_lens (TwCanvas *self, gboolean all);
/* After the person changed the lens: draws again and says the zoom. */
void tw_canvas_lens_changed (TwCanvas *self);
/* Sets the texts of the status line from pointer and hand. */
void tw_canvas_update_status (TwCanvas *self);
/* Halos, handles and the box that is drawn: canvas-marks.c. */
void tw_canvas_snapshot_marks (TwCanvas *self, const TwLook *look, GtkSnapshot *snapshot);
/* Distances, guide lines and words of what is held: canvas-gauges.c. */
void tw_canvas_snapshot_gauges (TwCanvas *self, const TwLook *look, GtkSnapshot *snapshot);
/* Puts all controllers on the canvas: canvas-input.c, canvas-keys.c. */
void tw_canvas_add_input (TwCanvas *self);
void tw_canvas_add_keys (TwCanvas *self);
/* The entry for figures, once there is a session. */
void tw_canvas_add_typing (TwCanvas *self);
/* Closes the entry; with @taken what is held stays as it is shown, else it is put back. */
void tw_canvas_end_typing (TwCanvas *self, gboolean taken);
/* A corner or via-point on the chosen part's edge under the pointer: canvas-edit.c. FALSE when there is no
 * such edge. */
gboolean tw_canvas_add_point (TwCanvas *self);
/* The menu of what is chosen, at that place; negative: beside the lead part. */
void tw_canvas_show_menu (TwCanvas *self, double x, double y);
/* After pointer or keys changed what is held: status, history, picture. */
void tw_canvas_hand_moved (TwCanvas *self);
/* The hand is empty again. */
void tw_canvas_let_go (TwCanvas *self);

/* Grips of the lead part are made anew; the one that keys move is looked up again: canvas-grips.c. */
void tw_canvas_sync_grips (TwCanvas *self);
/* The grip whose handle lies at that place, or NULL. (transfer none) */
const TwGrip *tw_canvas_grip_at (TwCanvas *self, double x, double y);
/* Handles are painted into @cr. */
void tw_canvas_draw_handles (TwCanvas *self, cairo_t *cr, const GdkRGBA *accent, const GdkRGBA *paper);
/* The next grip of the lead part (with @step -1 the one before) is the one that keys move. */
gboolean tw_canvas_step_grip (TwCanvas *self, int step);
/* Name of the cursor that says which way @grip can go. (transfer none) */
const char *tw_canvas_grip_cursor (const TwGrip *grip);
/* Takes hold by @grip, or with NULL by all chosen parts, as pressed @at. */
gboolean tw_canvas_take (TwCanvas *self, const TwGrip *grip, TwPoint at);
/* The bodies of all chosen parts that this view can move, the lead part first. (transfer full) (element-type
 * TwGrip) */
GArray *tw_canvas_bodies (TwCanvas *self) G_GNUC_WARN_UNUSED_RESULT;
/* What a change by @grip is called, by NULL a move of all that is chosen; translated. (transfer full) */
char *tw_canvas_step_label (TwCanvas *self, const TwGrip *grip) G_GNUC_WARN_UNUSED_RESULT;
/* What hand and snaps work on now. */
TwHandBench tw_canvas_bench (TwCanvas *self);
/* What was dragged and to where: `Baffle −15 mm`. The form marks which fields these are. (transfer full) */
char *tw_canvas_moved_text (TwCanvas *self);
/* What snapping is called, with its tubes or neighbour; NULL when nothing snapped. (transfer full) */
char *tw_canvas_snap_text (TwCanvas *self);

/* canvas-distance.c: the place under the pointer is chosen as an end, or the open end goes there. */
void tw_canvas_choose_place (TwCanvas *self);
void tw_canvas_follow_place (TwCanvas *self);
gboolean tw_canvas_measure_key (TwCanvas *self, guint keyval, GdkModifierType state);
/* For the status line. (transfer full) */
char *tw_canvas_distance_text (TwCanvas *self);
void tw_canvas_snapshot_distance (TwCanvas *self, const TwLook *look, GtkSnapshot *snapshot);

G_END_DECLS
