/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/part-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

static const char *const icons[TW_N_KINDS] = {
  [TW_KIND_SETTINGS] = "tw-job-symbolic",
  [TW_KIND_VOLUME] = "tw-keep-out-symbolic",
  [TW_KIND_CORE] = "tw-core-symbolic",
  [TW_KIND_TANK] = "tw-tank-symbolic",
  [TW_KIND_BAFFLE] = "tw-baffle-symbolic",
  [TW_KIND_PORT] = "tw-port-symbolic",
  [TW_KIND_SHROUD] = "tw-shroud-symbolic",
  [TW_KIND_FAN] = "tw-fan-symbolic",
  [TW_KIND_ENGINE_PORT] = "tw-engine-port-symbolic",
  [TW_KIND_HOSE] = "tw-hose-symbolic",
  [TW_KIND_HEADER_TANK] = "tw-header-tank-symbolic",
  [TW_KIND_OPENING] = "tw-opening-symbolic",
  [TW_KIND_EXIT] = "tw-exit-symbolic",
};

const char *
tw_part_words_name (const TwPart *part)
{
  const char *name = tw_part_name (part);

  if (part->kind == TW_KIND_SETTINGS && g_str_equal (name, part->id.text))
    return _ ("Job");
  return name;
}

const char *
tw_part_words_icon (const TwPart *part)
{
  if (part->kind == TW_KIND_VOLUME && ((const TwVolume *)part)->use == TW_USE_FREE)
    return "tw-bay-symbolic";
  return icons[part->kind];
}

char *
tw_part_words_figures (const TwPart *part, const TwUnitStyle *style)
{
  const TwKindInfo *info = tw_kind_info (part->kind);
  GString *text = g_string_new (_ (info->noun));

  for (guint i = 0; i < info->n_fields; i++) {
    const TwField *field = &info->fields[i];
    g_autofree char *figure = NULL;

    if (field->store != TW_FIELD_NUMBER || isnan (G_STRUCT_MEMBER (double, part, field->offset)))
      continue;
    figure = tw_units_format (field->quantity, style, G_STRUCT_MEMBER (double, part, field->offset), -1);
    g_string_append_printf (text, "; %s %s", _ (field->label), figure);
  }
  return g_string_free (text, FALSE);
}
