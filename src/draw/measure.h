/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * measure.h - how long a text is, asked of whoever writes it
 *
 * Placing needs the length of texts, but drawings must not hang on the fonts that happen to be installed: the
 * writer hands in its own measure (sheets/letters for paper, the window its own), tests a fixed one. Height
 * means the height of a capital, as in ISO 3098; what reaches below the line is told from the
 * letters.
 */
#pragma once

#include "draw/look.h"

G_BEGIN_DECLS

/* How a writer says how long its texts are. */
typedef struct {
  /* Length of @text in one line when capitals are @height tall, in the unit of @height. */
  double (*width) (gconstpointer data, const char *text, double height);
  gconstpointer data; /* for @width; owned by whoever made the measure */
} TwMeasure;

/* Every character 0.75 of the height: wider than what a plain sans serif needs on average. For tests. */
TwMeasure tw_measure_fixed (void);

/* Length of @text at @height, in the unit of @height. */
double tw_measure_width (const TwMeasure *self, const char *text, double height);

/* How far @text reaches below its line, as a share of its height, dimensionless: 0 for figures, capitals and
 * letters without a tail, 0.2 for commas, 0.35 else. Wide enough for common sans serifs (DejaVu Sans: 0.32,
 * measured). */
double tw_measure_down (const char *text);

/* Box that the text covers: its anchor in paper mm, letters as tall as @look says for its size. */
TwBox tw_measure_box (const TwMeasure *self, const TwLook *look, const TwInkPlace *place, const char *text);

/* Longest start of @text that fits into @width, with an ellipsis if something was cut; the whole text if it
 * fits. (transfer full) */
char *tw_measure_fit (const TwMeasure *self, const char *text, double height, double width)
    G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
