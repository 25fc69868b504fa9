/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"

/* clang-format off */
G_DEFINE_QUARK (tw-error-quark, tw_error)
/* clang-format on */

static void
trouble_free (gpointer data)
{
  TwTrouble *self = data;

  g_free (self->where);
  g_free (self->found);
  g_free (self->expected);
  g_free (self);
}

TwTroubles *
tw_troubles_new (void)
{
  TwTroubles *self = g_new0 (TwTroubles, 1);

  self->list = g_ptr_array_new_with_free_func (trouble_free);
  return self;
}

void
tw_troubles_free (TwTroubles *self)
{
  g_ptr_array_unref (self->list);
  g_free (self);
}

void
tw_troubles_add (TwTroubles *self, char *where, char *found, const char *expected)
{
  self->n++;
  if (self->list->len < TW_TROUBLES_KEPT) {
    TwTrouble *trouble = g_new (TwTrouble, 1);

    *trouble = (TwTrouble){ .where = where, .found = found, .expected = g_strdup (expected) };
    g_ptr_array_add (self->list, trouble);
  } else {
    g_free (where);
    g_free (found);
  }
}

char *
tw_trouble_text (const TwTrouble *self)
{
  /* Translators: the place in a file, what stands there, what is accepted there */
  return g_strdup_printf (_ ("%s: found %s, expected %s"), self->where, self->found, self->expected);
}

gboolean
tw_troubles_to_error (const TwTroubles *self, const char *file, GError **error)
{
  g_autoptr (GString) text = NULL;

  if (self->n == 0)
    return TRUE;

  text = g_string_new (NULL);
  for (guint i = 0; i < self->list->len; i++) {
    g_autofree char *line = tw_trouble_text (g_ptr_array_index (self->list, i));

    g_string_append_printf (text, "%s%s: %s", i ? "\n" : "", file, line);
  }
  if (self->n > self->list->len)
    g_string_append_printf (text, _ ("\n%s: and %u more"), file, self->n - self->list->len);
  g_set_error_literal (error, TW_ERROR, TW_ERROR_FORMAT, text->str);
  return FALSE;
}
