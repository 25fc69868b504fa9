/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * placement.h - where everything lies in space
 *
 * From the figures of a drawing: the frame of each core, what is fixed to it in core coordinates (u across,
 * v up, w downstream; zero in the middle of the face that the air meets), ports and volumes in the job frame,
 * and convex solids of all of it for clearance, shadows and picking. A part that lacks a figure without which
 * it has no place is left out and listed with the reason. Solids of hoses come from layout/routes.
 */
#pragma once

#include "base/convex.h"
#include "job/drawing.h"

G_BEGIN_DECLS

/* A side of a core on which tubes end. Core coordinates; tanks stand on the outside of its header plate. */
typedef struct {
  int side;      /* TW_SIDE_LEFT … TW_SIDE_BOTTOM */
  TwVec along;   /* direction: up (level tubes) or to the right (upright ones) */
  TwVec out;     /* direction: away from the tubes */
  double off_mm; /* from the middle of the face to the outside of the header plate */
} TwHeaderSide;

typedef struct {
  TwId id;
  TwFrame frame;          /* origin: middle of the face that the air meets */
  TwVec air;              /* direction of the air, job frame: z, or the core's own w */
  double air_cos;         /* between the air's way and w, dimensionless: 1 square on the face; 0 or less: the
                           * air does not meet the face */
  gboolean is_upright;    /* tubes run down, not across */
  double face_width_mm;   /* along u */
  double face_height_mm;  /* along v */
  double thickness_mm;    /* the block reaches from w = 0 to this */
  TwBox face;             /* in (u, v) */
  TwVec corners[4];       /* of the face, job frame: lower left, lower right, upper right, upper left */
  TwHeaderSide sides[2];  /* left and right, or top and bottom */
  double header_start_mm; /* lower or left end of both header plates, along, from the middle of the face */
  double header_end_mm;   /* upper or right end */
  double header_thickness_mm; /* it lies between the face and off_mm */
  double header_w_from_mm;    /* upstream edge of the header plates */
  double header_w_to_mm;      /* downstream edge */
} TwPlacedCore;

typedef struct {
  TwId id;
  TwId core;
  TwHeaderSide side;
  int back;              /* TW_BACK_FLAT, TW_BACK_TAPERED, TW_BACK_ROUND */
  double start_mm;       /* outside of the lower or left end, along the header */
  double end_mm;         /* outside of the upper or right end */
  double w_from_mm;      /* outside of the air-in wall */
  double w_to_mm;        /* outside of the air-out wall */
  double depth_start_mm; /* outside, from the header plate to the back; of a half-round back: to its crown */
  double depth_end_mm;   /* the same at its end */
  double wall_mm;        /* thickness; NaN when unknown */
  TwVec from;            /* corner of the box round it with the least u, v, w: core coordinates */
  TwVec to;              /* the one with the greatest */
} TwPlacedTank;

/* A plate in a tank. It fills the tank's outside section; what the wall takes off is for metal to say. */
typedef struct {
  TwId id;
  TwId tank;
  TwId core;
  gboolean runs_along; /* between rows, not across the tank */
  TwVec from;          /* corner of the box round it with the least u, v, w: core coordinates */
  TwVec to;            /* the one with the greatest */
} TwPlacedBaffle;

typedef struct {
  TwId id;
  TwId tank;
  TwId core;
  int wall;      /* TW_WALL_BACK … TW_WALL_END */
  TwVec at_core; /* middle of the hole on the outside of the wall: core coordinates */
  TwVec at;      /* the same in the job frame */
  TwVec normal;  /* direction square out of the wall there: job frame */
  TwVec axis;    /* direction in which it points, job frame: the normal, or the job's axis it leaves along */
  TwVec tip;     /* end of the stub or boss on its axis: job frame */
  double outside_mm;   /* of the stub; NaN when unknown */
  double boss_mm;      /* outside of a boss; NaN when there is none */
  double bore_mm;      /* NaN when unknown */
  double stand_out_mm; /* from the wall to the tip; 0 when unknown */
} TwPlacedPort;

typedef struct {
  TwId id;
  TwVec at;            /* middle of its hole in the wall: job frame */
  gboolean has_axis;   /* the job says which way it points */
  TwVec axis;          /* direction, job frame; zero without */
  TwVec tip;           /* end of its stub; @at without an axis */
  double outside_mm;   /* NaN when unknown */
  double stand_out_mm; /* 0 when unknown */
} TwPlacedEnginePort;

typedef struct {
  TwId id;
  TwId core;
  gboolean is_before;  /* stands before the core, not behind it */
  gboolean is_tapered; /* narrows from the mouth to the fans' rings, else a box */
  TwBox mouth;         /* what it covers, in (u, v); may reach beyond the face */
  TwBox fan_wall;      /* its other end: as the mouth, or round the rings when tapered */
  double mouth_w_mm;   /* where it meets the core */
  double fans_w_mm;    /* the fans' mounting face */
} TwPlacedShroud;

/* A flap of a shroud; its id stands in that shroud, not in the job. */
typedef struct {
  TwId id;
  TwId shroud;
  TwId core;
  TwBox opening; /* in (u, v), in the shroud's fan wall */
} TwPlacedFlap;

typedef struct {
  TwId id;
  TwId core;
  TwId shroud; /* the one on its side of the core whose mouth holds its centre, or is nearest; or none */
  gboolean is_pusher;   /* before the core */
  TwPoint centre;       /* in (u, v) */
  double swept_mm;      /* diameter of the tips */
  double ring_mm;       /* diameter of the ring, not less than the swept one unless the job says so */
  double hub_mm;        /* diameter */
  double depth_mm;      /* from the mounting face to the back of the motor; 0 when unknown */
  double mounting_w_mm; /* the face with which it sits on the shroud */
  double back_w_mm;     /* back of the motor: downstream of a puller, upstream of a pusher */
} TwPlacedFan;

typedef struct {
  TwId id;
  gboolean is_free; /* room of the bay, else taken */
  int kind;         /* TW_TAKEN_…; -1 for a free one */
  TwPlane plane;    /* in which it is drawn */
  double from_mm;   /* along the plane's third axis, the lower end first */
  double to_mm;
  TwArea *outline;   /* in the plane's coordinates, holes taken out; owned by the placement */
  guint first_solid; /* its convex pieces among the solids */
  guint n_solids;
} TwPlacedVolume;

/* A header tank, swirl pot or bottle. Its own frame has its zero in the middle, v upright; with heading 0 it
 * lies along x, y, z. */
typedef struct {
  TwId id;
  int use;  /* TW_VESSEL_… */
  int form; /* TW_VESSEL_BOX, TW_VESSEL_UPRIGHT (its axis is v), TW_VESSEL_LEVEL (u) */
  TwFrame frame;
  TwVec half;      /* half its outside sizes along u, v, w, mm; of a cylinder those of the box round it */
  double wall_mm;  /* 0 when unknown */
  TwVec ends[2];   /* of a cylinder: ends of its axis, job frame */
  double round_mm; /* of a cylinder: outside diameter; else 0 */
} TwPlacedHeaderTank;

/* Where air comes in or goes out: flat, square to the third axis of its plane. It is no solid. */
typedef struct {
  TwId id;
  gboolean is_exit;
  TwPlane plane;   /* in which it is drawn */
  double at_mm;    /* along the plane's third axis */
  TwArea *outline; /* in the plane's coordinates; owned by the placement */
  double area_mm2;
  TwVec middle; /* the place inside that is farthest from its edges; job frame */
  TwVec way;    /* direction in which the air goes, job frame */
} TwPlacedOpening;

typedef enum {
  TW_SOLID_BLOCK,  /* fins and tubes of a core; part is the core */
  TW_SOLID_HEADER, /* a header plate, or a strip of its rim; part is the core */
  TW_SOLID_TANK,
  TW_SOLID_BAFFLE, /* lies in its tank */
  TW_SOLID_PORT,   /* stub or boss, from the wall to its tip */
  TW_SOLID_ENGINE_PORT,
  TW_SOLID_SHROUD, /* from the core to the fans' mounting face */
  TW_SOLID_FAN,    /* ring by depth */
  TW_SOLID_HUB,   /* hub by depth, lies in its fan; for shadows, and only of fans that may be before a face */
  TW_SOLID_TAKEN, /* convex piece of a taken volume */
  TW_SOLID_FREE,  /* convex piece of a free volume */
  TW_SOLID_HEADER_TANK, /* header tank, swirl pot or bottle */
  TW_SOLID_HOSE,        /* never in a placement: piece of a hose run, made by layout/routes */
} TwSolidRole;

typedef struct {
  TwId part;
  TwId core; /* to which it is fixed; none for volumes, engine ports, header tanks and hoses */
  TwSolidRole role;
  TwConvex *convex; /* owned by whoever made the list */
} TwPlacedSolid;

typedef struct {
  TwId part;
  const char *why; /* N_()-marked, not owned */
} TwUnplaced;

typedef struct _TwPlacement TwPlacement; /* never changes once made; share it between threads */

/**
 * tw_placement_new:
 * @drawing: the placement keeps a count of it
 * @geos: a handle, used during the call
 *
 * Cannot fail: a half-drawn job gives what has a place.
 *
 * Returns: (transfer full): free with tw_placement_unref()
 */
TwPlacement *tw_placement_new (const TwDrawing *drawing, TwGeos *geos) G_GNUC_WARN_UNUSED_RESULT;
TwPlacement *tw_placement_ref (const TwPlacement *self);
void tw_placement_unref (TwPlacement *self);

/* What it was made from. (transfer none) */
const TwDrawing *tw_placement_drawing (const TwPlacement *self);

/* What has a place, in the drawing's order; @n (out) how many. (transfer none) (array length=n) */
const TwPlacedCore *tw_placement_cores (const TwPlacement *self, guint *n);
const TwPlacedTank *tw_placement_tanks (const TwPlacement *self, guint *n);
const TwPlacedBaffle *tw_placement_baffles (const TwPlacement *self, guint *n);
const TwPlacedPort *tw_placement_ports (const TwPlacement *self, guint *n);
const TwPlacedEnginePort *tw_placement_engine_ports (const TwPlacement *self, guint *n);
const TwPlacedShroud *tw_placement_shrouds (const TwPlacement *self, guint *n);
const TwPlacedFlap *tw_placement_flaps (const TwPlacement *self, guint *n);
const TwPlacedFan *tw_placement_fans (const TwPlacement *self, guint *n);
const TwPlacedVolume *tw_placement_volumes (const TwPlacement *self, guint *n);
const TwPlacedHeaderTank *tw_placement_header_tanks (const TwPlacement *self, guint *n);
/* Openings first, then exits. */
const TwPlacedOpening *tw_placement_openings (const TwPlacement *self, guint *n);

/* All solids: cores with what is fixed to them first, then engine ports, header tanks and volumes. Solids of
 * one part stand together, but for fans: hubs follow their fans. */
const TwPlacedSolid *tw_placement_solids (const TwPlacement *self, guint *n);

/* Parts that have no place, and shrouds with a flap that has none, with the reason. */
const TwUnplaced *tw_placement_unplaced (const TwPlacement *self, guint *n);

/* By id; NULL when there is none or it has no place. (transfer none) */
const TwPlacedCore *tw_placement_core (const TwPlacement *self, TwId id);
const TwPlacedTank *tw_placement_tank (const TwPlacement *self, TwId id);
const TwPlacedBaffle *tw_placement_baffle (const TwPlacement *self, TwId id);
const TwPlacedPort *tw_placement_port (const TwPlacement *self, TwId id);
const TwPlacedEnginePort *tw_placement_engine_port (const TwPlacement *self, TwId id);
const TwPlacedShroud *tw_placement_shroud (const TwPlacement *self, TwId id);
const TwPlacedFan *tw_placement_fan (const TwPlacement *self, TwId id);
const TwPlacedVolume *tw_placement_volume (const TwPlacement *self, TwId id);
const TwPlacedHeaderTank *tw_placement_header_tank (const TwPlacement *self, TwId id);
const TwPlacedOpening *tw_placement_opening (const TwPlacement *self, TwId id); /* or exit */

/* Core coordinates of a place @along_mm the header (from the middle of the face), @out_mm off the header
 * plate's outside and @w_mm downstream of the face. */
TwVec tw_header_point (const TwHeaderSide *side, double along_mm, double out_mm, double w_mm);

/* Depth of @tank at @along_mm, at its middle: between that at its start and that at its end. */
double tw_placed_tank_depth_mm (const TwPlacedTank *tank, double along_mm);

/**
 * tw_placed_core_shade:
 * @core: a core that the air meets (air_cos above 0)
 * @at: a place in the job frame
 *
 * Where the air that passes @at meets the plane of the face.
 *
 * Returns: (u, v)
 */
TwPoint tw_placed_core_shade (const TwPlacedCore *core, TwVec at);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwPlacement, tw_placement_unref)

G_END_DECLS
