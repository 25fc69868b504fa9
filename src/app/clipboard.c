/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/clipboard.h"

#include "base/error.h"
#include "job/pieces.h"
#include "stage/arrange.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define BESIDE_MM 20.0 /* by which a copy stands off its original, right and down in the view */

/* --- out ------------------------------------------------------------------------------------------------ */

gboolean
tw_clipboard_copy (TwSession *session, GdkClipboard *clipboard, GError **error)
{
  guint n;
  const TwId *ids = tw_session_chosen (session, &n);
  g_autofree char *text = tw_pieces_write (tw_session_job (session), ids, n, error);
  g_autoptr (GBytes) bytes = NULL;
  g_autoptr (GdkContentProvider) both = NULL;
  GdkContentProvider *kinds[2];

  if (text == NULL)
    return FALSE;
  bytes = g_bytes_new (text, strlen (text));
  kinds[0] = gdk_content_provider_new_for_bytes (TW_PIECES_MEDIA_TYPE, bytes);
  kinds[1] = gdk_content_provider_new_typed (G_TYPE_STRING, text);
  both = gdk_content_provider_new_union (kinds, 2);
  gdk_clipboard_set_content (clipboard, both);
  return TRUE;
}

/* Parts without the job itself, which cannot be removed. */
static GArray *
removable (TwSession *session)
{
  GArray *parts = g_array_new (FALSE, FALSE, sizeof (TwId));
  guint n;
  const TwId *ids = tw_session_chosen (session, &n);

  for (guint i = 0; i < n; i++)
    if (!g_str_equal (ids[i].text, "job"))
      g_array_append_val (parts, ids[i]);
  return parts;
}

gboolean
tw_clipboard_cut (TwSession *session, GdkClipboard *clipboard, GError **error)
{
  g_autoptr (GArray) parts = removable (session);
  TwArrangeSet set = { .job = tw_session_job (session),
                       .placement = tw_session_placement (session),
                       .ids = (const TwId *)parts->data,
                       .n = parts->len,
                       /* Translators: a step that can be undone */
                       .label = _ ("Cutting Out") };
  TwChange *change;

  if (!tw_clipboard_copy (session, clipboard, error))
    return FALSE;
  change = tw_arrange_remove (&set, error);
  return change != NULL && tw_session_do (session, change, error);
}

/* --- in ------------------------------------------------------------------------------------------------- */

typedef struct {
  TwSession *session; /* counted */
  TwClipboardDone done;
  gpointer data;
} Paste;

static void
end (Paste *self, const GError *error)
{
  self->done (error, self->data);
  g_object_unref (self->session);
  g_free (self);
}

/* Whether every part is in the job just as it was copied. */
static gboolean
all_there (const TwJob *job, GPtrArray *parts)
{
  for (guint i = 0; i < parts->len; i++) {
    const TwPart *part = g_ptr_array_index (parts, i), *found = tw_job_find (job, part->id);

    if (found == NULL || !tw_part_equal (found, part))
      return FALSE;
  }
  return TRUE;
}

/* Copies beside what is there. */
static TwChange *
set_beside (TwSession *session, GPtrArray *parts, const char *label, GArray **made, GError **error)
{
  g_autoptr (GArray) ids = g_array_new (FALSE, FALSE, sizeof (TwId));
  TwStageView view;
  TwArrangeSet set = { .job = tw_session_job (session),
                       .placement = tw_session_placement (session),
                       .view = &view,
                       .label = label };

  if (!tw_session_view_axes (session, &view))
    return NULL;
  for (guint i = 0; i < parts->len; i++)
    g_array_append_val (ids, ((const TwPart *)g_ptr_array_index (parts, i))->id);
  set.ids = (const TwId *)ids->data;
  set.n = ids->len;
  return tw_arrange_duplicate (&set, (TwPoint){ BESIDE_MM, -BESIDE_MM }, made, error);
}

static TwChange *
make_change (TwSession *session, const char *text, GArray **made, GError **error)
{
  g_autoptr (GPtrArray) parts = tw_pieces_parts (text, strlen (text));
  TwJob *job = tw_session_job (session);
  /* Translators: a step that can be undone */
  const char *label = _ ("Pasting");
  TwChange *change = NULL;

  if (parts != NULL && all_there (job, parts))
    change = set_beside (session, parts, label, made, NULL);
  return change != NULL ? change : tw_pieces_read (text, strlen (text), job, label, made, error);
}

static void
take_text (Paste *self, const char *text)
{
  g_autoptr (GArray) made = NULL;
  g_autoptr (GError) error = NULL;
  TwChange *change;

  if (!tw_session_has_job (self->session)) {
    end (self, NULL);
    return;
  }
  change = make_change (self->session, text, &made, &error);
  if (change != NULL && tw_session_do (self->session, change, &error))
    tw_session_choose (self->session, (const TwId *)made->data, made->len);
  end (self, error);
}

static void
text_read_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *text = gdk_clipboard_read_text_finish (GDK_CLIPBOARD (source), result, &error);

  if (text == NULL) {
    g_clear_error (&error); /* the toolkit's own words for "no text there" */
    g_set_error_literal (&error, TW_ERROR, TW_ERROR_MISSING, _ ("There are no parts of a job to be pasted."));
    end (data, error);
  } else {
    take_text (data, text);
  }
}

static void
bytes_read_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (GError) error = NULL;
  GMemoryOutputStream *memory = G_MEMORY_OUTPUT_STREAM (source);
  g_autofree char *text = NULL;

  if (g_output_stream_splice_finish (G_OUTPUT_STREAM (source), result, &error) < 0) {
    end (data, error);
    return;
  }
  text = g_strndup (g_memory_output_stream_get_data (memory), g_memory_output_stream_get_data_size (memory));
  take_text (data, text);
}

static void
stream_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GInputStream) stream = gdk_clipboard_read_finish (GDK_CLIPBOARD (source), result, NULL, &error);
  g_autoptr (GOutputStream) memory = NULL;

  if (stream == NULL) {
    end (data, error);
    return;
  }
  memory = g_memory_output_stream_new_resizable ();
  g_output_stream_splice_async (memory, stream,
                                G_OUTPUT_STREAM_SPLICE_CLOSE_SOURCE | G_OUTPUT_STREAM_SPLICE_CLOSE_TARGET,
                                G_PRIORITY_DEFAULT, NULL, bytes_read_cb, data);
}

void
tw_clipboard_paste (TwSession *session, GdkClipboard *clipboard, TwClipboardDone done, gpointer data)
{
  static const char *ours[] = { TW_PIECES_MEDIA_TYPE, NULL };
  GdkContentFormats *formats = gdk_clipboard_get_formats (clipboard);
  Paste *self = g_new (Paste, 1);

  *self = (Paste){ g_object_ref (session), done, data };
  if (gdk_content_formats_contain_mime_type (formats, TW_PIECES_MEDIA_TYPE))
    gdk_clipboard_read_async (clipboard, ours, G_PRIORITY_DEFAULT, NULL, stream_cb, self);
  else
    gdk_clipboard_read_text_async (clipboard, NULL, text_read_cb, self);
}
