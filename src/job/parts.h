/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * parts.h - the structs of all kinds of parts and elements
 *
 * Each is its field list (job/fields/<kind>.inc) behind a common head. A part never changes once it is made:
 * a change makes another part with the same id, so that threads, undo and answers can share them. Meaning,
 * unit and range of each field stand in its list.
 */
#pragma once

#include "job/fields.h"

#include <cjson/cJSON.h>

G_BEGIN_DECLS

/* Head of every part and element. */
typedef struct {
  TwKind kind;
  TwId id;
  char *
      *typed; /* by field: the text as typed, NULL where none was kept; NULL when the part has none at all */
  cJSON *extra; /* object of members that this program does not know, NULL when there are none */
} TwPart;

#define TW_TYPE_NONE double
#define TW_TYPE_NUMBER double
#define TW_TYPE_SHARE double
#define TW_TYPE_LENGTH double
#define TW_TYPE_DIAMETER double
#define TW_TYPE_VOLUME double
#define TW_TYPE_ANGLE double
#define TW_TYPE_WATER_FLOW double
#define TW_TYPE_AIR_FLOW double
#define TW_TYPE_PRESSURE double
#define TW_TYPE_AIR_PRESSURE double
#define TW_TYPE_POWER double
#define TW_TYPE_VOLTAGE double
#define TW_TYPE_CURRENT double
#define TW_TYPE_COUNT int
#define TW_TYPE_CHOICE int
#define TW_TYPE_FLAG int
#define TW_TYPE_TEXT char *
#define TW_TYPE_REF TwId
/* clang-format off */
#define TW_PART_BEGIN typedef struct { TwPart head;
#define TW_PART_END } TW_STRUCT;
#define TW_FIELD(kind, name, label, low, high, choices, hint) TW_TYPE_##kind name;
#define TW_LIST(element, name, label, fewest, most) GPtrArray *name; /* of TwPart *, elements; never NULL */
#include "job/all-fields.inc"

/* Place of each field in the table of its kind: TW_TANK_wall_mm; and how many: TW_TANK_N_FIELDS. */
#define TW_JOIN(a, b, c) a##b##_##c
#define TW_FIELD_NAME(symbol, name) TW_JOIN (TW_, symbol, name)
#define TW_PART_BEGIN enum {
#define TW_PART_END TW_FIELD_NAME (TW_SYMBOL, N_FIELDS) };
#define TW_FIELD(kind, name, label, low, high, choices, hint) TW_FIELD_NAME (TW_SYMBOL, name),
#define TW_LIST(element, name, label, fewest, most)
#include "job/all-fields.inc"
/* clang-format on */

/**
 * tw_part_new:
 * @kind: of the part or element
 * @id: TW_ID_NONE only for a part that tw_change_add() will name
 *
 * A part in which nothing is known. It may be filled by its maker until it is handed to anything else.
 *
 * Returns: (transfer full)
 */
TwPart *tw_part_new (TwKind kind, TwId id) G_GNUC_WARN_UNUSED_RESULT;

/* Another like it that its maker may fill; elements are shared. (transfer full) */
TwPart *tw_part_copy (const TwPart *self) G_GNUC_WARN_UNUSED_RESULT;

/* Counted by atomic operations; ref takes a const part since nothing in it that can be seen changes. */
TwPart *tw_part_ref (const TwPart *self);
void tw_part_unref (gpointer self);

/* Same kind, id, fields, typed texts, elements and unknown members, to the bit. */
gboolean tw_part_equal (const TwPart *a, const TwPart *b);

/* Name as given, else its id; never NULL. (transfer none) */
const char *tw_part_name (const TwPart *self);

/* Element by id in any of its lists, or NULL; @list (out, may be NULL) is the list's place. */
const TwPart *tw_part_element (const TwPart *self, TwId id, guint *list);

/* List number @list of the part. (transfer none) */
GPtrArray *tw_part_list (const TwPart *self, guint list);

/* Whether one of its references is @id. */
gboolean tw_part_refers_to (const TwPart *self, TwId id);

/* Element number @i of a list, as its struct. */
#define TW_ELEMENT(list, type, i) ((const type *)g_ptr_array_index ((list), (i)))

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwPart, tw_part_unref)

G_END_DECLS
