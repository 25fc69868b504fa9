/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * measure.h - how long a text is, asked of whoever writes it
 *
 * Placing needs the length of texts, but drawings must not hang on the fonts that happen to be installed: the
 * writer hands in its own measure (sheets/letters for paper, the window its own), tests a fixed one. Height
 * means the height of a capital, as in ISO 3098; letters reach TW_MEASURE_DOWN of it below the line.
 */
#pragma once

#include "draw/look.h"

G_BEGIN_DECLS

/* How far letters such as g and ( reach below the line, as a share of the height of a capital, dimensionless.
 */
#define TW_MEASURE_DOWN 0.35

typedef struct {
  /* Length of @text in one line when capitals are @height tall, in the unit of @height. */
  double (*width) (gconstpointer data, const char *text, double height);
  gconstpointer data; /* for @width; owned by whoever made the measure */
} TwMeasure;

/* Every character 0.75 of the height: wider than what a plain sans serif needs on average. For tests. */
TwMeasure tw_measure_fixed (void);

/* Length of @text at @height, in the unit of @height. */
double tw_measure_width (const TwMeasure *self, const char *text, double height);

/* Box that the text covers: its anchor in paper mm, letters as tall as @look says for its size. */
TwBox tw_measure_box (const TwMeasure *self, const TwLook *look, const TwInkPlace *place, const char *text);

/* Longest start of @text that fits into @width, with an ellipsis if something was cut; the whole text if it
 * fits. (transfer full) */
char *tw_measure_fit (const TwMeasure *self, const char *text, double height, double width)
    G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
