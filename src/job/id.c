/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/id.h"

#include <string.h>

gboolean
tw_id_from_text (const char *text, TwId *id)
{
  size_t n = strlen (text);

  *id = TW_ID_NONE;
  if (n == 0 || n > TW_ID_LENGTH || text[strspn (text, "abcdefghijklmnopqrstuvwxyz0123456789-_")] != '\0')
    return FALSE;
  memcpy (id->text, text, n + 1);
  return TRUE;
}
