/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * change-private.h - what a change holds, for the files that make and apply it
 */
#pragma once

#include "job/change.h"

G_BEGIN_DECLS

struct _TwChange {
  TwChangeKind kind;
  TwId part;          /* of all but a group */
  TwId element;       /* TW_ID_NONE: the part itself is meant */
  guint field;        /* set */
  TwValue value;      /* set */
  guint list;         /* add of an element */
  int nth;            /* add and reorder: place in the list, -1 last */
  TwPart *made;       /* add */
  GPtrArray *members; /* group, of TwChange, in the order in which they are done */
  char *label;        /* group, may be NULL */
};

G_END_DECLS
