/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * canvas-private.h - what the canvas' own files share
 */
#pragma once

#include "app/canvas.h"
#include "app/canvas-layers.h"
#include "stage/hand.h"
#include "stage/pick.h"

G_BEGIN_DECLS

#define TW_CANVAS_MARGIN_PX 44.0 /* free round the drawing when it is fitted */
#define TW_CANVAS_REACH_PX 7.0   /* how near a pick or snap must be */

struct _TwCanvas {
  GtkWidget parent_instance;

  TwSession *session;
  TwLens lenses[TW_N_VIEWS];   /* each view keeps its own; px_mm is 0 until it has been fitted */
  gboolean fitted[TW_N_VIEWS]; /* nobody has zoomed or moved it since: follows the window's size */
  TwViewDrawing *drawing;      /* of the view as it is; NULL without a job */
  double drawn_px_mm;          /* scale that it was drawn for */
  TwPick *pick;
  TwCanvasLayers *layers;
  TwLetters *letters;
  GPtrArray *parts; /* of TwCanvasPart, children, in the order of the ink */

  TwHand *hand;
  TwPixel pressed; /* where a drag began */
  TwPixel pointer; /* where it is */
  gboolean has_pointer;
  gboolean is_empty; /* the view has nothing to show */
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
/* Bounds of the chosen part are painted: canvas-marks.c. */
void tw_canvas_snapshot_marks (TwCanvas *self, const TwLook *look, GtkSnapshot *snapshot);
/* Puts all controllers on the canvas: canvas-input.c. */
void tw_canvas_add_input (TwCanvas *self);
/* What hand and snaps work on now. */
TwHandBench tw_canvas_bench (TwCanvas *self);
/* What snapping is called, with its tubes or neighbour; NULL when nothing snapped. (transfer full) */
char *tw_canvas_snap_text (TwCanvas *self);

G_END_DECLS
