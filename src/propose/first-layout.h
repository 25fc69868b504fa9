/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * first-layout.h - a first assembly that fits a bare bay
 *
 * From five answers (bay, heat, ambient, coolant, where the air comes from): the largest core that fits with
 * its tanks, ports, shroud and fans into a box of free room with clearance all round. It is a place to start
 * from, not a recommendation: whether it cools is for the cooling rooms to say. What nobody said stays
 * unknown in the job, so that it shows as assumed; what was chosen is told in words, with the reason.
 */
#pragma once

#include "base/units.h"
#include "job/catalogue.h"
#include "job/change.h"
#include "job/job.h"

G_BEGIN_DECLS

/* What the share of heat that goes to the water is a share of. */
typedef enum {
  TW_FIRST_OF_BRAKE, /* of the engine's brake power */
  TW_FIRST_OF_FUEL,  /* of the heat in the fuel */
} TwFirstShareOf;

/* The end of the vehicle that the air comes from, or its side as the driver sees it. */
typedef enum {
  TW_FIRST_AIR_FRONT,
  TW_FIRST_AIR_REAR,
  TW_FIRST_AIR_LEFT,
  TW_FIRST_AIR_RIGHT,
  TW_FIRST_N_AIRS
} TwFirstAir;

/* The answers. Lengths in mm, NAN: not said. Made by tw_first_layout_wish(), then filled. */
typedef struct {
  const char *name;        /* of the job; NULL: none */
  double bay_width_mm;     /* across, 60 to 5000; must be said */
  double bay_height_mm;    /* up, 60 to 5000; must be said */
  double bay_depth_mm;     /* along the air, 60 to 5000; must be said */
  double heat_kw;          /* to reject, 0 to 5000; goes before brake power */
  double brake_kw;         /* of the engine, 0 to 5000 */
  double share;            /* dimensionless, 0.05 to 2: what goes to the water; NAN with a brake power: common
                            * practice */
  TwFirstShareOf share_of; /* what it is a share of */
  double ambient_c;        /* on the worst day, -40 to 70 */
  const char *coolant;     /* entry of the catalogue; NULL: not said */
  TwFirstAir air_from;     /* becomes the heading of the vehicle's nose */
  const char *core_kind;   /* entry of the catalogue; NULL: chosen by load and depth */
  int tubes;               /* TW_TUBES_LEVEL, TW_TUBES_UPRIGHT; -1: as it fits best */
  gboolean fans;           /* a shroud with fans behind the core when there is room */
  int shown_in;            /* TW_SHOWN_IN_MM, TW_SHOWN_IN_INCH: also of the words; sizes are whole in it */
} TwFirstLayoutWish;

/* Nothing said: fans wished, millimetres, all else open. */
TwFirstLayoutWish tw_first_layout_wish (void);

/* Which answer a refusal is about. */
typedef enum {
  TW_FIRST_WIDTH,
  TW_FIRST_HEIGHT,
  TW_FIRST_DEPTH,
  TW_FIRST_HEAT,
  TW_FIRST_BRAKE,
  TW_FIRST_SHARE,
  TW_FIRST_AMBIENT,
  TW_FIRST_COOLANT,
  TW_FIRST_KIND,
  TW_FIRST_N_ANSWERS
} TwFirstAnswer;

/* Why an answer cannot be taken. */
typedef struct {
  TwFirstAnswer answer;
  double found;  /* in the unit of the answer: mm, kW, °C or dimensionless; NAN: none */
  double needed; /* the least that would do, same unit; NAN: no such figure */
  char *words;   /* what is accepted or needed, translated; owned */
} TwFirstRefusal;

/* Something that was chosen, not said. Both translated and owned. */
typedef struct {
  char *what; /* `2 fans of 345 mm` */
  char *why;  /* `as many as cover the face best` */
} TwFirstChoice;

/* What came of a wish: a job, or at least one refusal. */
typedef struct {
  TwJob *job;          /* without fault; NULL: refused; owned */
  GPtrArray *choices;  /* of TwFirstChoice, the weightiest first; empty when refused; owned */
  GPtrArray *refusals; /* of TwFirstRefusal, in the order of the answers; owned */
} TwFirstLayout;

/**
 * tw_first_layout_make:
 * @wish: the answers
 * @catalogue: only read
 * @decimal: decimal sign of the words, '.' or ','
 *
 * Never fails: an answer that cannot be taken is refused in words. Of a bay that is too small each measure
 * that is, with what the smallest core needs.
 *
 * Returns: (transfer full): free with tw_first_layout_free()
 */
TwFirstLayout *tw_first_layout_make (const TwFirstLayoutWish *wish,
                                     const TwCatalogue *catalogue,
                                     char decimal) G_GNUC_WARN_UNUSED_RESULT;
void tw_first_layout_free (TwFirstLayout *self);

/* All that @job says, as one change (transfer full) over an empty job; undo calls it @label. Its unknown
 * members are not in it. */
TwChange *tw_first_layout_change (const TwJob *job, const char *label) G_GNUC_WARN_UNUSED_RESULT;

/* What an answer is called, N_()-marked: `bay width`. (transfer none) */
const char *tw_first_answer_name (TwFirstAnswer answer);
/* What an air end is called, N_()-marked. (transfer none) */
const char *tw_first_air_name (TwFirstAir air);
/* As the command and files write it: `front`. (transfer none) */
const char *tw_first_air_id (TwFirstAir air);

/* Heat to the water of @wish: as said, or from brake power and share; NAN when neither was said. kW. */
double tw_first_heat_kw (const TwFirstLayoutWish *wish);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwFirstLayout, tw_first_layout_free)

G_END_DECLS
