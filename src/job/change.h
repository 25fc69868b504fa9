/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * change.h - the five things that can be done to a job, each with its inverse
 *
 * set a field, add a part or element, remove one, put one in another place of its list, and a group of these
 * that is done and undone as one. Applying a change gives the change that undoes it. A change that would
 * break the job (a value out of range, a reference to nothing, removing what something refers to) is refused
 * and nothing is altered.
 */
#pragma once

#include "job/job.h"

G_BEGIN_DECLS

/* The value of a field of any kind, with the text as typed. */
typedef struct {
  TwFieldStore store;
  double number; /* in the unit of the field's quantity; NAN: unknown */
  int choice;    /* choice, flag and count; -1: unknown */
  char *text;    /* owned; NULL: unknown */
  TwId ref;      /* TW_ID_NONE: unknown */
  char *typed;   /* owned; NULL: nothing was typed */
} TwValue;

/* A known value; text is copied. Clear it with tw_value_clear(). */
TwValue tw_value_number (double number);
TwValue tw_value_choice (TwFieldStore store, int choice);
TwValue tw_value_text (const char *text);
TwValue tw_value_ref (TwId ref);
/* Unknown, for any field. */
TwValue tw_value_unknown (TwFieldStore store);
void tw_value_clear (TwValue *self);
/* The same value, whatever was typed for it. */
gboolean tw_value_equal (const TwValue *a, const TwValue *b);

/* Value of a field of a part or element; clear it with tw_value_clear(). */
TwValue tw_part_get (const TwPart *part, guint field) G_GNUC_WARN_UNUSED_RESULT;

/* Fills a field of a part that is still being made. Takes what @value holds and empties it. */
void tw_part_put (TwPart *part, guint field, TwValue *value);

/**
 * tw_value_parse:
 * @field: what it is for
 * @style: what a number without a unit means
 * @text: as typed by a person or given to the command; empty: unknown
 * @value: (out): with @text kept as typed where it is a figure
 *
 * Refuses with what is accepted. References are only looked up when the change is applied.
 */
gboolean tw_value_parse (const TwField *field,
                         const TwUnitStyle *style,
                         const char *text,
                         TwValue *value,
                         GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* In its range, finite or unknown, as the field asks. */
gboolean
tw_value_check (const TwField *field, const TwValue *value, GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* How the job shows lengths. The decimal sign is a point; callers that translate set it. */
TwUnitStyle tw_job_unit_style (const TwJob *job);

/* The five kinds of change there are. */
typedef enum {
  TW_CHANGE_SET,
  TW_CHANGE_ADD,
  TW_CHANGE_REMOVE,
  TW_CHANGE_REORDER,
  TW_CHANGE_GROUP,
} TwChangeKind;

typedef struct _TwChange TwChange;

/* Field @field of part @part, or of its @element when that is not TW_ID_NONE. Takes what @value holds. */
TwChange *tw_change_set (TwId part, TwId element, guint field, TwValue *value) G_GNUC_WARN_UNUSED_RESULT;

/* Adds @made (transfer full) at place @nth, -1 last: a part; or an element to list @list of @part. A made
 * part or element without id is given one that is new. */
TwChange *tw_change_add (TwPart *made, int nth) G_GNUC_WARN_UNUSED_RESULT;
TwChange *tw_change_add_element (TwId part, guint list, TwPart *made, int nth) G_GNUC_WARN_UNUSED_RESULT;

/* Removes a part, or one of its elements when @element is not TW_ID_NONE. */
TwChange *tw_change_remove (TwId part, TwId element) G_GNUC_WARN_UNUSED_RESULT;

/* Removes a part and, before it, everything that refers to it (a tank with its baffles, ports and their
 * hoses). */
TwChange *tw_change_remove_whole (const TwJob *job, TwId part) G_GNUC_WARN_UNUSED_RESULT;

/* The same for several parts at once, each of which is there; what belongs to two of them goes once. */
TwChange *tw_change_remove_several (const TwJob *job, const TwId *parts, guint n, const char *label)
    G_GNUC_WARN_UNUSED_RESULT;

/* To place @nth of its list. */
TwChange *tw_change_reorder (TwId part, TwId element, guint nth) G_GNUC_WARN_UNUSED_RESULT;

/* An empty group; @label (may be NULL) is what undo calls it, translated by the caller. */
TwChange *tw_change_group (const char *label) G_GNUC_WARN_UNUSED_RESULT;
/* Takes @member (transfer full). */
void tw_change_group_add (TwChange *group, TwChange *member);
guint tw_change_group_size (const TwChange *group);

void tw_change_free (TwChange *self);

/* Which of the five it is. */
TwChangeKind tw_change_kind (const TwChange *self);
/* Part that it touches; of a group the first one's. */
TwId tw_change_part (const TwChange *self);

/**
 * tw_change_apply:
 * @self: (transfer none)
 * @job: altered, or left as it was when the change is refused (a group as a whole)
 * @inverse: (out) (transfer full): undoes it
 *
 * Watchers of @job are called once.
 */
gboolean tw_change_apply (const TwChange *self, TwJob *job, TwChange **inverse, GError **error)
    G_GNUC_WARN_UNUSED_RESULT;

/* `part/element/field` of a set. (transfer full) */
char *tw_change_set_key (const TwChange *self) G_GNUC_WARN_UNUSED_RESULT;

/* Whether applying it would leave @job as it is: only sets of what is already there. */
gboolean tw_change_is_noop (const TwChange *self, const TwJob *job);

/* What undo calls it: the group's label, or made from kinds and fields (`Width of Left tank`). Translated. */
char *tw_change_label (const TwChange *self, const TwJob *job) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwChange, tw_change_free)

G_END_DECLS
