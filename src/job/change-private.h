/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * change-private.h - what a change holds, for the files that make and apply it
 */
#pragma once

#include "job/change.h"

G_BEGIN_DECLS

struct _TwChange {
  TwChangeKind kind;
  TwId part;     /* of all but a group */
  TwId element;  /* TW_ID_NONE: the part itself is meant */
  TwKind owner;  /* set, add of an element: whose table @field or @list is in; TW_N_KINDS: not said, then it
                    is that of what is found in the job */
  guint field;   /* set */
  TwValue value; /* set */
  guint list;    /* add of an element */
  int nth;       /* add and reorder: place in the list, -1 last */
  TwPart *made;  /* add */
  GPtrArray *members; /* group, of TwChange, in the order in which they are done */
  char *label;        /* group, may be NULL */
};

/* As tw_change_apply(), but the parts that it touches need not be whole afterwards: for a member of a group.
 */
gboolean tw_change_apply_unchecked (const TwChange *self, TwJob *job, TwChange **inverse, GError **error);

G_END_DECLS
