/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the status line says of a drag.
 */
#include "app/canvas-private.h"

#include "app/part-words.h"

#include <glib/gi18n-lib.h>

char *
tw_canvas_moved_text (TwCanvas *self)
{
  const TwPart *part = tw_job_find (tw_session_job (self->session), tw_hand_part (self->hand));
  TwUnitStyle style = tw_session_style (self->session);
  guint n;
  const guint *fields = tw_hand_fields (self->hand, &n);
  GString *text = g_string_new (NULL);

  for (guint i = 0; part != NULL && i < n; i++) {
    const TwField *field = &tw_kind_info (part->kind)->fields[fields[i]];
    g_autofree char *figure
        = tw_units_format (field->quantity, &style, G_STRUCT_MEMBER (double, part, field->offset), -1);

    g_string_append_printf (text, "%s%s", text->len ? ", " : "", figure);
  }
  if (text->len > 0)
    g_string_prepend (text, "  ");
  if (text->len > 0)
    g_string_prepend (text, tw_part_words_name (part));
  return g_string_free (text, FALSE);
}

char *
tw_canvas_snap_text (TwCanvas *self)
{
  const TwSnap *snap = tw_hand_snap (self->hand);
  const TwPart *other;

  if (!tw_hand_is_holding (self->hand) || snap->kind == TW_SNAP_NONE)
    return NULL;
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wformat-nonliteral"
  if (snap->kind == TW_SNAP_GAP && snap->tube > 0)
    return g_strdup_printf (_ (tw_snap_words (snap->kind)), snap->tube, snap->tube + 1);
  other = tw_id_is_none (snap->other) ? NULL : tw_job_find (tw_session_job (self->session), snap->other);
  if (snap->kind == TW_SNAP_GAP)
    return g_strdup (_ ("between two rows"));
  if (tw_snap_names (snap->kind))
    return g_strdup_printf (_ (tw_snap_words (snap->kind)), other ? tw_part_words_name (other) : "");
#pragma GCC diagnostic pop
  return g_strdup (_ (tw_snap_words (snap->kind)));
}
