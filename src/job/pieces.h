/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * pieces.h - parts taken out of a job as text, to be put into another
 *
 * What the clipboard holds: a line of JSON, `{ "tankwright-parts": 1, "change": … }`, with the additions that
 * make the parts (job/change-text.h).
 */
#pragma once

#include "job/change.h"

G_BEGIN_DECLS

#define TW_PIECES_FORMAT 1
#define TW_PIECES_MEDIA_TYPE "application/vnd.tankwright.parts+json"

/**
 * tw_pieces_write:
 * @ids: @n parts of @job
 *
 * With what belongs to them: whatever refers to one of them and to nothing outside (a tank's baffles and
 * ports, the hose between two ports that are both taken).
 *
 * Returns: (transfer full) (nullable): NULL, saying why, when the settings are among them or there are none
 */
char *tw_pieces_write (const TwJob *job, const TwId *ids, guint n, GError **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * tw_pieces_read:
 * @text: @length bytes, of anything
 * @job: new ids are taken from it; else only read
 * @label: what undo calls it, translated
 * @made: (out) (element-type TwId) (transfer full): the new parts
 *
 * The change that puts the parts into @job, with new ids; a name that is taken there gets the next number.
 * What a part belongs to comes along, or is in @job under the same id, or is the only one of its kind there;
 * else it is refused, saying what is missing.
 *
 * Returns: (transfer full) (nullable)
 */
TwChange *
tw_pieces_read (const char *text, gsize length, TwJob *job, const char *label, GArray **made, GError **error)
    G_GNUC_WARN_UNUSED_RESULT;

/* The parts in a text of ours, of const TwPart *, as they were when they were taken; NULL for any other text.
 * Free it with g_ptr_array_unref(). (transfer full) */
GPtrArray *tw_pieces_parts (const char *text, gsize length) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
