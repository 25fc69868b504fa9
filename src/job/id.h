/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * id.h - names that parts and their elements keep for life
 *
 * Rooms hand ids to each other, never pointers or places in a list. An id is short text, held by value, so it
 * has no owner; the empty one means "none". Within a job an id is given once.
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define TW_ID_LENGTH 31

/* 1 to 31 characters of a-z, 0-9, - and _, or empty. Compare with tw_id_equal(); hash with g_str_hash on
 * @text. */
typedef struct {
  char text[TW_ID_LENGTH + 1];
} TwId;

#define TW_ID_NONE ((TwId){ "" })

/* FALSE when @text is no id (empty, too long, other characters); @id is then TW_ID_NONE. */
gboolean tw_id_from_text (const char *text, TwId *id);

static inline gboolean
tw_id_equal (TwId a, TwId b)
{
  return g_str_equal (a.text, b.text);
}

static inline gboolean
tw_id_is_none (TwId id)
{
  return id.text[0] == '\0';
}

G_END_DECLS
