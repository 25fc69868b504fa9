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

/* The part with nothing unknown that can be filled; elements too. (transfer full) */
TwPart *tw_assume_fill (TwAssume *self, const TwPart *part) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
