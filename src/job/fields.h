/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * fields.h - the one list of fields that each kind of part has
 *
 * Made from job/kinds.inc, job/choices.inc and job/fields/<kind>.inc. Whatever treats all parts alike
 * (reading, writing, forms, undo names, the command's `set`, comparison, the schema) walks these tables.
 */
#pragma once

#include "base/units.h"
#include "job/id.h"

G_BEGIN_DECLS

typedef enum {
#define TW_KIND(symbol, type, stem, member, noun) TW_KIND_##symbol,
#include "job/kinds.inc"
  TW_N_KINDS,
  TW_FIRST_ELEMENT = TW_KIND_CORNER, /* this and later kinds live in lists of a part */
} TwKind;

/* How a field is stored. */
typedef enum {
  TW_FIELD_NUMBER, /* double in the quantity's unit, NaN when unknown */
  TW_FIELD_COUNT,  /* int, -1 when unknown */
  TW_FIELD_CHOICE, /* int, place in the choices, -1 when unknown */
  TW_FIELD_FLAG,   /* int, 0 or 1, -1 when unknown */
  TW_FIELD_TEXT,   /* char *, owned, NULL when unknown */
  TW_FIELD_REF,    /* TwId, TW_ID_NONE when unknown */
} TwFieldStore;

typedef struct {
  const char *name;  /* in files and on the command line; for references: member name of a kind (`tanks`) */
  const char *label; /* N_()-marked words */
} TwChoice;

typedef struct {
  TwFieldStore store;
  TwQuantity quantity;
  const char *name;  /* `width_mm`: also the member of the file */
  const char *label; /* N_()-marked */
  const char *hint;  /* N_()-marked: from where it is measured, what absence means */
  gsize offset;      /* in the struct of its kind */
  double low, high;  /* in the quantity's unit, both allowed; a text's longest in bytes is high; a needed
                        reference has low 1 */
  const TwChoice *choices; /* of a choice, or kinds that a reference may point to; ends with a NULL name */
} TwField;

typedef struct {
  TwKind element;
  const char *name;  /* member of the file */
  const char *label; /* N_()-marked */
  gsize offset;      /* of a GPtrArray * of TwPart, never NULL, in the struct of its kind */
  guint fewest, most;
} TwList;

typedef struct {
  TwKind kind;
  const char *member; /* of the job file: `tanks`; of elements: only a word for messages */
  const char *stem;   /* `tank`: new ids are `tank-1`, `tank-2`, … */
  const char *noun;   /* N_()-marked */
  gsize size;
  const TwField *fields;
  guint n_fields;
  const TwList *lists;
  guint n_lists;
} TwKindInfo;

/* clang-format off */
#define TW_CHOICES(list) extern const TwChoice tw_choices_##list[]; enum {
#define TW_CHOICE(symbol, name, label) TW_##symbol,
#define TW_CHOICES_END };
#include "job/choices.inc"
/* clang-format on */

/* The tables of a kind; never NULL. (transfer none) */
const TwKindInfo *tw_kind_info (TwKind kind);

/* Kind by member of the file (`tanks`) or by stem (`tank`); TW_N_KINDS when there is none. */
TwKind tw_kind_from_member (const char *member);

/* Field or list by name, -1 when @kind has none. */
int tw_kind_field (TwKind kind, const char *name);
int tw_kind_list (TwKind kind, const char *name);

/* Whether field @field of @kind may refer to a part of kind @target. */
gboolean tw_field_may_refer (const TwField *field, TwKind target);

/* Member that keeps the text as typed: `width_typed` beside `width_mm`; NULL for what is no figure. (transfer
 * full) */
char *tw_field_typed_name (const TwField *field) G_GNUC_WARN_UNUSED_RESULT;

/* Longest typed text that a file keeps, in bytes; a longer one is not kept, its figure is. */
#define TW_FIELD_LONGEST_TYPED 60

/* Whether @name is that member. */
gboolean tw_field_is_typed_name (const TwField *field, const char *name);

/* What a file or a person may say there, as words for an error: `a length of 0.3 to 20 mm`. Translated. */
char *tw_field_accepts (const TwField *field) G_GNUC_WARN_UNUSED_RESULT;

/* The same in the unit that @style shows, rounded so that both ends are accepted when they are typed. */
char *tw_field_accepts_shown (const TwField *field, const TwUnitStyle *style) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
