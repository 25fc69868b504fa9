/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * arrange-private.h - what the files of stage/arrange share
 */
#pragma once

#include "stage/arrange.h"

#include "base/error.h"

G_BEGIN_DECLS

/* Part number @nth of the set as the job has it, or NULL with the error that it is not there. (transfer none)
 */
const TwPart *tw_arrange_part (const TwArrangeSet *set, guint nth, GError **error);

/* Whether the set holds it. */
gboolean tw_arrange_holds (const TwArrangeSet *set, TwId part);

/* @group, or NULL with @error set when it holds nothing: frees it then. (transfer full) */
TwChange *tw_arrange_finish (TwChange *group, const char *why_empty, GError **error);

/* What is being mirrored; x becomes twice_mm - x for what stands in the job frame. */
typedef struct {
  const TwArrangeSet *set;
  TwChange *group;
  double twice_mm; /* of the mirror plane's x */
} TwArrangeMirror;

/* A figure of a part, or of an element of it (NULL: the part): @twice_mm - it; what the job does not say
 * stays so when the mirrored figure is the same. */
void tw_arrange_flip (TwArrangeMirror *self,
                      const TwPart *part,
                      const TwPart *element,
                      guint field,
                      double twice_mm);
/* Field @to is to say what @from says, @negated. */
void tw_arrange_carry (TwArrangeMirror *self, const TwPart *part, guint from, guint to, gboolean negated);
/* A choice is to be @choice. */
void tw_arrange_choose (TwArrangeMirror *self, const TwPart *part, guint field, int choice);

/* A part that stands on a core, about the core's own middle. @alone: its tank is not mirrored with it. */
gboolean
tw_arrange_mirror_on_core (TwArrangeMirror *self, const TwPart *part, gboolean alone, GError **error);

G_END_DECLS
