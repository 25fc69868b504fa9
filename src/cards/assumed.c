/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cards/maker-private.h"

#include <glib/gi18n-lib.h>

TwCard *
tw_card_assumed (TwCardMaker *maker)
{
  guint n = tw_drawing_n_assumed (maker->drawing);

  tw_maker_begin (maker, "assumed", _ ("Assumed"));
  tw_maker_headline (maker, g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u value", "%u values", n), n));
  tw_maker_headline_figure (maker, "values", TW_QUANTITY_COUNT, n, "COMMON-PRACTICE");
  g_free (maker->card->meaning);
  maker->card->meaning = g_strdup (n > 0 ? _ ("not given by the job; measure and type those that matter")
                                         : _ ("the job gives every value"));
  for (guint i = 0; i < n; i++) {
    const TwAssumed *assumed = tw_drawing_assumed (maker->drawing, i);
    const TwPart *part = tw_drawing_find (maker->drawing, assumed->part);
    const TwField *field = &tw_kind_info (part->kind)->fields[assumed->field];
    g_autofree char *label
        = g_strdup_printf ("%s: %s", tw_maker_name (maker, assumed->part), _ (field->label));
    TwCardRow *row = tw_maker_row (maker, field->name, assumed->part, label,
                                   tw_maker_field_text (maker, part, assumed->field));

    row->detail = g_strdup (_ (assumed->why));
  }
  return tw_maker_end (maker);
}
