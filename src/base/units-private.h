/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * units-private.h - the table behind units.h: which units a quantity has and how large they are
 */
#pragma once

#include "base/units.h"

G_BEGIN_DECLS

/* One unit. A figure in it is (figure + zero) * num / den in the unit that the row of its quantity is based
 * on: two factors, so that 60 and 3.6 stay exact where 1/60 would not. All three are dimensionless but zero,
 * which is in this unit.
 */
typedef struct {
  const char *spellings; /* lower case, no spaces, parted by `|`; NULL closes a list */
  double num;            /* more than 0, dimensionless */
  double den;            /* more than 0, dimensionless */
  double zero;           /* what is added first: -32 for °F; dimensionless for all but temperatures */
} TwUnit;

/* What is known of one quantity. */
typedef struct {
  const char *noun;     /* marked N_(): `a length` */
  const char *examples; /* marked N_() */
  const TwUnit *units;  /* ends with spellings NULL */
  double base; /* how many of the list's units are the quantity's own: 1000 Pa a kPa; dimensionless */
  const char *names[2]; /* as shown, with mm and with inches */
  guint shown[2];       /* which of units that is */
  int decimals[2];      /* usual places after the decimal sign */
} TwQuantityRow;

/* A length, whatever it is the length of. */
gboolean tw_units_is_length (TwQuantity quantity);

/* Never NULL. (transfer none) */
const TwQuantityRow *tw_units_row (TwQuantity quantity);
/* The unit that @style shows. (transfer none) */
const TwUnit *tw_units_shown (TwQuantity quantity, const TwUnitStyle *style);

/* From @unit of @row to the quantity's own unit, and back. */
double tw_units_from (const TwQuantityRow *row, const TwUnit *unit, double figure);
double tw_units_into (const TwQuantityRow *row, const TwUnit *unit, double value);

/* @text, valid UTF-8, as lower-case ASCII without spaces at its ends and without thin spaces between
 * thousands; what has no place in a figure becomes `?`. (transfer full)
 */
char *tw_units_spell_out (const char *text) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
