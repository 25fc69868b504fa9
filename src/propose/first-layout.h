/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * first-layout.h - a first assembly that fits a bare bay
 *
 * From a few answers: the largest core of the chosen kind that fits with its tanks, ports, shroud and fans
 * into a box of free room, one pass, standing upright in the middle. It is a place to start from, not a
 * recommendation: whether it cools is for the cooling rooms to say; the heat is only stored.
 */
#pragma once

#include "job/catalogue.h"
#include "job/job.h"

G_BEGIN_DECLS

/* The answers. Lengths in mm. Made by tw_first_layout_wish(), then filled. */
typedef struct {
  const char *name;      /* of the job; NULL: none */
  double bay_width_mm;   /* across, 60 to 5000; must be said */
  double bay_height_mm;  /* up, 60 to 5000; must be said */
  double bay_depth_mm;   /* along the air, 60 to 5000; must be said */
  double heat_kw;        /* to reject; NAN: not said. Only stored. */
  const char *core_kind; /* entry of the catalogue; NULL: its first */
  int tubes;             /* TW_TUBES_LEVEL, TW_TUBES_UPRIGHT; -1: along the longer side of the bay */
  gboolean fans;         /* a shroud with fans behind the core when there is room */
  int shown_in;          /* TW_SHOWN_IN_MM, TW_SHOWN_IN_INCH */
} TwFirstLayoutWish;

/* Nothing said: fans wished, millimetres, all else open. */
TwFirstLayoutWish tw_first_layout_wish (void);

/**
 * tw_first_layout:
 * @wish: the answers
 * @catalogue: only read
 *
 * Errors: TW_ERROR_REFUSED when a figure is out of its range or the bay is too small for the smallest core of
 * the kind (by how much), TW_ERROR_MISSING when there is no such kind.
 *
 * Returns: (transfer full) (nullable): a job without fault that only says what the wish or the fit gives; the
 * rest is left to be assumed. Its note says what was chosen.
 */
TwJob *tw_first_layout (const TwFirstLayoutWish *wish,
                        const TwCatalogue *catalogue,
                        GError **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
