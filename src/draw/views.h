/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * views.h - Face, Front, Side and Plan of a job as ink
 *
 * Coordinates are millimetres of the model: (u, v) of the core in Face; x and y in Front, z and y in Side, x
 * and z in Plan, all in the job frame. Parts are painted from far to near; what is nearer covers what is
 * behind, hidden things that matter (baffles, ports at the back, fans behind the face, exits) are drawn
 * dashed on top. The bay, what takes room, openings and exits are drawn as neighbours are: they cover
 * nothing. Face leaves out openings and exits that it does not look at squarely.
 */
#pragma once

#include "base/space.h"
#include "draw/ink.h"
#include "draw/look.h"
#include "draw/measure.h"
#include "draw/place.h"
#include "layout/passes.h"
#include "layout/placement.h"
#include "layout/routes.h"

G_BEGIN_DECLS

typedef enum {
  TW_VIEW_FACE,  /* square on a core's face, looking with the air */
  TW_VIEW_FRONT, /* x across, y up, looking with the air */
  TW_VIEW_SIDE,  /* z across, y up, seen from the right side */
  TW_VIEW_PLAN,  /* x across, z up, seen from above */
  TW_N_VIEWS
} TwView;

/* Layers of the views. Parts farther from the eye than the nearest core are on the layer of the same name
 * with
 * `-behind`, so layers keep the order of painting. */
#define TW_VIEW_LAYER_BAY "bay"
#define TW_VIEW_LAYER_TAKEN "taken"
#define TW_VIEW_LAYER_CORE "core"
#define TW_VIEW_LAYER_TANK "tank"
#define TW_VIEW_LAYER_PORT "port"
#define TW_VIEW_LAYER_SHROUD "shroud"
#define TW_VIEW_LAYER_FAN "fan"
#define TW_VIEW_LAYER_HOSE "hose"
#define TW_VIEW_LAYER_ENGINE "engine"
#define TW_VIEW_LAYER_HEADER_TANK "header-tank"
#define TW_VIEW_LAYER_OPENING "opening"
#define TW_VIEW_LAYER_HIDDEN "hidden"
#define TW_VIEW_LAYER_WAY "way"
#define TW_VIEW_LAYER_NAMES "names"

/* What is drawn from; everything is (transfer none). */
typedef struct {
  const TwPlacement *placement;
  const TwRoutes *routes; /* NULL: no hoses */
  const TwPasses *passes; /* NULL: no ways of the water */
  TwGeos *geos;
} TwViewSource;

/* What is left out. */
typedef enum {
  TW_VIEW_NO_NAMES = 1 << 0,    /* no texts: the caller places them, see tw_view_labels_draw() */
  TW_VIEW_NO_BAY = 1 << 1,      /* neither bay nor what takes room */
  TW_VIEW_NO_HOSES = 1 << 2,    /* neither hoses, nor the ports of the engine, nor header tanks */
  TW_VIEW_NO_WAYS = 1 << 3,     /* no arrows of water and air */
  TW_VIEW_NO_AIRWAY = 1 << 4,   /* neither shrouds nor fans, openings nor exits */
  TW_VIEW_FEW_TUBES = 1 << 5,   /* only the first and last two tubes of the core and of each pass */
  TW_VIEW_NO_PASSES = 1 << 6,   /* no arrows of the passes; those of inlets, outlets and air stay */
  TW_VIEW_NO_OPENINGS = 1 << 7, /* neither openings nor exits */
} TwViewFlags;

/* How it is drawn. */
typedef struct {
  TwView view;
  TwId core;    /* Face: which one; none: the first */
  double scale; /* units of the look (mm on paper, px on a screen) a millimetre of the model; over 0 */
  TwViewFlags flags;
  const TwLook *look;       /* (transfer none) */
  const TwMeasure *measure; /* (transfer none): for the names; not read with TW_VIEW_NO_NAMES */
  const char *(*translate) (const char *words); /* for marked words; NULL leaves them English */
  const TwBox *shown; /* what will be seen, mm of the view: fins and names beyond it are left out, and no
                       * name stands beyond it; NULL: all */
} TwViewManner;

/* What a label names; those that come first are placed first. */
typedef enum {
  TW_VIEW_LABEL_PASS,   /* number of a pass and of its tubes */
  TW_VIEW_LABEL_PORT,   /* letter of a port, in a ring; as in the port table */
  TW_VIEW_LABEL_END,    /* beside the arrow at an inlet or outlet */
  TW_VIEW_LABEL_BEND,   /* number of a hose's bend, in a ring */
  TW_VIEW_LABEL_AIR,    /* beside the air's arrow */
  TW_VIEW_LABEL_ENGINE, /* name of an engine port */
  TW_VIEW_LABEL_AROUND, /* name of a header tank, opening or exit */
  TW_VIEW_LABEL_VOLUME, /* name of what takes room */
} TwViewLabelKind;

/* A text that a view wants, not placed yet. */
typedef struct {
  TwViewLabelKind kind;
  TwId part;
  TwPoint at;       /* what it names, mm of the view */
  TwBox around;     /* round all of what it names, mm of the view: beside that it may stand */
  double inside_mm; /* radius of the room round @at inside what it names; 0: it must stand beside */
  TwInkTint tint;
  char *text; /* owned */
} TwViewLabel;

/* A finished view. */
typedef struct {
  TwInk *ink;     /* finished; owned */
  GArray *labels; /* of TwViewLabel; those that the ink does not show yet; owned */
  TwBox parts;    /* round everything but the bay and what takes room; mm of the view; empty when there is
                     nothing */
  TwBox all;      /* round everything */
} TwViewDrawing;

/* Draws one view. Cannot fail: a half-drawn job gives what it has. (transfer full): free with
 * tw_view_drawing_free() */
TwViewDrawing *tw_view_draw (const TwViewSource *source,
                             const TwViewManner *manner) G_GNUC_WARN_UNUSED_RESULT;
void tw_view_drawing_free (TwViewDrawing *self);

/**
 * tw_view_labels_draw:
 * @drawing: made with TW_VIEW_NO_NAMES
 * @manner: as it was drawn; its scale is that of the view on the page
 * @shift: mm on paper, where the view's zero lies
 * @place: knows what stands on the page already; what is written is taken note of
 * @ink: the page
 *
 * Puts the labels of a view on a page, free of everything that is there; what has no room near its part gets
 * a leader, or is left out if there is none within reach.
 *
 * Returns: how many were left out
 */
guint tw_view_labels_draw (const TwViewDrawing *drawing,
                           const TwViewManner *manner,
                           TwPoint shift,
                           TwPlace *place,
                           TwInk *ink);

/* The two directions of a view and the way of looking, job frame; origin: its zero. w points away from the
 * eye. */
TwFrame tw_view_frame (const TwPlacement *placement, TwView view, TwId core);

/* Letter of a port in tables and on drawings: by its place among the job's ports; A to Z without I and O,
 * then AA … . NULL for an id that is no port. (transfer full) */
char *tw_view_port_letter (const TwDrawing *drawing, TwId port) G_GNUC_WARN_UNUSED_RESULT;

/* Angle and spacing of the hatch of a taken volume of @kind (TW_TAKEN_…). */
void tw_view_hatch (int kind, double *angle_rad, double *spacing);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwViewDrawing, tw_view_drawing_free)

G_END_DECLS
