/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * picture-tubes-private.h - where the tubes of a core stand in a picture of its passes
 *
 * Not to scale along the header: a pass of two tubes still gets room for its number. Places along the header
 * are therefore told through the tubes that they lie at.
 */
#pragma once

#include "draw/picture-private.h"

G_BEGIN_DECLS

/* More groups of one core are not told apart. */
#define TW_PICTURE_MOST_GROUPS 64

/* Neighbouring places along the header that have tubes of the same groups. */
typedef struct {
  guint first, last; /* from 1 */
  guint64 groups;    /* bit n: the nth group of the bench; none: all plugged */
  double from_px;    /* from the first tube's edge along the header */
  double to_px;
} TwPictureStretch;

/* One core in a picture. */
typedef struct {
  TwId core;
  TwTubeGrid grid;
  const TwTubeGroup *groups[TW_PICTURE_MOST_GROUPS]; /* of the passes */
  guint n_groups;
  GArray *stretches; /* of TwPictureStretch, owned */
  TwBox tubes;       /* px: what the tubes cover */
} TwPictureBench;

/* One core with its tanks, in the place that it has in the picture. */
typedef struct {
  const TwPictureHand *hand;
  TwPictureBench bench;
  guint first_level; /* of its passes; G_MAXUINT: none */
  guint last_level;  /* of the whole job */
  double tank_px;    /* how deep tanks are */
  double way_px;     /* room for an arrow outside of them */
} TwPictureCore;

/* Radius of a port, and what an arrow's head hides of its line. */
#define TW_PICTURE_PORT_PX 3.5
#define TW_PICTURE_HEAD_PX 5.0

/* Header plates, tanks, baffles and ports. */
void tw_picture_draw_tanks (const TwPictureCore *core);

/* Whether water comes or goes through the end of a tank: its arrow wants room there. */
gboolean tw_picture_has_end_ways (const TwPictureCore *core);

/* Groups and stretches of the core of @grid. */
void tw_picture_bench_open (TwPictureBench *self, const TwPasses *passes, const TwTubeGrid *grid);
void tw_picture_bench_close (TwPictureBench *self);

/* Spreads the stretches over @length_px: each as its number of tubes says, but at least @least_px for each of
 * its groups, if there is room for that. */
void tw_picture_bench_spread (TwPictureBench *self, double length_px, double least_px);

/* Where a place along the header lies, from the first tube's edge; a little beyond the ends at most. */
double tw_picture_bench_along_px (const TwPictureBench *self, double along_mm);

/* A place in the picture: @along_px from the first tube's edge, @across_px from the first header's side. */
TwPoint tw_picture_bench_point (const TwPictureBench *self, double along_px, double across_px);
TwBox tw_picture_bench_box (const TwPictureBench *self, const double along_px[2], const double across_px[2]);

/* Length of the tubes in the picture. */
double tw_picture_bench_across_px (const TwPictureBench *self);

G_END_DECLS
