/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Tables of the sheet of core and tanks. Places count from the header plates' lower or left end, their outer
 * face and their air-in edge, as the running sizes of the drawing do.
 */
#include "sheets/sheet-private.h"

#include <math.h>

/* Ends by how they lie on this core. */
static const char *
wall_words (const TwSheetSet *self, const TwPlacedCore *core, int wall)
{
  static const char *const ends[2][2]
      = { { N_ ("lower end"), N_ ("upper end") }, { N_ ("left end"), N_ ("right end") } };

  if (wall == TW_WALL_START || wall == TW_WALL_END)
    return tw_sheet_words (self, ends[core->is_upright ? 1 : 0][wall == TW_WALL_END ? 1 : 0]);
  return wall >= 0 ? tw_sheet_words (self, tw_choices_wall[wall].label) : "–";
}

TwTable *
tw_sheet_ports (const TwSheetSet *self, const TwPlacedCore *core)
{
  static const char *const headings[]
      = { "",          N_ ("Use"),   N_ ("Size"),      N_ ("Bore"),    N_ ("Boss"),
          N_ ("Wall"), N_ ("Along"), N_ ("Off plate"), N_ ("With air") };
  TwTable *table = tw_sheet_table (self,
                                   core->is_upright
                                       ? N_ ("Ports, from the plate's left end, outer face and air-in edge")
                                       : N_ ("Ports, from the plate's lower end, outer face and air-in edge"),
                                   headings, 9);
  const TwPlacedPort *ports;
  guint n;

  ports = tw_placement_ports (self->placement, &n);
  for (guint i = 0; i < n; i++) {
    const TwPort *port = (const TwPort *)tw_drawing_find (self->drawing, ports[i].id);
    const TwPlacedTank *tank = tw_placement_tank (self->placement, ports[i].tank);
    TwVec at = ports[i].at_core;

    if (tw_id_equal (ports[i].core, core->id)) {
      char *cells[] = { tw_view_port_letter (self->drawing, ports[i].id),
                        tw_sheet_choice (self, tw_choices_port_use, port->use),
                        tw_sheet_port_size (self, port),
                        tw_sheet_length (self, ports[i].bore_mm),
                        tw_sheet_length (self, ports[i].boss_mm),
                        g_strdup (wall_words (self, core, ports[i].wall)),
                        tw_sheet_length (self, tw_vec_dot (at, tank->side.along) - core->header_start_mm),
                        tw_sheet_length (self, tw_vec_dot (at, tank->side.out) - tank->side.off_mm),
                        tw_sheet_length (self, at.z - core->header_w_from_mm) };

      tw_table_add (table, cells);
    }
  }
  return table;
}

char *
tw_sheet_gap (const TwSheetSet *self, const TwPlacedCore *core, const TwBaffle *baffle)
{
  const TwCore *drawn = (const TwCore *)tw_drawing_find (self->drawing, core->id);
  TwTubeGrid grid = tw_tube_grid (drawn);
  guint before = 0;

  if (baffle->runs == TW_RUNS_ALONG)
    return g_strdup ("–");
  for (guint tube = 1; tube <= grid.n_tubes; tube++) {
    double off = (tw_tube_along_mm (&grid, tube) - baffle->place_mm) * (grid.step_mm < 0 ? -1 : 1);

    if (fabs (off) < grid.height_mm / 2)
      return g_strdup_printf (tw_sheet_words (self, N_ ("on %u")), tube);
    if (off < 0)
      before = tube;
  }
  if (before == 0)
    return g_strdup ("– | 1");
  if (before >= grid.n_tubes)
    return g_strdup_printf ("%u | –", grid.n_tubes);
  return g_strdup_printf ("%u | %u", before, before + 1);
}

TwTable *
tw_sheet_baffles (const TwSheetSet *self, const TwPlacedCore *core)
{
  static const char *const headings[] = { N_ ("Baffle"),         N_ ("Tank"),      N_ ("Between tubes"),
                                          N_ ("From plate end"), N_ ("Thickness"), N_ ("Seat") };
  TwTable *table = tw_sheet_table (self,
                                   core->is_upright
                                       ? N_ ("Baffles; tubes counted from the left, plate from its left end")
                                       : N_ ("Baffles; tubes counted from the top, plate from its lower end"),
                                   headings, 6);
  const TwPlacedBaffle *baffles;
  guint n;

  baffles = tw_placement_baffles (self->placement, &n);
  for (guint i = 0; i < n; i++) {
    const TwBaffle *baffle = (const TwBaffle *)tw_drawing_find (self->drawing, baffles[i].id);

    if (tw_id_equal (baffles[i].core, core->id)) {
      char *cells[] = { g_strdup (tw_sheet_name (self, baffles[i].id)),
                        g_strdup (tw_sheet_name (self, baffles[i].tank)),
                        tw_sheet_gap (self, core, baffle),
                        baffle->runs == TW_RUNS_ALONG
                            ? g_strdup ("–")
                            : tw_sheet_length (self, baffle->place_mm - core->header_start_mm),
                        tw_sheet_thin (self, baffle->thickness_mm),
                        tw_sheet_choice (self, tw_choices_seat, baffle->seat) };

      tw_table_add (table, cells);
    }
  }
  return table;
}

/* As it is written on a drawing: `5052-H32`. */
static char *
alloy_text (const char *alloy)
{
  return alloy != NULL ? g_ascii_strup (alloy, -1) : g_strdup ("–");
}

TwTable *
tw_sheet_tanks (const TwSheetSet *self, const TwPlacedCore *core)
{
  static const char *const headings[] = { N_ ("Tank"), N_ ("Long"),     N_ ("Wide"), N_ ("Deep"),
                                          N_ ("Wall"), N_ ("Inside R"), N_ ("Lip"),  N_ ("Alloy") };
  TwTable *table = tw_sheet_table (self, N_ ("Tanks, outside sizes"), headings, 8);
  const TwPlacedTank *tanks;
  guint n;

  tanks = tw_placement_tanks (self->placement, &n);
  for (guint i = 0; i < n; i++) {
    const TwTank *tank = (const TwTank *)tw_drawing_find (self->drawing, tanks[i].id);

    if (tw_id_equal (tanks[i].core, core->id)) {
      g_autofree char *start = tw_sheet_length (self, tanks[i].depth_start_mm);
      g_autofree char *end = tw_sheet_length (self, tanks[i].depth_end_mm);
      g_autofree char *radius = tw_sheet_thin (self, tank->bend_radius_mm);
      char *cells[] = { g_strdup (tw_sheet_name (self, tanks[i].id)),
                        tw_sheet_length (self, tanks[i].end_mm - tanks[i].start_mm),
                        tw_sheet_length (self, tanks[i].w_to_mm - tanks[i].w_from_mm),
                        g_str_equal (start, end) ? g_strdup (start) : g_strdup_printf ("%s–%s", start, end),
                        tw_sheet_thin (self, tanks[i].wall_mm),
                        g_strdup (radius),
                        tank->lip_mm > 0 ? tw_sheet_length (self, tank->lip_mm) : g_strdup ("–"),
                        alloy_text (tank->alloy) };

      tw_table_add (table, cells);
    }
  }
  return table;
}

TwTable *
tw_sheet_core (const TwSheetSet *self, const TwPlacedCore *core)
{
  TwTable *table = tw_table_new (tw_sheet_words (self, N_ ("Core")), NULL, 2);
  const TwCore *drawn = (const TwCore *)tw_drawing_find (self->drawing, core->id);
  g_autofree char *width = tw_sheet_length (self, core->face_width_mm);
  g_autofree char *height = tw_sheet_length (self, core->face_height_mm);
  g_autofree char *thickness = tw_sheet_length (self, core->thickness_mm);
  g_autofree char *tube_width = tw_sheet_thin (self, drawn->tube_width_mm);
  g_autofree char *tube_height = tw_sheet_thin (self, drawn->tube_height_mm);
  g_autofree char *pitch = tw_sheet_thin (self, drawn->tube_pitch_mm);
  g_autofree char *long_mm = tw_sheet_length (self, core->header_end_mm - core->header_start_mm);
  g_autofree char *wide_mm = tw_sheet_length (self, core->header_w_to_mm - core->header_w_from_mm);
  g_autofree char *thick_mm = tw_sheet_thin (self, core->header_thickness_mm);
  g_autofree char *lip_mm = tw_sheet_length (self, drawn->header_lip_mm);
  /* Translators: the upturned edge of a sheet, then its height */
  g_autofree char *rim = drawn->header_lip_mm > 0
                             ? g_strdup_printf (tw_sheet_words (self, N_ ("; rim %s")), lip_mm)
                             : g_strdup ("");

  tw_sheet_add_size (table, tw_sheet_words (self, N_ ("Face, without header and side plates; thickness")),
                     g_strdup_printf ("%s × %s; %s", width, height, thickness));
  tw_sheet_add_size (table, tw_sheet_words (self, N_ ("Tubes a row × rows; section; pitch")),
                     g_strdup_printf ("%d × %d; %s × %s; %s", drawn->tube_count, drawn->rows, tube_height,
                                      tube_width, pitch));
  tw_sheet_add_size (table, tw_sheet_words (self, N_ ("Header plates")),
                     g_strdup_printf ("%s × %s × %s%s", long_mm, wide_mm, thick_mm, rim));
  tw_sheet_add_size (table, tw_sheet_words (self, N_ ("Weld filler; mass")),
                     g_strdup (tw_sheet_words (self, N_ ("not yet computed"))));
  return table;
}

char *
tw_sheet_tubes (const TwPass *pass)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < pass->n_ranges; i++) {
    const TwTubeRange *range = &pass->ranges[i];

    g_string_append_printf (text, "%s%u", i > 0 ? ", " : "", range->first);
    if (range->last > range->first)
      g_string_append_printf (text, "–%u", range->last);
  }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

TwTable *
tw_sheet_passes (const TwSheetSet *self, const TwPlacedCore *core)
{
  static const char *const headings[]
      = { N_ ("Pass"), N_ ("Tubes"), N_ ("Numbers"), N_ ("Way of the water") };
  static const char *const ways[] = { "–", N_ ("to the right"), N_ ("to the left"), N_ ("down"), N_ ("up") };
  TwTable *table = tw_sheet_table (self, N_ ("Passes, in the order of the water"), headings, 4);
  const TwPasses *passes = tw_answer_passes (self->source->answer);

  for (guint i = 0; i < tw_passes_count (passes); i++) {
    const TwPass *pass = tw_passes_get (passes, i);

    if (tw_id_equal (pass->core, core->id)) {
      char *cells[] = { g_strdup_printf ("%u", pass->level), g_strdup_printf ("%u", pass->n_tubes),
                        tw_sheet_tubes (pass), g_strdup (tw_sheet_words (self, ways[pass->flows])) };

      tw_table_add (table, cells);
    }
  }
  return table;
}
