/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * assume-private.h - fills what a part does not say
 *
 * Two kinds of filling: what absence *means* by the format (a core that is not turned has lean 0) is filled
 * in silently; what is *guessed* (wall, fin pitch) is filled in and listed with its reason.
 */
#pragma once

#include "job/catalogue.h"
#include "job/drawing.h"

G_BEGIN_DECLS

typedef struct {
  const TwJob *job;
  const TwCatalogue *catalogue;
  GHashTable *by_id; /* filled parts so far; kinds are filled in the order of their list */
  GArray *assumed;   /* of TwAssumed, added to */
} TwAssume;

/* A reason: what most would do. */
#define TW_ASSUME_USUAL N_ ("common practice")

/* What absence of a figure or choice means: nothing is listed. */
void tw_assume_means (TwPart *part, guint field, double number);
void tw_assume_means_choice (TwPart *part, guint field, int choice);

/* A figure that is guessed, and listed with its reason; a guess that is NaN stays unknown. */
void tw_assume_guess (TwAssume *self, TwPart *part, guint field, double number, const char *why);

/* What stands round the cores. */
void tw_assume_fill_engine_port (TwAssume *self, TwPart *part);
void tw_assume_fill_header_tank (TwAssume *self, TwPart *part);
void tw_assume_fill_opening (TwAssume *self, TwPart *part);
void tw_assume_fill_exit (TwAssume *self, TwPart *part);

/* The part with nothing unknown that can be filled; elements too. (transfer full) */
TwPart *tw_assume_fill (TwAssume *self, const TwPart *part) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
