/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "layout/passes-private.h"

#include <string.h>

#define NOWHERE G_MAXUINT

/* The chambers of one header side: they stand together. */
typedef struct {
  guint first, past;
} Plate;

/* One core at work. */
typedef struct {
  TwPasses *self;
  const TwCore *core;
  const TwTubeGrid *grid;
  guint rank; /* by id */
  Plate plate[TW_N_HEADERS];
  gboolean *plugged; /* by place and row */
} Bench;

static Plate
find_plate (const TwPasses *self, TwId core, TwHeader header)
{
  Plate plate = { 0, 0 };

  for (guint i = 0; i < self->chambers->len; i++) {
    const TwChamber *chamber = &g_array_index (self->chambers, TwChamber, i);

    if (!tw_id_equal (chamber->core, core) || chamber->header != header)
      continue;
    plate.first = plate.past == 0 ? i : plate.first;
    plate.past = i + 1;
  }
  return plate;
}

static guint
chamber_at (const TwPasses *self, Plate plate, double across_mm, double along_mm)
{
  TwPoint middle = { across_mm, along_mm };

  for (guint i = plate.first; i < plate.past; i++)
    if (tw_box_contains (g_array_index (self->open, TwBox, i), middle))
      return i;
  return NOWHERE;
}

/* Marks the plugged tubes of the core and counts them, each once. */
static guint
mark_plugged (const Bench *bench)
{
  const TwTubeGrid *grid = bench->grid;
  guint n = 0;

  for (guint i = 0; i < bench->core->plugged->len; i++) {
    const TwPlug *plug = TW_ELEMENT (bench->core->plugged, TwPlug, i);
    guint first = plug->row < 1 ? 1 : (guint)plug->row;
    guint last = plug->row < 1 ? grid->n_rows : MIN (first, grid->n_rows);

    if (plug->tube < 1 || (guint)plug->tube > grid->n_tubes)
      continue;
    for (guint row = first; row <= last; row++) {
      gboolean *mark = &bench->plugged[((guint)plug->tube - 1) * grid->n_rows + row - 1];

      n += *mark ? 0 : 1;
      *mark = TRUE;
    }
  }
  return n;
}

/* Counts @tube in the chambers of its mouths, once for all its rows. */
static void
count_in_chambers (TwPasses *self, const guint chamber[TW_N_HEADERS], guint tube, guint *last_counted)
{
  for (guint header = 0; header < TW_N_HEADERS; header++) {
    if (chamber[header] == NOWHERE || last_counted[chamber[header]] == tube)
      continue;
    last_counted[chamber[header]] = tube;
    g_array_index (self->chambers, TwChamber, chamber[header]).n_tubes++;
  }
}

static void
collect_core (const Bench *bench, GArray *tubes)
{
  const TwTubeGrid *grid = bench->grid;
  g_autofree guint *last_counted = g_new0 (guint, bench->self->chambers->len + 1);

  for (guint tube = 1; tube <= grid->n_tubes; tube++)
    for (guint row = 1; row <= grid->n_rows; row++) {
      double along = tw_tube_along_mm (grid, tube), across = tw_tube_across_mm (grid, row);
      TwGroupTube one = { .core = bench->rank, .tube = tube, .row = row };

      if (bench->plugged[(tube - 1) * grid->n_rows + row - 1])
        continue;
      for (guint header = 0; header < TW_N_HEADERS; header++)
        one.chamber[header] = chamber_at (bench->self, bench->plate[header], across, along);
      count_in_chambers (bench->self, one.chamber, tube, last_counted);
      if (one.chamber[0] == NOWHERE || one.chamber[1] == NOWHERE)
        one.chamber[0] = one.chamber[1] = NOWHERE;
      g_array_append_val (tubes, one);
    }
}

static int
by_chambers (gconstpointer a, gconstpointer b)
{
  const TwGroupTube *x = a, *y = b;
  guint keys[][2] = { { x->core, y->core },
                      { x->chamber[0], y->chamber[0] },
                      { x->chamber[1], y->chamber[1] },
                      { x->tube, y->tube },
                      { x->row, y->row } };

  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    if (keys[i][0] != keys[i][1])
      return keys[i][0] < keys[i][1] ? -1 : 1;
  return 0;
}

static int
by_core (gconstpointer a, gconstpointer b)
{
  const TwTubeGrid *const *x = a, *const *y = b;

  return strcmp ((*x)->core.text, (*y)->core.text);
}

static GPtrArray *
sort_grids (const TwTubes *grids)
{
  GPtrArray *sorted = g_ptr_array_new ();

  for (guint i = 0; i < tw_tubes_n_grids (grids); i++)
    if (tw_tubes_grid (grids, i)->n_tubes > 0)
      g_ptr_array_add (sorted, (gpointer)tw_tubes_grid (grids, i));
  g_ptr_array_sort (sorted, by_core);
  return sorted;
}

/* A bundle for each run of tubes that join the same chambers. */
static GArray *
bundle (TwPasses *self, const GPtrArray *grids, const GArray *tubes)
{
  GArray *bundles = g_array_new (FALSE, TRUE, sizeof (TwBundle));
  guint next;

  for (guint i = 0; i < tubes->len; i = next) {
    const TwGroupTube *first = &g_array_index (tubes, TwGroupTube, i);
    TwBundle new = { .grid = g_ptr_array_index (grids, first->core), .tubes = first };
    TwTubeGroup *group = &new.group;

    for (next = i; next < tubes->len; next++) {
      const TwGroupTube *tube = &g_array_index (tubes, TwGroupTube, next);

      if (tube->core != first->core || memcmp (tube->chamber, first->chamber, sizeof first->chamber) != 0)
        break;
    }
    new.n_bores = next - i;
    group->core = new.grid->core;
    group->chamber[0] = first->chamber[0];
    group->chamber[1] = first->chamber[1];
    group->n_bores = new.n_bores;
    group->area_mm2 = new.n_bores *new.grid->bore_area_mm2;
    group->ranges = tw_tube_groups_ranges (self, new.tubes, new.n_bores, &group->n_ranges, &group->n_tubes);
    g_array_append_val (bundles, new);
  }
  return bundles;
}

GArray *
tw_tube_groups_collect (TwPasses *self, const TwPlacement *placement, const TwTubes *grids, GArray **tubes)
{
  g_autoptr (GPtrArray) sorted = sort_grids (grids);

  *tubes = g_array_new (FALSE, FALSE, sizeof (TwGroupTube));
  for (guint rank = 0; rank < sorted->len; rank++) {
    const TwTubeGrid *grid = g_ptr_array_index (sorted, rank);
    g_autofree gboolean *plugged = g_new0 (gboolean, (gsize)grid->n_tubes * grid->n_rows);
    Bench bench = {
      .self = self,
      .core = (const TwCore *)tw_drawing_find (tw_placement_drawing (placement), grid->core),
      .grid = grid,
      .rank = rank,
      .plate
      = { find_plate (self, grid->core, TW_HEADER_FIRST), find_plate (self, grid->core, TW_HEADER_SECOND) },
      .plugged = plugged,
    };
    TwCoreTally tally
        = { grid->core, mark_plugged (&bench), bench.plate[0].past > 0 && bench.plate[1].past > 0 };

    g_array_append_val (self->tallies, tally);
    collect_core (&bench, *tubes);
  }
  g_array_sort (*tubes, by_chambers);
  return bundle (self, sorted, *tubes);
}

/* The row spans of the place that begins at tubes[i], as ranges of that one place; returns where the next
 * begins. */
static guint
spans_of_place (const TwGroupTube *tubes, guint n, guint i, GArray *spans)
{
  guint place = tubes[i].tube;

  g_array_set_size (spans, 0);
  for (; i < n && tubes[i].tube == place; i++) {
    TwTubeRange *last = spans->len > 0 ? &g_array_index (spans, TwTubeRange, spans->len - 1) : NULL;
    TwTubeRange new = { place, place, tubes[i].row, tubes[i].row };

    if (last != NULL && last->last_row + 1 == tubes[i].row)
      last->last_row++;
    else
      g_array_append_val (spans, new);
  }
  return i;
}

/* Whether @spans go on what the last ones of @ranges began at the place before. */
static gboolean
goes_on (const GArray *ranges, const GArray *spans)
{
  if (ranges->len < spans->len)
    return FALSE;
  for (guint i = 0; i < spans->len; i++) {
    const TwTubeRange *before = &g_array_index (ranges, TwTubeRange, ranges->len - spans->len + i);
    const TwTubeRange *span = &g_array_index (spans, TwTubeRange, i);

    if (before->last + 1 != span->first || before->first_row != span->first_row
        || before->last_row != span->last_row)
      return FALSE;
  }
  return ranges->len == spans->len
         || g_array_index (ranges, TwTubeRange, ranges->len - spans->len - 1).last + 1
                != g_array_index (spans, TwTubeRange, 0).first;
}

const TwTubeRange *
tw_tube_groups_ranges (TwPasses *self, const TwGroupTube *tubes, guint n, guint *n_ranges, guint *n_tubes)
{
  GArray *ranges = g_array_new (FALSE, FALSE, sizeof (TwTubeRange));
  g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (TwTubeRange));
  gpointer data;

  *n_tubes = 0;
  for (guint i = 0; i < n;) {
    i = spans_of_place (tubes, n, i, spans);
    *n_tubes += 1;
    if (!goes_on (ranges, spans)) {
      g_array_append_vals (ranges, spans->data, spans->len);
      continue;
    }
    for (guint k = 0; k < spans->len; k++)
      g_array_index (ranges, TwTubeRange, ranges->len - spans->len + k).last++;
  }
  *n_ranges = ranges->len;
  data = g_array_free (ranges, FALSE);
  g_ptr_array_add (self->ranges, data);
  return data;
}
