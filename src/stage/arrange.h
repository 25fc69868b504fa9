/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * arrange.h - what is done to several parts at once
 *
 * For the canvas: fill a set with the chosen parts (the lead part last) and the view, call, hand the change
 * to tw_history_do(). Each answer is one group of changes, or NULL with an error that names the part and says
 * why; nothing is altered here. A part that cannot go the wanted way in this view is such an error.
 */
#pragma once

#include "job/change.h"
#include "stage/grip.h"

G_BEGIN_DECLS

typedef struct {
  TwJob *job;                   /* new ids are taken from it; else only read */
  const TwPlacement *placement; /* of the job as it is now */
  const TwStageView *view;
  const TwId *ids;   /* parts, each once; the lead part last */
  guint n;           /* at least 1 */
  const char *label; /* what undo calls it, translated */
} TwArrangeSet;

typedef enum {
  TW_ALIGN_LEFT,
  TW_ALIGN_MIDDLE, /* across */
  TW_ALIGN_RIGHT,
  TW_ALIGN_TOP,
  TW_ALIGN_CENTRE, /* up */
  TW_ALIGN_BOTTOM,
} TwAlign;

typedef enum {
  TW_MIRROR_CORE, /* about the upright plane along z through the middle of the core of the set, or of the
                     first */
  TW_MIRROR_JOB,  /* about the job's x = 0 */
  TW_MIRROR_SET,  /* about the upright plane through the middle of the set's box along x */
} TwMirrorAbout;

/* Moves every part of the set so that its box (tw_extent_seen()) stands as that of the lead part. */
TwChange *tw_arrange_align (const TwArrangeSet *set, TwAlign align, GError **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * tw_arrange_space:
 * @upwards: along the view's up, else across
 * @centres: equal distances between the middles of the boxes, else equal gaps between them
 *
 * The outermost two stay; wants three parts.
 */
TwChange *tw_arrange_space (const TwArrangeSet *set, gboolean upwards, gboolean centres, GError **error)
    G_GNUC_WARN_UNUSED_RESULT;

/**
 * tw_arrange_mirror:
 *
 * Left becomes right. What is mirrored: a volume's or opening's outline, or its place along x and its way; an
 * engine port's x and the way it points; a header tank's x and heading; a hose's via-points; a core's x,
 * turn, roll and heading, its tubes and all that is fixed to it. Fans and shrouds with their flaps by u. Of a
 * core with level tubes a tank goes to the other header side with its baffles and ports, and a port or baffle
 * alone to the tank on the other side of its core (refused when there is not just one); of one with upright
 * tubes tank, baffle and port are turned end for end along the header. Ports that point left or right are
 * turned about. Of a core that is not in the set its parts are mirrored about its own middle, whatever @about
 * says. Mirrored twice everything is as before; what the job does not say stays unsaid where the mirrored
 * figure is the same, and what was typed is kept with the other sign where it is about x = 0.
 */
TwChange *
tw_arrange_mirror (const TwArrangeSet *set, TwMirrorAbout about, GError **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * tw_arrange_duplicate:
 * @offset: mm of the view by which the copies stand off, as far as each can go that way
 * @made: (out) (element-type TwId) (transfer full): ids of the copies of @set's parts, in their order
 *
 * Copies with what belongs to them: a core with tanks, baffles, ports, shrouds and fans; a tank with baffles
 * and ports; and the hoses whose ends are both copied. A hose of the set that would not be is refused. New
 * ids; names get the next number that is free: `Inlet 2`. Ids are taken even when the change is not done.
 */
TwChange *tw_arrange_duplicate (const TwArrangeSet *set, TwPoint offset, GArray **made, GError **error)
    G_GNUC_WARN_UNUSED_RESULT;

/* Removes all parts of the set and what refers to them. */
TwChange *tw_arrange_remove (const TwArrangeSet *set, GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* Brings the parts to the front of the lists of their kinds (or the back), in the order that they have. */
TwChange *
tw_arrange_reorder (const TwArrangeSet *set, gboolean to_first, GError **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
