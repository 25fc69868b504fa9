/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "layout/tubes.h"

#include "layout/mouth-private.h"

#include <math.h>
#include <string.h>

/* Shares below this are rounding of figures that touch. */
#define LEAST_SHARE 1e-9
#define ROUNDING_MM 1e-9

/* Bands that one part can have of one kind: the four edges of a lip. */
#define MOST_BANDS 4

struct _TwTubes {
  GArray *grids;  /* of TwTubeGrid */
  GArray *covers; /* of TwCover */
  GArray *lands;  /* of TwLand */
};

/* A rectangle on the header plate that one part takes. */
typedef struct {
  TwCoverKind kind;
  TwId by;
  gboolean runs_along; /* its long edges face other rows, not other places along the header */
  TwBox box;           /* x across (w), y along the header */
} Band;

/* One header side of one core. */
typedef struct {
  const TwCore *core;
  const TwTubeGrid *grid;
  TwHeader header;
  TwTubes *out;
} Plate;

/* The tubes that may reach into from_mm..to_mm along the header; FALSE when there are none. */
static gboolean
tubes_within (const TwTubeGrid *grid, double from_mm, double to_mm, guint *first, guint *last)
{
  double half = grid->height_mm / 2.0, step = grid->step_mm;
  double a, b;

  if (step == 0.0) {
    *first = *last = 1;
    return grid->first_mm + half > from_mm && grid->first_mm - half < to_mm;
  }
  a = ((step > 0.0 ? from_mm - half : to_mm + half) - grid->first_mm) / step;
  b = ((step > 0.0 ? to_mm + half : from_mm - half) - grid->first_mm) / step;
  a = MAX (floor (a) + 1.0, 1.0);
  b = MIN (ceil (b) + 1.0, (double)grid->n_tubes);
  if (b < a)
    return FALSE;
  *first = (guint)a;
  *last = (guint)b;
  return TRUE;
}

/* Share of the mouth of one tube that lies in @box. */
static double
share_in (const TwTubeGrid *grid, guint tube, guint row, TwBox box)
{
  double x = tw_tube_across_mm (grid, row), y = tw_tube_along_mm (grid, tube);
  TwBox seen = { box.x0_mm - x, box.y0_mm - y, box.x1_mm - x, box.y1_mm - y };

  return tw_mouth_area_mm2 (grid->bore_height_mm, grid->bore_width_mm, seen) / grid->bore_area_mm2;
}

static void
cover_band (const Plate *plate, const Band *band)
{
  const TwTubeGrid *grid = plate->grid;
  guint first, last;

  if (!tubes_within (grid, band->box.y0_mm, band->box.y1_mm, &first, &last))
    return;
  for (guint tube = first; tube <= last; tube++)
    for (guint row = 1; row <= grid->n_rows; row++) {
      double share = share_in (grid, tube, row, band->box);
      TwCover cover = { grid->core, plate->header, tube, row, band->kind, band->by, MIN (share, 1.0) };

      if (share > LEAST_SHARE && !tw_tube_is_plugged (plate->core, tube, row))
        g_array_append_val (plate->out->covers, cover);
    }
}

/* Distance from a band's long edges to the outside of a tube, negative when it lies over it; infinite when
 * the tube does not stand beside it. */
static double
land_of (const TwTubeGrid *grid, guint tube, guint row, const Band *band)
{
  double x = tw_tube_across_mm (grid, row), y = tw_tube_along_mm (grid, tube);
  double beside_x
      = MAX (band->box.x0_mm - (x + grid->width_mm / 2.0), x - grid->width_mm / 2.0 - band->box.x1_mm);
  double beside_y
      = MAX (band->box.y0_mm - (y + grid->height_mm / 2.0), y - grid->height_mm / 2.0 - band->box.y1_mm);

  if (band->runs_along)
    return beside_y < 0.0 ? beside_x : (double)INFINITY;
  return beside_x < 0.0 ? beside_y : (double)INFINITY;
}

/* Of two that are equally near the one that is counted first. */
static gboolean
is_nearer (double land_mm, guint tube, const TwLand *than)
{
  return land_mm < than->land_mm - ROUNDING_MM
         || (land_mm <= than->land_mm + ROUNDING_MM && tube < than->tube);
}

/* Takes tubes from @tube by @step until one is not plugged into account. */
static void
look_along (const Plate *plate, const Band *band, gint64 tube, int step, TwLand *land)
{
  const TwTubeGrid *grid = plate->grid;

  for (; tube >= 1 && tube <= grid->n_tubes; tube += step) {
    gboolean met = FALSE;

    for (guint row = 1; row <= grid->n_rows; row++) {
      double mm = land_of (grid, (guint)tube, row, band);

      if (!isfinite (mm) || tw_tube_is_plugged (plate->core, (guint)tube, row))
        continue;
      met = TRUE;
      if (is_nearer (mm, (guint)tube, land)) {
        land->tube = (guint)tube;
        land->row = row;
        land->land_mm = mm;
      }
    }
    if (met)
      return;
  }
}

/* Keeps the least of the lands that one part has of one kind. */
static void
land_band (const Plate *plate, const Band *band)
{
  const TwTubeGrid *grid = plate->grid;
  TwLand land = { grid->core, plate->header, band->kind, band->by, 0, 0, (double)INFINITY };
  GArray *lands = plate->out->lands;
  double middle = (band->box.y0_mm + band->box.y1_mm) / 2.0;
  double place = grid->step_mm != 0.0 ? (middle - grid->first_mm) / grid->step_mm + 1.0 : 1.0;
  gint64 nearest = (gint64)CLAMP (floor (place), 0.0, (double)grid->n_tubes);

  look_along (plate, band, nearest, -1, &land);
  look_along (plate, band, nearest + 1, 1, &land);
  if (land.tube == 0)
    return;
  for (guint i = lands->len; i > 0 && i + MOST_BANDS > lands->len; i--) {
    TwLand *other = &g_array_index (lands, TwLand, i - 1);

    if (other->kind != land.kind || !tw_id_equal (other->by, land.by))
      continue;
    if (is_nearer (land.land_mm, land.tube, other))
      *other = land;
    return;
  }
  g_array_append_val (lands, land);
}

static void
take_band (const Plate *plate, TwCoverKind kind, TwId by, gboolean runs_along, TwBox box)
{
  Band band = { kind, by, runs_along, box };

  if (tw_box_is_empty (box))
    return;
  cover_band (plate, &band);
  land_band (plate, &band);
}

/* The four strips between two boxes one within the other: first those at the ends. */
static void
take_rim (const Plate *plate, TwCoverKind ends, TwCoverKind sides, TwId by, TwBox outer, TwBox inner)
{
  take_band (plate, ends, by, FALSE, (TwBox){ outer.x0_mm, outer.y0_mm, outer.x1_mm, inner.y0_mm });
  take_band (plate, ends, by, FALSE, (TwBox){ outer.x0_mm, inner.y1_mm, outer.x1_mm, outer.y1_mm });
  take_band (plate, sides, by, TRUE, (TwBox){ outer.x0_mm, inner.y0_mm, inner.x0_mm, inner.y1_mm });
  take_band (plate, sides, by, TRUE, (TwBox){ inner.x1_mm, inner.y0_mm, outer.x1_mm, inner.y1_mm });
}

static void
take_tank (const Plate *plate, const TwPlacement *placement, const TwPlacedTank *tank)
{
  const TwTank *part = (const TwTank *)tw_drawing_find (tw_placement_drawing (placement), tank->id);
  double wall = fmax (tank->wall_mm, 0.0); /* unknown ones are none: fmax() passes a NaN over */
  double lip = fmax (part->lip_mm, wall);
  TwBox outer = { tank->w_from_mm, tank->start_mm, tank->w_to_mm, tank->end_mm };
  TwBox inner = tw_box_grow (outer, -wall), bare = tw_box_grow (outer, -lip);
  guint n;
  const TwPlacedBaffle *baffles = tw_placement_baffles (placement, &n);

  if (wall > 0.0)
    take_rim (plate, TW_COVER_END_WALL, TW_COVER_SIDE_WALL, tank->id, outer, inner);
  if (lip > wall)
    take_rim (plate, TW_COVER_LIP, TW_COVER_LIP, tank->id, inner, bare);
  for (guint i = 0; i < n; i++) {
    TwVec along = tank->side.along;
    double from = tw_vec_dot (baffles[i].from, along), to = tw_vec_dot (baffles[i].to, along);

    if (tw_id_equal (baffles[i].tank, tank->id))
      take_band (plate, TW_COVER_BAFFLE, baffles[i].id, baffles[i].runs_along,
                 (TwBox){ baffles[i].from.z, from, baffles[i].to.z, to });
  }
}

/* What of each mouth lies in no tank of its side. */
static void
take_outside (const Plate *plate, const TwBox *tanks, guint n_tanks)
{
  const TwTubeGrid *grid = plate->grid;
  g_autofree double *inside = g_new0 (double, (gsize)grid->n_tubes * grid->n_rows);
  guint first, last;

  for (guint i = 0; i < n_tanks; i++) {
    if (!tubes_within (grid, tanks[i].y0_mm, tanks[i].y1_mm, &first, &last))
      continue;
    for (guint tube = first; tube <= last; tube++)
      for (guint row = 1; row <= grid->n_rows; row++)
        inside[(tube - 1) * grid->n_rows + row - 1] += share_in (grid, tube, row, tanks[i]);
  }
  for (guint tube = 1; tube <= grid->n_tubes; tube++)
    for (guint row = 1; row <= grid->n_rows; row++) {
      double share = 1.0 - inside[(tube - 1) * grid->n_rows + row - 1];
      TwCover cover = { grid->core, plate->header, tube, row, TW_COVER_OUTSIDE, grid->core, share };

      if (share > LEAST_SHARE && !tw_tube_is_plugged (plate->core, tube, row))
        g_array_append_val (plate->out->covers, cover);
    }
}

static int
by_place (gconstpointer a, gconstpointer b)
{
  const TwCover *x = a, *y = b;

  if (x->tube != y->tube)
    return x->tube < y->tube ? -1 : 1;
  if (x->row != y->row)
    return x->row < y->row ? -1 : 1;
  if (x->kind != y->kind)
    return x->kind < y->kind ? -1 : 1;
  return strcmp (x->by.text, y->by.text);
}

static int
by_part (gconstpointer a, gconstpointer b)
{
  const TwLand *x = a, *y = b;

  if (x->kind != y->kind)
    return x->kind < y->kind ? -1 : 1;
  return strcmp (x->by.text, y->by.text);
}

static void
take_plate (const Plate *plate, const TwPlacement *placement)
{
  guint n, first_cover = plate->out->covers->len, first_land = plate->out->lands->len;
  const TwPlacedTank *tanks = tw_placement_tanks (placement, &n);
  g_autoptr (GArray) boxes = g_array_new (FALSE, FALSE, sizeof (TwBox));
  GArray *covers = plate->out->covers, *lands = plate->out->lands;

  for (guint i = 0; i < n; i++) {
    gboolean second = tanks[i].side.side == TW_SIDE_RIGHT || tanks[i].side.side == TW_SIDE_BOTTOM;
    TwBox box = { tanks[i].w_from_mm, tanks[i].start_mm, tanks[i].w_to_mm, tanks[i].end_mm };

    if (!tw_id_equal (tanks[i].core, plate->grid->core) || second != (plate->header == TW_HEADER_SECOND))
      continue;
    take_tank (plate, placement, &tanks[i]);
    g_array_append_val (boxes, box);
  }
  if (boxes->len > 0)
    take_outside (plate, (const TwBox *)(const void *)boxes->data, boxes->len);
  if (covers->len > first_cover)
    qsort (&g_array_index (covers, TwCover, first_cover), covers->len - first_cover, sizeof (TwCover),
           by_place);
  if (lands->len > first_land)
    qsort (&g_array_index (lands, TwLand, first_land), lands->len - first_land, sizeof (TwLand), by_part);
}

TwTubes *
tw_tubes_find (const TwPlacement *placement)
{
  TwTubes *self = g_atomic_rc_box_new0 (TwTubes);
  guint n;
  const TwPlacedCore *cores = tw_placement_cores (placement, &n);

  self->grids = g_array_new (FALSE, FALSE, sizeof (TwTubeGrid));
  self->covers = g_array_new (FALSE, FALSE, sizeof (TwCover));
  self->lands = g_array_new (FALSE, FALSE, sizeof (TwLand));
  for (guint i = 0; i < n; i++) {
    const TwCore *core = (const TwCore *)tw_drawing_find (tw_placement_drawing (placement), cores[i].id);
    TwTubeGrid grid = tw_tube_grid (core);

    g_array_append_val (self->grids, grid);
    for (guint header = 0; header < TW_N_HEADERS && grid.n_tubes > 0; header++) {
      Plate plate = { core, &grid, header, self };

      take_plate (&plate, placement);
    }
  }
  return self;
}

static void
clear_tubes (gpointer data)
{
  TwTubes *self = data;

  g_array_unref (self->grids);
  g_array_unref (self->covers);
  g_array_unref (self->lands);
}

TwTubes *
tw_tubes_ref (TwTubes *self)
{
  return g_atomic_rc_box_acquire (self);
}

void
tw_tubes_unref (TwTubes *self)
{
  g_atomic_rc_box_release_full (self, clear_tubes);
}

guint
tw_tubes_n_grids (const TwTubes *self)
{
  return self->grids->len;
}

const TwTubeGrid *
tw_tubes_grid (const TwTubes *self, guint nth)
{
  return nth < self->grids->len ? &g_array_index (self->grids, TwTubeGrid, nth) : NULL;
}

guint
tw_tubes_n_covers (const TwTubes *self)
{
  return self->covers->len;
}

const TwCover *
tw_tubes_cover (const TwTubes *self, guint nth)
{
  return nth < self->covers->len ? &g_array_index (self->covers, TwCover, nth) : NULL;
}

guint
tw_tubes_n_lands (const TwTubes *self)
{
  return self->lands->len;
}

const TwLand *
tw_tubes_land (const TwTubes *self, guint nth)
{
  return nth < self->lands->len ? &g_array_index (self->lands, TwLand, nth) : NULL;
}
