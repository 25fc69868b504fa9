/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sheets/sheet-private.h"

#include <math.h>

/* Clearances listed: the closest ones. */
#define CLEARANCES_LISTED 6

static TwTable *
new_table (const TwSheetSet *self, const char *title, const char *const *marked, guint n)
{
  const char *headings[12];

  for (guint i = 0; i < n; i++)
    headings[i] = tw_sheet_words (self, marked[i]);
  return tw_table_new (tw_sheet_words (self, title), headings, n);
}

static char *
choice (const TwSheetSet *self, const TwChoice *choices, int value)
{
  return g_strdup (value >= 0 ? tw_sheet_words (self, choices[value].label) : "–");
}

/* Standard and size as a port's maker says them: `ISO 6149 M12x1.5`, `stub 32`. */
static char *
port_size (const TwPort *port)
{
  g_autofree char *standard = g_strdup (port->standard != NULL ? port->standard : "");

  if (g_str_has_prefix (standard, "iso-"))
    return g_strdup_printf ("ISO %s %s", standard + 4, port->size != NULL ? port->size : "");
  return g_strdup_printf ("%s %s", standard, port->size != NULL ? port->size : "");
}

TwTable *
tw_sheet_port_places (const TwSheetSet *self)
{
  static const char *const headings[] = { "", N_ ("Port"), N_ ("Use"), N_ ("Size"), "x", "y", "z" };
  TwTable *table = new_table (self, N_ ("Ports from the job's zero, outside of wall"), headings, 7);
  const TwPlacedPort *ports;
  guint n;

  ports = tw_placement_ports (self->placement, &n);
  for (guint i = 0; i < n; i++) {
    const TwPort *port = (const TwPort *)tw_drawing_find (self->drawing, ports[i].id);
    char *cells[] = { tw_view_port_letter (self->drawing, ports[i].id),
                      g_strdup (tw_sheet_name (self, ports[i].id)),
                      choice (self, tw_choices_port_use, port->use),
                      port_size (port),
                      tw_sheet_length (self, ports[i].at.x),
                      tw_sheet_length (self, ports[i].at.y),
                      tw_sheet_length (self, ports[i].at.z) };

    tw_table_add (table, cells);
  }
  return table;
}

/* `4 × 90°` for equal ones, else each in the order of the water. */
static char *
bends_text (const TwRoute *route)
{
  g_autoptr (GString) text = g_string_new (NULL);
  int first = -1;
  gboolean equal = TRUE;

  for (guint i = 0; i < route->n_pieces; i++)
    if (route->pieces[i].kind == TW_ROUTE_BEND) {
      int degrees = (int)lround (route->pieces[i].angle_rad * 180 / G_PI);

      g_string_append_printf (text, "%s%d°", text->len > 0 ? ", " : "", degrees);
      equal &= first < 0 || degrees == first;
      first = first < 0 ? degrees : first;
    }
  if (text->len == 0)
    return g_strdup ("–");
  return equal && route->n_bends > 1 ? g_strdup_printf ("%u × %d°", route->n_bends, first)
                                     : g_strdup (text->str);
}

TwTable *
tw_sheet_hoses (const TwSheetSet *self)
{
  static const char *const headings[]
      = { N_ ("Run"), N_ ("From"), N_ ("To"), N_ ("Bore"), N_ ("Length"), N_ ("Cut"), N_ ("Bends") };
  TwTable *table = new_table (self, N_ ("Hose runs: length wall to wall, cut length"), headings, 7);
  const TwRoutes *routes = tw_answer_routes (self->source->answer);

  for (guint i = 0; i < tw_routes_count (routes); i++) {
    const TwRoute *route = tw_routes_get (routes, i);
    const TwHose *hose = (const TwHose *)tw_drawing_find (self->drawing, route->hose);
    char *cells[] = { g_strdup (tw_sheet_name (self, route->hose)),
                      g_strdup (tw_sheet_name (self, hose->from)),
                      g_strdup (tw_sheet_name (self, hose->to)),
                      tw_sheet_length (self, hose->bore_mm),
                      tw_sheet_length (self, route->centreline_mm),
                      tw_sheet_length (self, route->cut_mm),
                      bends_text (route) };

    tw_table_add (table, cells);
  }
  return table;
}

static int
by_over (gconstpointer a, gconstpointer b)
{
  const TwClearancePair *x = *(const TwClearancePair *const *)a, *y = *(const TwClearancePair *const *)b;

  return x->over_mm < y->over_mm ? -1 : x->over_mm > y->over_mm;
}

TwTable *
tw_sheet_clearances (const TwSheetSet *self)
{
  static const char *const headings[] = { N_ ("Part"), N_ ("To"), N_ ("Distance"), N_ ("Wanted") };
  TwTable *table = new_table (self, N_ ("Closest places"), headings, 4);
  g_autoptr (GPtrArray) sorted = g_ptr_array_new ();
  const TwClearancePair *pairs;
  guint n;

  pairs = tw_clearance_pairs (tw_answer_clearance (self->source->answer), &n);
  for (guint i = 0; i < n; i++)
    g_ptr_array_add (sorted, (gpointer)&pairs[i]);
  g_ptr_array_sort (sorted, by_over);
  for (guint i = 0; i < MIN (n, CLEARANCES_LISTED); i++) {
    const TwClearancePair *pair = g_ptr_array_index (sorted, i);
    char *cells[]
        = { g_strdup (tw_sheet_name (self, pair->part)), g_strdup (tw_sheet_name (self, pair->other)),
            pair->is_outside ? g_strdup (tw_sheet_words (self, N_ ("outside")))
            : pair->crosses  ? g_strdup (tw_sheet_words (self, N_ ("crosses")))
                             : tw_sheet_length (self, pair->distance_mm),
            tw_sheet_length (self, pair->required_mm) };

    tw_table_add (table, cells);
  }
  return table;
}

static void
add_size (TwTable *table, const char *label, char *text)
{
  char *cells[] = { g_strdup (label), text };

  tw_table_add (table, cells);
}

/* The middle of a core's face in the job frame: the datum of its own sheet. */
static void
add_place (const TwSheetSet *self, TwTable *table, TwId core)
{
  TwVec at = tw_placement_core (self->placement, core)->frame.origin;
  g_autofree char *x = tw_sheet_length (self, at.x), *y = tw_sheet_length (self, at.y),
                  *z = tw_sheet_length (self, at.z);
  g_autofree char *label = g_strdup_printf ("%s: %s", tw_sheet_name (self, core),
                                            tw_sheet_words (self, N_ ("middle of the face x; y; z")));

  add_size (table, label, g_strdup_printf ("%s; %s; %s", x, y, z));
}

/* Core, tanks, shrouds and fans together; ports stand out of it. */
static void
add_overall (const TwSheetSet *self, TwTable *table)
{
  TwVec from, to;
  g_autofree char *x = NULL, *y = NULL, *z = NULL;

  if (!tw_sheet_bounds (self->placement, FALSE, &from, &to))
    return;
  x = tw_sheet_length (self, to.x - from.x);
  y = tw_sheet_length (self, to.y - from.y);
  z = tw_sheet_length (self, to.z - from.z);
  add_size (table, tw_sheet_words (self, N_ ("Overall without ports x × y × z")),
            g_strdup_printf ("%s × %s × %s", x, y, z));
}

TwTable *
tw_sheet_sizes (const TwSheetSet *self)
{
  static const char *const headings[] = { N_ ("Figure"), "" };
  TwTable *table = new_table (self, N_ ("The whole"), headings, 2);
  const TwPasses *passes = tw_answer_passes (self->source->answer);
  const TwRoutes *routes = tw_answer_routes (self->source->answer);
  const TwFaceShade *faces;
  double tanks_l = 0, hoses_l = 0;
  guint n;

  faces = tw_frontal_faces (tw_answer_frontal (self->source->answer), &n);
  for (guint i = 0; i < n; i++) {
    g_autofree char *label = g_strdup_printf ("%s: %s", tw_sheet_name (self, faces[i].core),
                                              tw_sheet_words (self, N_ ("face; seen along z")));
    g_autofree char *face = tw_sheet_figure (self, TW_QUANTITY_AREA, faces[i].face_mm2);
    g_autofree char *projected = tw_sheet_figure (self, TW_QUANTITY_AREA, faces[i].projected_mm2);

    add_size (table, label, g_strdup_printf ("%s; %s", face, projected));
    add_place (self, table, faces[i].core);
  }
  add_overall (self, table);
  for (guint i = 0; i < tw_passes_n_chambers (passes); i++)
    tanks_l += tw_passes_chamber (passes, i)->volume_l;
  for (guint i = 0; i < tw_routes_count (routes); i++)
    hoses_l += tw_routes_get (routes, i)->volume_l;
  add_size (table, tw_sheet_words (self, N_ ("Water in the tanks")),
            tw_sheet_figure (self, TW_QUANTITY_VOLUME, tanks_l));
  add_size (table, tw_sheet_words (self, N_ ("Water in the hoses")),
            tw_sheet_figure (self, TW_QUANTITY_VOLUME, hoses_l));
  add_size (table, tw_sheet_words (self, N_ ("Mass, dry and filled")),
            g_strdup (tw_sheet_words (self, N_ ("not yet computed"))));
  return table;
}

TwTable *
tw_sheet_ports (const TwSheetSet *self, const TwPlacedCore *core)
{
  static const char *const headings[]
      = { "",          N_ ("Port"), N_ ("Use"),   N_ ("Size"),      N_ ("Bore"),
          N_ ("Boss"), N_ ("Wall"), N_ ("Along"), N_ ("Off plate"), N_ ("Along air") };
  TwTable *table = new_table (self, N_ ("Ports; along the header from the middle of the face"), headings, 10);
  const TwPlacedPort *ports;
  guint n;

  ports = tw_placement_ports (self->placement, &n);
  for (guint i = 0; i < n; i++) {
    const TwPort *port = (const TwPort *)tw_drawing_find (self->drawing, ports[i].id);
    const TwPlacedTank *tank = tw_placement_tank (self->placement, ports[i].tank);
    TwVec at = ports[i].at_core;

    if (tw_id_equal (ports[i].core, core->id)) {
      char *cells[] = { tw_view_port_letter (self->drawing, ports[i].id),
                        g_strdup (tw_sheet_name (self, ports[i].id)),
                        choice (self, tw_choices_port_use, port->use),
                        port_size (port),
                        tw_sheet_length (self, ports[i].bore_mm),
                        tw_sheet_length (self, ports[i].boss_mm),
                        choice (self, tw_choices_wall, ports[i].wall),
                        tw_sheet_length (self, tw_vec_dot (at, tank->side.along)),
                        tw_sheet_length (self, tw_vec_dot (at, tank->side.out) - tank->side.off_mm),
                        tw_sheet_length (self, at.z) };

      tw_table_add (table, cells);
    }
  }
  return table;
}

/* `16 | 17`: the tubes between which a baffle sits, `on 16` when it sits on one. */
static char *
gap_text (const TwSheetSet *self, const TwPlacedCore *core, const TwBaffle *baffle)
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
  return g_strdup_printf ("%u | %u", before, before + 1);
}

TwTable *
tw_sheet_baffles (const TwSheetSet *self, const TwPlacedCore *core)
{
  static const char *const headings[] = { N_ ("Baffle"),         N_ ("Tank"),      N_ ("Between tubes"),
                                          N_ ("From plate end"), N_ ("Thickness"), N_ ("Seat") };
  TwTable *table
      = new_table (self,
                   core->is_upright ? N_ ("Baffles; tubes counted from the left, plate from its left end")
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
                        gap_text (self, core, baffle),
                        baffle->runs == TW_RUNS_ALONG
                            ? g_strdup ("–")
                            : tw_sheet_length (self, baffle->place_mm - core->header_start_mm),
                        tw_sheet_length (self, baffle->thickness_mm),
                        choice (self, tw_choices_seat, baffle->seat) };

      tw_table_add (table, cells);
    }
  }
  return table;
}

TwTable *
tw_sheet_tanks (const TwSheetSet *self, const TwPlacedCore *core)
{
  static const char *const headings[] = { N_ ("Tank"), N_ ("Long"), N_ ("Wide"),  N_ ("Deep"),
                                          N_ ("Wall"), N_ ("Bend"), N_ ("Alloy"), N_ ("Weld filler") };
  TwTable *table = new_table (self, N_ ("Tanks, outside sizes"), headings, 8);
  const TwPlacedTank *tanks;
  guint n;

  tanks = tw_placement_tanks (self->placement, &n);
  for (guint i = 0; i < n; i++) {
    const TwTank *tank = (const TwTank *)tw_drawing_find (self->drawing, tanks[i].id);

    if (tw_id_equal (tanks[i].core, core->id)) {
      g_autofree char *start = tw_sheet_length (self, tanks[i].depth_start_mm);
      g_autofree char *end = tw_sheet_length (self, tanks[i].depth_end_mm);
      g_autofree char *radius = tw_sheet_length (self, tank->bend_radius_mm);
      char *cells[] = { g_strdup (tw_sheet_name (self, tanks[i].id)),
                        tw_sheet_length (self, tanks[i].end_mm - tanks[i].start_mm),
                        tw_sheet_length (self, tanks[i].w_to_mm - tanks[i].w_from_mm),
                        g_str_equal (start, end) ? g_strdup (start) : g_strdup_printf ("%s–%s", start, end),
                        tw_sheet_length (self, tanks[i].wall_mm),
                        g_strdup_printf ("R %s", radius),
                        g_strdup (tank->alloy != NULL ? tank->alloy : "–"),
                        g_strdup (tw_sheet_words (self, N_ ("not yet computed"))) };

      tw_table_add (table, cells);
    }
  }
  return table;
}

TwTable *
tw_sheet_core (const TwSheetSet *self, const TwPlacedCore *core)
{
  static const char *const headings[] = { N_ ("Core"), "" };
  TwTable *table = new_table (self, N_ ("Core"), headings, 2);
  const TwCore *drawn = (const TwCore *)tw_drawing_find (self->drawing, core->id);
  g_autofree char *width = tw_sheet_length (self, core->face_width_mm);
  g_autofree char *height = tw_sheet_length (self, core->face_height_mm);
  g_autofree char *thickness = tw_sheet_length (self, core->thickness_mm);
  g_autofree char *tube_width = tw_sheet_length (self, drawn->tube_width_mm);
  g_autofree char *tube_height = tw_sheet_length (self, drawn->tube_height_mm);
  g_autofree char *pitch = tw_sheet_length (self, drawn->tube_pitch_mm);
  g_autofree char *long_mm = tw_sheet_length (self, core->header_end_mm - core->header_start_mm);
  g_autofree char *wide_mm = tw_sheet_length (self, core->header_w_to_mm - core->header_w_from_mm);
  g_autofree char *thick_mm = tw_sheet_length (self, core->header_thickness_mm);

  add_size (table, tw_sheet_words (self, N_ ("Face, without header and side plates; thickness")),
            g_strdup_printf ("%s × %s; %s", width, height, thickness));
  add_size (table, tw_sheet_words (self, N_ ("Tubes a row × rows; section; pitch")),
            g_strdup_printf ("%d × %d; %s × %s; %s", drawn->tube_count, drawn->rows, tube_height, tube_width,
                             pitch));
  add_size (table, tw_sheet_words (self, N_ ("Header plates")),
            g_strdup_printf ("%s × %s × %s", long_mm, wide_mm, thick_mm));
  return table;
}

static char *
ranges_text (const TwPass *pass)
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
  TwTable *table = new_table (self, N_ ("Passes, in the order of the water"), headings, 4);
  const TwPasses *passes = tw_answer_passes (self->source->answer);

  for (guint i = 0; i < tw_passes_count (passes); i++) {
    const TwPass *pass = tw_passes_get (passes, i);

    if (tw_id_equal (pass->core, core->id)) {
      char *cells[] = { g_strdup_printf ("%u", pass->level), g_strdup_printf ("%u", pass->n_tubes),
                        ranges_text (pass), g_strdup (tw_sheet_words (self, ways[pass->flows])) };

      tw_table_add (table, cells);
    }
  }
  return table;
}
