/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/canvas-copy.h"

#include "base/error.h"
#include "sheets/to-cairo.h"
#include "sheets/to-svg.h"
#include "sheets/view-page.h"

#include <glib/gi18n-lib.h>

#define PIXELS_PER_MM 7.4 /* a page 270 mm wide has 2000 pixels */

static const char *
translate (const char *words)
{
  return words[0] != '\0' ? _ (words) : words;
}

static GdkContentProvider *
provide (const TwPage *page, const TwPageAbout *about, gboolean as_lines, GError **error)
{
  g_autoptr (GBytes) bytes = NULL;
  g_autoptr (GdkTexture) texture = NULL;

  if (as_lines) {
    bytes = tw_svg_write (page, about);
    return gdk_content_provider_new_for_bytes ("image/svg+xml", bytes);
  }
  bytes = tw_cairo_write_png (page, PIXELS_PER_MM, error);
  texture = bytes ? gdk_texture_new_from_bytes (bytes, error) : NULL;
  return texture ? gdk_content_provider_new_typed (GDK_TYPE_TEXTURE, texture) : NULL;
}

gboolean
tw_canvas_copy_view (TwSession *session, GdkClipboard *clipboard, gboolean as_lines, GError **error)
{
  const TwAnswer *answer = tw_session_answer (session);
  const TwPlacedCore *core = tw_session_core (session);
  g_autoptr (TwLetters) letters = tw_letters_new (TW_LETTERS_SHEET_FONT);
  g_autoptr (TwInk) ink = tw_ink_new ();
  g_autoptr (GdkContentProvider) content = NULL;
  g_autofree char *title = tw_session_title (session);
  TwMeasure measure = tw_letters_measure (letters);
  TwLook look = tw_look_paper (FALSE);
  TwViewManner manner = { .view = tw_session_view (session),
                          .core = core ? core->id : TW_ID_NONE,
                          .look = &look,
                          .measure = &measure,
                          .translate = translate };
  const TwPageAbout about = { .title = title };
  TwViewSource source;
  TwPage page;

  g_return_val_if_fail (answer != NULL, FALSE);
  source = (TwViewSource){ tw_answer_placement (answer), tw_answer_routes (answer), tw_answer_passes (answer),
                           tw_session_geos (session) };
  if (!tw_view_page_lay (&source, &manner, ink, &page)) {
    g_set_error_literal (error, TW_ERROR, TW_ERROR_REFUSED, _ ("This view shows nothing to copy"));
    return FALSE;
  }
  content = provide (&page, &about, as_lines, error);
  return content != NULL && gdk_clipboard_set_content (clipboard, content);
}
