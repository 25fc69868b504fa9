/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * page.h - a finished page, and what a file says about itself
 */
#pragma once

#include "draw/ink.h"
#include "draw/look.h"

G_BEGIN_DECLS

/* One page as every writer takes it. Everything is (transfer none). */
typedef struct {
  double width_mm;
  double height_mm;
  const TwInk *ink; /* finished; mm on paper, 0 is the lower left corner */
  const TwLook *look;
} TwPage;

/* What goes into the file beside the pages. NULL members are left out. Nothing is added by the writers
 * themselves (no time, no name of a machine), so the same pages give the same bytes. */
typedef struct {
  const char *title;
  const char *subject;
  const char *author;
  const char
      *date; /* ISO 8601: `2026-03-01` or with a time; given, never read from a clock; a PDF needs it */
} TwPageAbout;

G_END_DECLS
