/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * part-groups.h - in which groups and order the form shows the fields of a kind
 *
 * What matters first stands first: what it is and belongs to, its size, its place, how it is made, details.
 * Every field of every kind stands in one group.
 */
#pragma once

#include "job/parts.h"

G_BEGIN_DECLS

typedef struct {
  TwKind kind;
  const char *title;   /* N_()-marked; NULL: it needs none */
  const guint *fields; /* numbers in the table of the kind */
  guint n_fields;
} TwPartGroup;

/* Group number @nth of a kind, NULL past the last. (transfer none) */
const TwPartGroup *tw_part_group (TwKind kind, guint nth);

G_END_DECLS
