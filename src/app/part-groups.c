/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/part-groups.h"

#include <glib/gi18n-lib.h>

#define LIST(...) (const guint[]){ __VA_ARGS__ }, G_N_ELEMENTS (((const guint[]){ __VA_ARGS__ }))

/* clang-format off */
static const TwPartGroup groups[] = {
  { TW_KIND_SETTINGS, NULL, LIST (TW_SETTINGS_name, TW_SETTINGS_note) },
  { TW_KIND_SETTINGS, N_ ("Units"), LIST (TW_SETTINGS_shown_in, TW_SETTINGS_inch_figures) },
  { TW_KIND_SETTINGS, N_ ("Duty"), LIST (TW_SETTINGS_heat_kw, TW_SETTINGS_flow_l_min) },
  { TW_KIND_SETTINGS, N_ ("Vehicle"), LIST (TW_SETTINGS_ground_mm, TW_SETTINGS_nose_heading_deg) },
  { TW_KIND_SETTINGS, N_ ("Limits"), LIST (TW_SETTINGS_clearance_mm, TW_SETTINGS_hot_clearance_mm, TW_SETTINGS_straight_mm, TW_SETTINGS_land_mm) },
  { TW_KIND_SETTINGS, N_ ("Sheets"), LIST (TW_SETTINGS_projection, TW_SETTINGS_identification, TW_SETTINGS_issue_date, TW_SETTINGS_creator, TW_SETTINGS_approver, TW_SETTINGS_owner) },
  { TW_KIND_VOLUME, NULL, LIST (TW_VOLUME_name, TW_VOLUME_use, TW_VOLUME_kind) },
  { TW_KIND_VOLUME, N_ ("Size"), LIST (TW_VOLUME_plane, TW_VOLUME_from_mm, TW_VOLUME_to_mm) },
  { TW_KIND_VOLUME, N_ ("Limits"), LIST (TW_VOLUME_clearance_mm) },
  { TW_KIND_CORE, NULL, LIST (TW_CORE_name, TW_CORE_core_kind) },
  { TW_KIND_CORE, N_ ("Size"), LIST (TW_CORE_face_width_mm, TW_CORE_face_height_mm, TW_CORE_thickness_mm) },
  { TW_KIND_CORE, N_ ("Tubes"), LIST (TW_CORE_tubes, TW_CORE_tube_count, TW_CORE_rows, TW_CORE_tube_pitch_mm, TW_CORE_first_tube_mm, TW_CORE_row_pitch_mm, TW_CORE_tube_height_mm, TW_CORE_tube_width_mm, TW_CORE_tube_wall_mm) },
  { TW_KIND_CORE, N_ ("Place"), LIST (TW_CORE_x_mm, TW_CORE_y_mm, TW_CORE_z_mm, TW_CORE_turn_deg, TW_CORE_lean_deg, TW_CORE_roll_deg, TW_CORE_heading_deg, TW_CORE_air) },
  { TW_KIND_CORE, N_ ("Header plates"), LIST (TW_CORE_header_reach_mm, TW_CORE_header_width_mm, TW_CORE_header_thickness_mm, TW_CORE_header_lip_mm, TW_CORE_alloy) },
  { TW_KIND_CORE, N_ ("Fins"), LIST (TW_CORE_fin_pitch_mm, TW_CORE_fin_thickness_mm, TW_CORE_louvre_pitch_mm, TW_CORE_louvre_length_mm, TW_CORE_louvre_deg) },
  { TW_KIND_TANK, NULL, LIST (TW_TANK_name, TW_TANK_core, TW_TANK_side) },
  { TW_KIND_TANK, N_ ("Size"), LIST (TW_TANK_width_mm, TW_TANK_depth_mm, TW_TANK_depth_end_mm, TW_TANK_back) },
  { TW_KIND_TANK, N_ ("Place"), LIST (TW_TANK_start_mm, TW_TANK_end_mm, TW_TANK_offset_mm) },
  { TW_KIND_TANK, N_ ("Make"), LIST (TW_TANK_wall_mm, TW_TANK_bend_radius_mm, TW_TANK_lip_mm, TW_TANK_alloy, TW_TANK_made) },
  { TW_KIND_BAFFLE, NULL, LIST (TW_BAFFLE_name, TW_BAFFLE_tank) },
  { TW_KIND_BAFFLE, N_ ("Place"), LIST (TW_BAFFLE_place_mm, TW_BAFFLE_runs) },
  { TW_KIND_BAFFLE, N_ ("Make"), LIST (TW_BAFFLE_thickness_mm, TW_BAFFLE_seat, TW_BAFFLE_gap_mm) },
  { TW_KIND_PORT, NULL, LIST (TW_PORT_name, TW_PORT_use, TW_PORT_tank) },
  { TW_KIND_PORT, N_ ("Size"), LIST (TW_PORT_standard, TW_PORT_size, TW_PORT_outside_mm, TW_PORT_bore_mm, TW_PORT_boss_mm, TW_PORT_stand_out_mm) },
  { TW_KIND_PORT, N_ ("Place"), LIST (TW_PORT_wall, TW_PORT_along_mm, TW_PORT_across_mm, TW_PORT_out_mm, TW_PORT_leaves) },
  { TW_KIND_SHROUD, NULL, LIST (TW_SHROUD_name, TW_SHROUD_core) },
  { TW_KIND_SHROUD, N_ ("Mouth"), LIST (TW_SHROUD_width_mm, TW_SHROUD_height_mm, TW_SHROUD_u_mm, TW_SHROUD_v_mm) },
  { TW_KIND_SHROUD, N_ ("Make"), LIST (TW_SHROUD_plenum_mm, TW_SHROUD_stands, TW_SHROUD_form, TW_SHROUD_wall_mm, TW_SHROUD_sealed) },
  { TW_KIND_FAN, NULL, LIST (TW_FAN_name, TW_FAN_core) },
  { TW_KIND_FAN, N_ ("Size"), LIST (TW_FAN_swept_mm, TW_FAN_ring_mm, TW_FAN_hub_mm, TW_FAN_depth_mm) },
  { TW_KIND_FAN, N_ ("Place"), LIST (TW_FAN_u_mm, TW_FAN_v_mm, TW_FAN_stand_off_mm, TW_FAN_blows) },
  { TW_KIND_FAN, N_ ("Motor"), LIST (TW_FAN_rated_v, TW_FAN_current_a) },
  { TW_KIND_ENGINE_PORT, NULL, LIST (TW_ENGINE_PORT_name, TW_ENGINE_PORT_use) },
  { TW_KIND_ENGINE_PORT, N_ ("Size"), LIST (TW_ENGINE_PORT_outside_mm, TW_ENGINE_PORT_stand_out_mm) },
  { TW_KIND_ENGINE_PORT, N_ ("Place"), LIST (TW_ENGINE_PORT_x_mm, TW_ENGINE_PORT_y_mm, TW_ENGINE_PORT_z_mm, TW_ENGINE_PORT_leaves) },
  { TW_KIND_HOSE, NULL, LIST (TW_HOSE_name, TW_HOSE_from, TW_HOSE_to) },
  { TW_KIND_HOSE, N_ ("Size"), LIST (TW_HOSE_bore_mm, TW_HOSE_wall_mm, TW_HOSE_made) },
  { TW_KIND_HOSE, N_ ("Bends and ends"), LIST (TW_HOSE_bend_radius_mm, TW_HOSE_least_radius_mm, TW_HOSE_push_on_mm) },
  { TW_KIND_HEADER_TANK, NULL, LIST (TW_HEADER_TANK_name, TW_HEADER_TANK_use, TW_HEADER_TANK_form) },
  { TW_KIND_HEADER_TANK, N_ ("Size"), LIST (TW_HEADER_TANK_width_mm, TW_HEADER_TANK_height_mm, TW_HEADER_TANK_depth_mm, TW_HEADER_TANK_diameter_mm, TW_HEADER_TANK_length_mm, TW_HEADER_TANK_wall_mm) },
  { TW_KIND_HEADER_TANK, N_ ("Place"), LIST (TW_HEADER_TANK_x_mm, TW_HEADER_TANK_y_mm, TW_HEADER_TANK_z_mm, TW_HEADER_TANK_heading_deg) },
  { TW_KIND_HEADER_TANK, N_ ("Water"), LIST (TW_HEADER_TANK_volume_l, TW_HEADER_TANK_cold_share, TW_HEADER_TANK_cap_kpa) },
  { TW_KIND_OPENING, NULL, LIST (TW_OPENING_name, TW_OPENING_pressure) },
  { TW_KIND_OPENING, N_ ("Size"), LIST (TW_OPENING_width_mm, TW_OPENING_height_mm) },
  { TW_KIND_OPENING, N_ ("Place"), LIST (TW_OPENING_plane, TW_OPENING_at_mm, TW_OPENING_across_mm, TW_OPENING_up_mm, TW_OPENING_way) },
  { TW_KIND_EXIT, NULL, LIST (TW_EXIT_name, TW_EXIT_pressure) },
  { TW_KIND_EXIT, N_ ("Size"), LIST (TW_EXIT_width_mm, TW_EXIT_height_mm) },
  { TW_KIND_EXIT, N_ ("Place"), LIST (TW_EXIT_plane, TW_EXIT_at_mm, TW_EXIT_across_mm, TW_EXIT_up_mm, TW_EXIT_way) },
};
/* clang-format on */

const TwPartGroup *
tw_part_group (TwKind kind, guint nth)
{
  for (guint i = 0; i < G_N_ELEMENTS (groups); i++)
    if (groups[i].kind == kind && nth-- == 0)
      return &groups[i];
  return NULL;
}
