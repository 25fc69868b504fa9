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

typedef struct {
  TwKind kind;
  guint first;
  const char *title;
} Group;

/* clang-format off */
static const Group groups[] = {
  { TW_KIND_SETTINGS, TW_SETTINGS_shown_in, N_ ("Units and sheets") },
  { TW_KIND_SETTINGS, TW_SETTINGS_ground_mm, N_ ("Vehicle") },
  { TW_KIND_SETTINGS, TW_SETTINGS_clearance_mm, N_ ("Limits") },
  { TW_KIND_SETTINGS, TW_SETTINGS_flow_l_min, N_ ("Duty") },
  { TW_KIND_SETTINGS, TW_SETTINGS_owner, N_ ("Title block") },
  { TW_KIND_CORE, TW_CORE_x_mm, N_ ("Place and turns") },
  { TW_KIND_CORE, TW_CORE_face_width_mm, N_ ("Block") },
  { TW_KIND_CORE, TW_CORE_tubes, N_ ("Tubes") },
  { TW_KIND_CORE, TW_CORE_fin_pitch_mm, N_ ("Fins") },
  { TW_KIND_CORE, TW_CORE_header_reach_mm, N_ ("Header plates") },
  { TW_KIND_TANK, TW_TANK_start_mm, N_ ("Outside sizes") },
  { TW_KIND_TANK, TW_TANK_wall_mm, N_ ("Sheet and folds") },
  { TW_KIND_PORT, TW_PORT_wall, N_ ("Place") },
  { TW_KIND_PORT, TW_PORT_stand_out_mm, N_ ("Sizes") },
  { TW_KIND_FAN, TW_FAN_u_mm, N_ ("Place") },
  { TW_KIND_FAN, TW_FAN_swept_mm, N_ ("Sizes") },
  { TW_KIND_FAN, TW_FAN_rated_v, N_ ("Motor") },
  { TW_KIND_SHROUD, TW_SHROUD_u_mm, N_ ("Mouth") },
  { TW_KIND_SHROUD, TW_SHROUD_plenum_mm, N_ ("Box") },
  { TW_KIND_ENGINE_PORT, TW_ENGINE_PORT_x_mm, N_ ("Place") },
  { TW_KIND_ENGINE_PORT, TW_ENGINE_PORT_stand_out_mm, N_ ("Sizes") },
  { TW_KIND_HOSE, TW_HOSE_bore_mm, N_ ("Hose") },
  { TW_KIND_HEADER_TANK, TW_HEADER_TANK_x_mm, N_ ("Place") },
  { TW_KIND_HEADER_TANK, TW_HEADER_TANK_width_mm, N_ ("Outside sizes") },
  { TW_KIND_HEADER_TANK, TW_HEADER_TANK_volume_l, N_ ("Water") },
  { TW_KIND_OPENING, TW_OPENING_plane, N_ ("Place") },
  { TW_KIND_OPENING, TW_OPENING_width_mm, N_ ("Sizes") },
  { TW_KIND_EXIT, TW_EXIT_plane, N_ ("Place") },
  { TW_KIND_EXIT, TW_EXIT_width_mm, N_ ("Sizes") },
  { TW_KIND_VOLUME, TW_VOLUME_plane, N_ ("Shape") },
};
/* clang-format on */

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

const char *
tw_part_words_group (TwKind kind, guint field)
{
  for (guint i = 0; i < G_N_ELEMENTS (groups); i++)
    if (groups[i].kind == kind && groups[i].first == field)
      return groups[i].title;
  return NULL;
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
