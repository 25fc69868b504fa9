/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Passes, heights and hose runs of random jobs: mirrored jobs have mirrored passes, the order of parts does
 * not matter, swapped inlets and outlets turn the water round, what flows into a chamber flows out of it,
 * chambers lie within their tanks, runs hold together.
 */
#include "layout/drawn.h"
#include "layout/heights.h"
#include "layout/routes.h"

#include <math.h>
#include <string.h>

#define N_JOBS 50
#define N_CORES 300

typedef void (*Look) (const TwJob *job, const TwCatalogue *catalogue);

/* A core with up to six baffles, one or two inlets and outlets, now and then rows, plugs, a split side. */
static TwJob *
random_core (guint32 seed)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  int n = g_rand_int_range (rand, 4, 60), rows = g_rand_int_range (rand, 1, 4);
  g_autoptr (GString) line = g_string_new (g_rand_boolean (rand) ? "L" : "U");

  g_string_append_printf (line, "%d r%d", n, rows);
  if (g_rand_int_range (rand, 0, 4) == 0)
    g_string_append_printf (line, " s%d:%d", g_rand_int_range (rand, 1, 3), g_rand_int_range (rand, 1, n));
  for (int i = g_rand_int_range (rand, 0, 7); i > 0; i--)
    g_string_append_printf (line, " %c%d:%d", g_rand_int_range (rand, 0, 12) == 0 ? 'm' : 'b',
                            g_rand_int_range (rand, 1, 3), g_rand_int_range (rand, 1, n));
  if (rows > 1 && g_rand_boolean (rand)) /* between rows 1 and 2 */
    g_string_append_printf (line, " a%d:%d", g_rand_int_range (rand, 1, 3), rows == 2 ? 0 : -21);
  for (int i = g_rand_int_range (rand, 2, 5); i > 0; i--)
    g_string_append_printf (line, " %c%d:%d%c", i % 2 == 0 ? 'i' : 'o', g_rand_int_range (rand, 1, 3),
                            g_rand_int_range (rand, 1, n + 1), g_rand_boolean (rand) ? 'f' : 'b');
  for (int i = g_rand_int_range (rand, 0, 3); i > 0; i--)
    g_string_append_printf (line, " p%d", g_rand_int_range (rand, 1, n + 1));
  g_test_message ("%s", line->str);
  return draw (line->str);
}

static void
for_random_jobs (gconstpointer data)
{
  Look look = *(const Look *)data;
  g_autoptr (GError) error = NULL;
  g_autoptr (TwCatalogue) catalogue = tw_catalogue_load (&error);

  g_assert_no_error (error);
  for (guint32 seed = 1; seed <= N_JOBS + N_CORES; seed++) {
    g_autoptr (TwJob) job = seed <= N_JOBS ? tw_random_job (seed) : random_core (seed);

    g_test_message ("seed %u", seed);
    look (job, catalogue);
  }
}

static const TwTubeGrid *
grid_of (const Found *found, TwId core)
{
  for (guint i = 0; i < tw_tubes_n_grids (found->tubes); i++)
    if (tw_id_equal (tw_tubes_grid (found->tubes, i)->core, core))
      return tw_tubes_grid (found->tubes, i);
  g_assert_not_reached ();
}

/* How passes are told: as they are, mirrored left to right, or with the water turned round. */
typedef enum { AS_THEY_ARE, MIRRORED, TURNED_ROUND } Telling;

static char
tell_way (TwFlows flows, Telling telling)
{
  static const char ways[][6] = { "?><v^", "?<>v^", "?<>^v" };

  return ways[telling][flows];
}

/* Every tube of a group, in order. */
static void
tell_tubes (GString *text, const TwTubeGroup *group, const TwTubeGrid *grid, gboolean from_the_end)
{
  g_autofree char *marks = g_strnfill ((gsize)grid->n_tubes * grid->n_rows, '.');

  for (guint i = 0; i < group->n_ranges; i++)
    for (guint tube = group->ranges[i].first; tube <= group->ranges[i].last; tube++)
      for (guint row = group->ranges[i].first_row; row <= group->ranges[i].last_row; row++)
        marks[((from_the_end ? grid->n_tubes + 1 - tube : tube) - 1) * grid->n_rows + row - 1] = '|';
  g_string_append (text, marks);
}

static int
by_text (gconstpointer a, gconstpointer b)
{
  return strcmp (*(char *const *)a, *(char *const *)b);
}

/* All groups, a line each, sorted. */
static char *
tell (const Found *found, Telling telling)
{
  g_autoptr (GPtrArray) lines = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < tw_passes_n_groups (found->passes); i++) {
    const TwTubeGroup *group = tw_passes_group (found->passes, i);
    const TwTubeGrid *grid = grid_of (found, group->core);
    GString *line = g_string_new (NULL);
    char share[G_ASCII_DTOSTR_BUF_SIZE];

    g_string_append_printf (line, "%s %c why %d share %s level %u ", group->core.text,
                            tell_way (group->flows, telling), group->why,
                            g_ascii_formatd (share, sizeof share, "%.6f", group->share),
                            telling == TURNED_ROUND ? 0 : group->level);
    tell_tubes (line, group, grid, telling == MIRRORED && !grid->level);
    g_ptr_array_add (lines, g_string_free (line, FALSE));
  }
  g_ptr_array_sort (lines, by_text);
  g_ptr_array_add (lines, NULL);
  return g_strjoinv ("\n", (char **)lines->pdata);
}

/* A copy of each part, changed and put in its place. */
typedef void (*Alter) (const Found *found, TwPart *part);

static void
alter_all (TwJob *job, TwKind kind, const Found *found, Alter alter)
{
  for (guint i = 0; i < tw_job_count (job, kind); i++) {
    TwPart *copy = tw_part_copy (tw_job_get (job, kind, i));

    alter (found, copy);
    tw_job_replace (job, copy);
  }
}

static void
mirror_core (const Found *found, TwPart *part)
{
  TwCore *core = (TwCore *)part;
  const TwTubeGrid *grid;

  if (core->tubes != TW_TUBES_UPRIGHT || tw_placement_core (found->placement, part->id) == NULL)
    return;
  grid = grid_of (found, part->id);
  core->first_tube_mm = core->face_width_mm - core->first_tube_mm - (grid->n_tubes - 1.0) * grid->step_mm;
  for (guint i = 0; i < core->plugged->len; i++) {
    TwPlug *plug = (TwPlug *)tw_part_copy (g_ptr_array_index (core->plugged, i));

    plug->tube = (int)grid->n_tubes + 1 - plug->tube;
    tw_part_unref (g_ptr_array_index (core->plugged, i));
    g_ptr_array_index (core->plugged, i) = plug;
  }
}

static void
swap (double *a, double *b)
{
  double kept = *a;

  *a = *b;
  *b = kept;
}

static gboolean
is_upright (const Found *found, TwId core)
{
  return ((const TwCore *)tw_drawing_find (found->drawing, core))->tubes == TW_TUBES_UPRIGHT;
}

static void
mirror_tank (const Found *found, TwPart *part)
{
  const TwTank *filled = (const TwTank *)tw_drawing_find (found->drawing, part->id);
  TwTank *tank = (TwTank *)part;

  if (!is_upright (found, tank->core)) {
    tank->side = filled->side == TW_SIDE_LEFT    ? TW_SIDE_RIGHT
                 : filled->side == TW_SIDE_RIGHT ? TW_SIDE_LEFT
                                                 : filled->side;
    return;
  }
  swap (&tank->start_mm, &tank->end_mm);
  tank->start_mm = -tank->start_mm;
  tank->end_mm = -tank->end_mm;
  if (tank->back == TW_BACK_TAPERED) {
    tank->depth_mm = filled->depth_end_mm;
    tank->depth_end_mm = filled->depth_mm;
  }
}

static gboolean
tank_is_upright (const Found *found, TwId tank)
{
  return is_upright (found, ((const TwTank *)tw_drawing_find (found->drawing, tank))->core);
}

static void
mirror_baffle (const Found *found, TwPart *part)
{
  TwBaffle *baffle = (TwBaffle *)part;

  if (baffle->runs != TW_RUNS_ALONG && tank_is_upright (found, baffle->tank))
    baffle->place_mm = -baffle->place_mm;
}

static void
mirror_port (const Found *found, TwPart *part)
{
  TwPort *port = (TwPort *)part;

  if (!tank_is_upright (found, port->tank))
    return;
  port->along_mm = -port->along_mm;
  port->wall = port->wall == TW_WALL_START ? TW_WALL_END
               : port->wall == TW_WALL_END ? TW_WALL_START
                                           : port->wall;
}

static void
look_mirrored (const TwJob *job, const TwCatalogue *catalogue)
{
  g_autoptr (TwJob) mirrored = tw_make_copy (job);
  g_auto (Found) found = find_by (job, catalogue);
  g_auto (Found) other = { NULL };
  g_autofree char *there = NULL, *here = NULL;

  alter_all (mirrored, TW_KIND_CORE, &found, mirror_core);
  alter_all (mirrored, TW_KIND_TANK, &found, mirror_tank);
  alter_all (mirrored, TW_KIND_BAFFLE, &found, mirror_baffle);
  alter_all (mirrored, TW_KIND_PORT, &found, mirror_port);
  other = find_by (mirrored, catalogue);
  if ((tw_passes_flags (found.passes) & TW_PASSES_PORT_ON_BAFFLE) != 0)
    return; /* the middle of a port over the middle of a baffle is as near to one chamber as to the other */
  here = tell (&found, MIRRORED);
  there = tell (&other, AS_THEY_ARE);
  g_assert_cmpstr (here, ==, there);
  g_assert_cmphex (tw_passes_flags (found.passes), ==, tw_passes_flags (other.passes));
  g_assert_cmpuint (tw_tubes_n_covers (found.tubes), ==, tw_tubes_n_covers (other.tubes));
}

static void
look_reordered (const TwJob *job, const TwCatalogue *catalogue)
{
  g_autoptr (TwJob) turned = tw_job_new ();
  g_auto (Found) found = find_by (job, catalogue);
  g_auto (Found) other = { NULL };

  tw_job_replace (turned, tw_part_ref (&tw_job_settings (job)->head));
  for (guint kind = TW_KIND_SETTINGS + 1; kind < TW_FIRST_ELEMENT; kind++)
    for (guint i = tw_job_count (job, kind); i-- > 0;)
      tw_job_insert (turned, tw_part_ref (tw_job_get (job, kind, i)), -1);
  other = find_by (turned, catalogue);
  g_assert_cmpuint (tw_passes_count (found.passes), ==, tw_passes_count (other.passes));
  g_assert_cmpuint (tw_passes_n_groups (found.passes), ==, tw_passes_n_groups (other.passes));
  for (guint i = 0; i < tw_passes_count (found.passes); i++) {
    const TwPass *a = tw_passes_get (found.passes, i), *b = tw_passes_get (other.passes, i);

    g_assert_true (tw_id_equal (a->core, b->core));
    g_assert_cmpuint (a->level, ==, b->level);
    g_assert_cmpint (a->flows, ==, b->flows);
    g_assert_cmpuint (a->n_bores, ==, b->n_bores);
    g_assert_cmpmem (a->ranges, a->n_ranges * sizeof *a->ranges, b->ranges, b->n_ranges * sizeof *b->ranges);
    g_assert_cmpmem (&a->share, sizeof a->share, &b->share, sizeof b->share); /* to the last bit */
  }
  g_assert_cmphex (tw_passes_flags (found.passes), ==, tw_passes_flags (other.passes));
}

static void
turn_port (const Found *found, TwPart *part)
{
  TwPort *port = (TwPort *)part;

  port->use = port->use == TW_PORT_INLET    ? TW_PORT_OUTLET
              : port->use == TW_PORT_OUTLET ? TW_PORT_INLET
                                            : port->use;
}

static void
look_turned_round (const TwJob *job, const TwCatalogue *catalogue)
{
  g_autoptr (TwJob) turned = tw_make_copy (job);
  g_auto (Found) found = find_by (job, catalogue);
  g_auto (Found) other = { NULL };
  g_autofree char *there = NULL, *here = NULL;

  alter_all (turned, TW_KIND_PORT, &found, turn_port);
  other = find_by (turned, catalogue);
  here = tell (&found, TURNED_ROUND);
  for (char *level = here; (level = strstr (level, "level ")) != NULL; level++)
    g_assert_cmpint (level[6], ==, '0');
  there = tell (&other, TURNED_ROUND);
  for (char *c = there; *c != '\0'; c++) /* told turned round twice: back to what it is */
    if (c == there || c[-1] == '\n') {
      char *way = strchr (c, ' ') + 1;

      *way = *way == '<' ? '>' : *way == '>' ? '<' : *way == 'v' ? '^' : *way == '^' ? 'v' : *way;
    }
  {
    g_auto (GStrv) a = g_strsplit (here, "\n", -1), b = g_strsplit (there, "\n", -1);

    g_assert_cmpuint (g_strv_length (a), ==, g_strv_length (b));
    qsort (b, g_strv_length (b), sizeof *b, by_text);
    for (guint i = 0; a[i] != NULL; i++)
      g_assert_cmpstr (a[i], ==, b[i]);
  }
}

/* Whether @group's water flows into the chamber at its side @header. */
static gboolean
flows_into (const TwTubeGroup *group, TwHeader header)
{
  gboolean to_second = group->flows == TW_FLOWS_RIGHT || group->flows == TW_FLOWS_DOWN;

  return group->level > 0 && to_second == (header == TW_HEADER_SECOND);
}

static void
look_at_balance (const TwJob *job, const TwCatalogue *catalogue)
{
  g_auto (Found) found = find_by (job, catalogue);
  guint n = tw_passes_n_chambers (found.passes);
  g_autofree double *left = g_new0 (double, n + 1);
  double shares = 0.0;

  for (guint i = 0; i < tw_passes_n_groups (found.passes); i++) {
    const TwTubeGroup *group = tw_passes_group (found.passes, i);

    g_assert_true ((group->level > 0) == (group->why == TW_DEAD_NOT));
    for (guint header = 0; header < TW_N_HEADERS && group->level > 0; header++)
      left[group->chamber[header]] += flows_into (group, header) ? group->share : -group->share;
  }
  for (guint i = 0; i < tw_passes_n_ports (found.passes); i++) {
    const TwChamberPort *port = tw_passes_port (found.passes, i);

    if (port->has_chamber && (port->use == TW_PORT_INLET || port->use == TW_PORT_OUTLET || port->is_joined))
      left[port->chamber] = 0.0; /* a door: what is left goes or comes through it */
  }
  for (guint i = 0; i < n; i++)
    g_assert_true (isnan (left[i]) || fabs (left[i]) < 1e-6);
  for (guint i = 0; i < tw_passes_count (found.passes); i++) {
    const TwPass *pass = tw_passes_get (found.passes, i);

    shares = MAX (shares, pass->share);
    g_assert_cmpuint (pass->level, >=, i > 0 ? tw_passes_get (found.passes, i - 1)->level : 1);
  }
}

/* A chamber reaches as far as its tank, less than a wall each way: at most √3 walls in any direction. */
static void
look_at_heights (const TwJob *job, const TwCatalogue *catalogue)
{
  g_auto (Found) found = find_by (job, catalogue);
  TwAttitude attitude = { 0.2, -0.3 };
  TwVec up = tw_attitude_up (found.drawing, attitude);
  g_autoptr (TwHeights) heights = tw_heights_find (found.placement, found.passes, attitude);
  guint n;
  const TwPlacedSolid *solids = tw_placement_solids (found.placement, &n);

  for (guint i = 0; i < tw_passes_n_chambers (found.passes); i++) {
    const TwChamber *chamber = tw_passes_chamber (found.passes, i);
    const TwChamberHeight *height = tw_heights_chamber (heights, i);
    const TwPlacedTank *tank = tw_placement_tank (found.placement, chamber->tank);
    gboolean is_whole
        = fabs (chamber->to_mm - chamber->from_mm - (tank->end_mm - tank->start_mm) + 2.0 * tank->wall_mm)
              < 1e-9
          && fabs (chamber->across_to_mm - chamber->across_from_mm - (tank->w_to_mm - tank->w_from_mm)
                   + 2.0 * tank->wall_mm)
                 < 1e-9;

    for (guint k = 0; k < n; k++) {
      double over, under;

      if (solids[k].role != TW_SOLID_TANK || !tw_id_equal (solids[k].part, chamber->tank))
        continue;
      over = tw_convex_reach_mm (solids[k].convex, up) - height->highest_mm;
      under = height->lowest_mm - tw_convex_least_mm (solids[k].convex, up);
      g_assert_cmpfloat (over, >, -0.01);
      g_assert_cmpfloat (under, >, -0.01);
      if (is_whole && tank->depth_start_mm > tank->wall_mm && tank->depth_end_mm > tank->wall_mm
          && tank->back != TW_BACK_TAPERED) {
        g_assert_cmpfloat (over, <, sqrt (3.0) * tank->wall_mm + 0.01);
        g_assert_cmpfloat (under, <, sqrt (3.0) * tank->wall_mm + 0.01);
      }
    }
  }
}

/* Length of a run by small steps. */
static double
walked_mm (const TwRoute *route)
{
  double length = 0.0;

  for (guint i = 0; i < route->n_pieces; i++)
    for (guint k = 0; k < 200; k++)
      length += tw_vec_distance_mm (tw_route_piece_point (&route->pieces[i], k / 200.0),
                                    tw_route_piece_point (&route->pieces[i], (k + 1) / 200.0));
  return length;
}

static void
turn_hose (const Found *found, TwPart *part)
{
  TwHose *hose = (TwHose *)part;
  TwId from = hose->from;

  hose->from = hose->to;
  hose->to = from;
  for (guint i = 0; i < hose->vias->len / 2; i++) {
    gpointer *a = &g_ptr_array_index (hose->vias, i);
    gpointer *b = &g_ptr_array_index (hose->vias, hose->vias->len - 1 - i), kept = *a;

    *a = *b;
    *b = kept;
  }
}

static void
look_at_routes (const TwJob *job, const TwCatalogue *catalogue)
{
  g_autoptr (TwJob) turned = tw_make_copy (job);
  g_auto (Found) found = find_by (job, catalogue);
  g_auto (Found) other = { NULL };
  g_autoptr (TwRoutes) routes = tw_routes_find (found.placement);
  g_autoptr (TwRoutes) back = NULL;

  alter_all (turned, TW_KIND_HOSE, &found, turn_hose);
  other = find_by (turned, catalogue);
  back = tw_routes_find (other.placement);
  for (guint i = 0; i < tw_routes_count (routes); i++) {
    const TwRoute *a = tw_routes_get (routes, i), *b = tw_routes_get (back, i);
    guint ends = TW_ROUTE_OFF_AXIS_FROM | TW_ROUTE_OFF_AXIS_TO;

    g_assert_cmphex (a->flags & ~ends, ==, b->flags & ~ends);
    g_assert_cmpuint (a->n_bends, ==, b->n_bends);
    g_assert_cmpuint (a->n_turns, ==, b->n_turns);
    g_assert_true (isnan (a->centreline_mm) == isnan (b->centreline_mm));
    if (isnan (a->centreline_mm))
      continue;
    g_assert_cmpfloat_with_epsilon (a->centreline_mm, b->centreline_mm, 1e-6);
    if ((a->flags & TW_ROUTE_NO_FIT) == 0)
      g_assert_cmpfloat_with_epsilon (walked_mm (a), a->centreline_mm, 1e-4 * a->centreline_mm);
    for (guint k = 0; k < a->n_turns; k++)
      g_assert_cmpfloat_with_epsilon (a->turns[k].along_mm,
                                      a->centreline_mm - b->turns[a->n_turns - 1 - k].along_mm, 1e-3);
  }
}

int
main (int argc, char **argv)
{
  static const struct {
    const char *path;
    Look look;
  } looks[] = {
    { "/layout/water/mirrored", look_mirrored },         { "/layout/water/reordered", look_reordered },
    { "/layout/water/turned round", look_turned_round }, { "/layout/water/balance", look_at_balance },
    { "/layout/water/heights", look_at_heights },        { "/layout/water/routes", look_at_routes },
  };

  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (looks); i++)
    g_test_add_data_func (looks[i].path, &looks[i].look, for_random_jobs);
  return g_test_run ();
}
