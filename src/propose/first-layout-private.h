/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * first-layout-private.h - the plan between the answers and the job
 */
#pragma once

#include "base/geom.h"
#include "propose/first-layout.h"

G_BEGIN_DECLS

/* Choices of this room, all common practice without a source. Clearance, plenum, depth of a fan and
 * stand-outs are what job/assume fills in: the job does not say them, so that they show as assumed. */
#define TW_FIRST_CLEARANCE_MM 10.0
#define TW_FIRST_PLENUM_MM 40.0
#define TW_FIRST_FAN_DEPTH_MM 65.0
#define TW_FIRST_STUB_OUT_MM 40.0
#define TW_FIRST_BUNG_OUT_MM 12.0
#define TW_FIRST_RING_MM 12.0      /* ring wider than what it sweeps */
#define TW_FIRST_MOUTH_EDGE_MM 5.0 /* face left bare beside the shroud, all round */
#define TW_FIRST_BUNG_SIZE "M12x1.5"
#define TW_FIRST_LIMIT_C 100.0       /* of the water, until a duty case says it */
#define TW_FIRST_AMBIENT_C 35.0      /* when the ambient is not said */
#define TW_FIRST_DROP_K 6.0          /* of the water in the core, for a guess of its flow */
#define TW_FIRST_LAMINAR 2300.0      /* dimensionless: below it flow in a tube is laminar, from memory */
#define TW_FIRST_SHARE_BRAKE 0.6     /* dimensionless: petrol at full power, 0.4 to 1.0, from memory */
#define TW_FIRST_SHARE_FUEL 0.22     /* dimensionless: petrol at full power, 0.17 to 0.26, from memory */
#define TW_FIRST_BRAKE_OF_FUEL 0.265 /* dimensionless: petrol at full power, 0.25 to 0.28, from memory */

/* Why there are no fans. */
typedef enum {
  TW_FIRST_FANS_FIT,
  TW_FIRST_FANS_NOT_WISHED,
  TW_FIRST_FANS_NO_DEPTH, /* shroud and fans need more than the bay has */
  TW_FIRST_FANS_NO_FACE,  /* the face is too small for a usual one */
} TwFirstFans;

/* Everything that a layout is made of, in figures. Lengths in mm. */
typedef struct {
  const TwFirstLayoutWish *wish;
  const TwCatalogue *catalogue;
  const TwEntry *kind;
  gboolean level;
  double pitch_mm, reach_mm, thickness_mm, header_width_mm, header_thickness_mm, tank_depth_mm;
  int rows;                             /* of tubes, of the kind */
  double tube_height_mm, tube_width_mm; /* outside */
  double tube_wall_mm;
  double face_along_mm;  /* along the header; 0: does not fit */
  double face_across_mm; /* along the tubes */
  guint n_tubes;
  gboolean is_capped; /* the bay would take a larger face */
  TwFirstFans fans;
  double fans_depth_mm; /* bay depth that fans would need */
  double swept_mm;
  guint n_across, n_up;  /* fans beside and above each other */
  double behind_mm;      /* from the face to the rear end of the bay */
  double short_of_mm[3]; /* how much the bay's width, height and depth miss; 0: fits */
  double load_kw_m2_k;   /* heat on the face for each K to the limit; NAN: heat not said */
  double flow_l_min;     /* guessed from heat and drop; NAN: heat not said */
  double reynolds;       /* dimensionless, in the tubes with one pass; NAN: not known */
  gboolean two_passes;
  const TwEntry *stub; /* of the catalogue; NULL: it has none */
} TwFirstPlan;

/* first-size.c: chooses kind, way of the tubes and all sizes. FALSE: does not fit; then short_of_mm says what
 * is missing to the smallest core there is. */
gboolean tw_first_plan_size (TwFirstPlan *self);

/* first-water.c: guesses of the water's flow, passes and stubs. Needs the sizes. */
void tw_first_plan_water (TwFirstPlan *self);

/* first-parts.c: the job of a plan that fits. (transfer full) */
TwJob *tw_first_plan_build (const TwFirstPlan *self) G_GNUC_WARN_UNUSED_RESULT;

/* first-words.c: fills the choices; and the note of the job from them. */
void tw_first_plan_tell (const TwFirstPlan *self, char decimal, GPtrArray *choices);
char *tw_first_note (const GPtrArray *choices) G_GNUC_WARN_UNUSED_RESULT;

/* Places of the ends of the header that inlet and outlet keep, and of the baffle; mm along the header. */
double tw_first_port_place_mm (const TwFirstPlan *self);
double tw_first_baffle_place_mm (const TwFirstPlan *self);

G_END_DECLS
