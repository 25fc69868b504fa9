/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Core and tanks: the assembly square on its face with all places along the headers, a section of each tank
 * on its header plate, tables of ports, baffles, tanks, passes.
 */
#include "sheets/sheet-private.h"

#include <math.h>

/* Room round the assembly for dimensions and names; mm on paper. */
#define SIDE_MM 46.0
#define LOW_MM 34.0
#define TOP_MM 16.0
#define ACROSS_MARGIN_MM 30.0 /* above and below an upright one's running sizes */
/* Room round a section. */
#define SECTION_SIDE_MM 26.0
#define SECTION_LOW_MM 24.0
#define SECTION_TOP_MM 22.0
#define SECTIONS_MOST 4
#define NEAREST_MM                                                                                           \
  0.8 /* running sizes that are nearer to each other on paper are told by the tables alone                   \
       */

typedef struct {
  TwSheetSet *set;
  TwSheet *page;
  const TwPlacedCore *core;
  TwBox extents;                            /* of core and tanks in (u, v) */
  TwBox all;                                /* of all that is drawn, ports too */
  const TwPlacedTank *tanks[SECTIONS_MOST]; /* whose sections are drawn */
  guint n_tanks;
  double section_scale;    /* model mm a paper mm */
  double sections_high_mm; /* strip of sections on paper */
} CoreSheet;

static double
section_width (const CoreSheet *self)
{
  double most = 0;

  for (guint i = 0; i < self->n_tanks; i++)
    most = MAX (most, MAX (self->tanks[i]->depth_start_mm, self->tanks[i]->depth_end_mm) + 30);
  return most / self->section_scale + 2 * SECTION_SIDE_MM;
}

static void
size_sections (CoreSheet *self, TwBox room)
{
  double high = 0;

  for (guint i = 0; i < self->n_tanks; i++)
    high = MAX (high, MAX (self->tanks[i]->w_to_mm - self->tanks[i]->w_from_mm,
                           self->core->header_w_to_mm - self->core->header_w_from_mm));
  self->section_scale = 1;
  for (guint i = 0; tw_sheet_scale (i) > 0; i++) {
    self->section_scale = tw_sheet_scale (i);
    if (high / self->section_scale <= 0.35 * (room.y1_mm - room.y0_mm)
        && section_width (self) * self->n_tanks <= room.x1_mm - room.x0_mm)
      break;
  }
  self->sections_high_mm
      = self->n_tanks > 0 ? high / self->section_scale + SECTION_LOW_MM + SECTION_TOP_MM : 0;
}

static gboolean
fits (CoreSheet *self, TwPaperSize size, double scale)
{
  TwBox room = tw_sheet_room (size);
  double across = (self->all.x1_mm - self->all.x0_mm) / scale + 2 * SIDE_MM;
  double up = (self->all.y1_mm - self->all.y0_mm) / scale + LOW_MM + TOP_MM + 2 * ACROSS_MARGIN_MM;

  size_sections (self, room);
  return across <= room.x1_mm - room.x0_mm && up + self->sections_high_mm <= room.y1_mm - room.y0_mm;
}

static double
choose (CoreSheet *self, GPtrArray *tables, TwPaperSize *size)
{
  double scale;

  for (*size = self->set->smallest;; *size = tw_paper_next (*size)) {
    gboolean last = *size == self->set->largest;

    for (guint i = 0; (scale = tw_sheet_scale (i)) > 0; i++)
      if (fits (self, *size, scale) && (last || scale <= 5))
        break;
    if (last || (scale > 0 && tw_sheet_tables_need_mm (*size, tables) <= tw_sheet_table_height_mm (*size)))
      return scale > 0 ? scale : 100;
  }
}

static int
by_place (gconstpointer a, gconstpointer b)
{
  double x = *(const double *)a, y = *(const double *)b;

  return x < y ? -1 : x > y;
}

/* Keeps one of places that are no farther apart than what would print the same. */
static void
sort_places (GArray *places)
{
  g_array_sort (places, by_place);
  for (guint i = places->len; i > 1; i--)
    if (g_array_index (places, double, i - 1) - g_array_index (places, double, i - 2) < 0.05)
      g_array_remove_index (places, i - 1);
}

/* Everything that has a place along one header side: plate ends, tank ends, ports, baffles; lowest first. */
static GArray *
side_places (const CoreSheet *self, const TwHeaderSide *side)
{
  const TwPlacement *placement = self->set->placement;
  GArray *places = g_array_new (FALSE, FALSE, sizeof (double));
  const TwPlacedTank *tanks;
  const TwPlacedPort *ports;
  const TwPlacedBaffle *baffles;
  guint n;

  g_array_append_val (places, self->core->header_start_mm);
  g_array_append_val (places, self->core->header_end_mm);
  tanks = tw_placement_tanks (placement, &n);
  for (guint i = 0; i < n; i++)
    if (tw_id_equal (tanks[i].core, self->core->id) && tanks[i].side.side == side->side) {
      g_array_append_val (places, tanks[i].start_mm);
      g_array_append_val (places, tanks[i].end_mm);
    }
  ports = tw_placement_ports (placement, &n);
  for (guint i = 0; i < n; i++)
    if (tw_id_equal (ports[i].core, self->core->id)
        && tw_placement_tank (placement, ports[i].tank)->side.side == side->side) {
      double along = tw_vec_dot (ports[i].at_core, side->along);

      g_array_append_val (places, along);
    }
  baffles = tw_placement_baffles (placement, &n);
  for (guint i = 0; i < n; i++)
    if (tw_id_equal (baffles[i].core, self->core->id) && !baffles[i].runs_along
        && tw_placement_tank (placement, baffles[i].tank)->side.side == side->side) {
      double along
          = (tw_vec_dot (baffles[i].from, side->along) + tw_vec_dot (baffles[i].to, side->along)) / 2;

      g_array_append_val (places, along);
    }
  sort_places (places);
  return places;
}

static TwPoint
on_paper (const TwSheetView *view, TwPoint at)
{
  return (TwPoint){ at.x_mm * view->scale + view->shift.x_mm, at.y_mm * view->scale + view->shift.y_mm };
}

/* Running sizes of one header side from the lower or left end of the header plate. Too many for the side are
 * left to the tables, which say them all. */
static void
dimension_side (CoreSheet *self, const TwSheetView *view, const TwHeaderSide *side, TwBox outline)
{
  TwDimensionManner manner = tw_sheet_manner (self->set, self->page);
  TwDimensionSide where = side->side == TW_SIDE_LEFT    ? TW_DIMENSION_LEFT
                          : side->side == TW_SIDE_RIGHT ? TW_DIMENSION_RIGHT
                          : side->side == TW_SIDE_TOP   ? TW_DIMENSION_ABOVE
                                                        : TW_DIMENSION_BELOW;
  const TwDimensionEdge edge = { outline, where };
  g_autoptr (GArray) places = side_places (self, side),
                     dims = g_array_new (FALSE, FALSE, sizeof (TwDimension));
  g_autoptr (GPtrArray) texts = g_ptr_array_new_with_free_func (g_free);
  TwVec zero = tw_header_point (side, self->core->header_start_mm, 0, 0);
  double last = self->core->header_start_mm;

  for (guint i = 0; i < places->len; i++) {
    double along = g_array_index (places, double, i);
    TwVec at = tw_header_point (side, along, 0, 0);
    TwDimension dim = { .to = on_paper (view, (TwPoint){ at.x, at.y }) };

    if ((along - last) * view->scale < NEAREST_MM) /* the datum itself, or as good as at the same place */
      continue;
    last = along;
    g_ptr_array_add (texts, tw_sheet_length (self->set, along - self->core->header_start_mm));
    dim.text = g_ptr_array_index (texts, texts->len - 1);
    g_array_append_val (dims, dim);
  }
  if (dims->len == 0)
    return;
  (void)tw_dimension_running (self->page->ink, &manner, &edge, on_paper (view, (TwPoint){ zero.x, zero.y }),
                              (const TwDimension *)dims->data, dims->len);
}

/* Face and overall sizes, beyond the running ones. */
static void
dimension_whole (CoreSheet *self, const TwSheetView *view, TwBox outline, TwDimensionSide side)
{
  TwDimensionManner manner = tw_sheet_manner (self->set, self->page);
  const TwDimensionEdge edge = { outline, side };
  gboolean across = side == TW_DIMENSION_BELOW;
  double face = across ? self->core->face_width_mm : self->core->face_height_mm;
  double low = across ? self->extents.x0_mm : self->extents.y0_mm;
  double high = across ? self->extents.x1_mm : self->extents.y1_mm;
  const double spans[2][2] = { { -face / 2, face / 2 }, { low, high } };
  TwDimension dims[2];
  guint n = 0;
  g_autofree char *face_text = tw_sheet_length (self->set, face),
                  *whole_text = tw_sheet_length (self->set, high - low);

  for (guint i = 0; i < 2; i++) {
    TwPoint from = on_paper (view, across ? (TwPoint){ spans[i][0], self->extents.y0_mm }
                                          : (TwPoint){ self->extents.x0_mm, spans[i][0] });
    TwPoint to = on_paper (view, across ? (TwPoint){ spans[i][1], self->extents.y0_mm }
                                        : (TwPoint){ self->extents.x0_mm, spans[i][1] });

    dims[n] = (TwDimension){ from, to, i == 0 ? face_text : whole_text, self->core->id };
    if (tw_sheet_has_room (self->set, self->page, &dims[n]) && (i == 0 || high - low - face >= 0.05))
      n++;
  }
  (void)tw_dimension_stack (self->page->ink, &manner, &edge, dims, n);
}

/* Along the headers by running sizes, the plate's length among them; across them face and whole. */
static void
draw_dimensions (CoreSheet *self, const TwSheetView *view)
{
  TwBox outline = tw_sheet_on_paper (view, view->drawing->all);

  for (guint i = 0; i < 2; i++)
    dimension_side (self, view, &self->core->sides[i], outline);
  dimension_whole (self, view, outline, self->core->is_upright ? TW_DIMENSION_LEFT : TW_DIMENSION_BELOW);
}

/* The box round core and tanks in (u, v), without ports. */
static TwBox
find_extents (const TwSheetSet *set, const TwPlacedCore *core)
{
  TwBox box = core->face;
  const TwPlacedTank *tanks;
  guint n;

  for (guint i = 0; i < 2; i++)
    for (guint k = 0; k < 2; k++) {
      TwVec at
          = tw_header_point (&core->sides[i], k == 0 ? core->header_start_mm : core->header_end_mm, 0, 0);

      box = tw_box_add_point (box, (TwPoint){ at.x, at.y });
    }
  tanks = tw_placement_tanks (set->placement, &n);
  for (guint i = 0; i < n; i++)
    if (tw_id_equal (tanks[i].core, core->id)) {
      box = tw_box_add_point (box, (TwPoint){ tanks[i].from.x, tanks[i].from.y });
      box = tw_box_add_point (box, (TwPoint){ tanks[i].to.x, tanks[i].to.y });
    }
  return box;
}

#define FLAGS (TW_VIEW_NO_BAY | TW_VIEW_NO_HOSES | TW_VIEW_NO_AIRWAY)

static TwBox
trial_box (const TwSheetSet *set, const TwPlacedCore *core)
{
  const TwSheet page = { .look = tw_look_paper (FALSE) };
  TwSheetView view = tw_sheet_view (set, &page, TW_VIEW_FACE, core->id, 0.2, FLAGS);
  TwBox box = tw_box_add (view.drawing->all, core->face);

  tw_view_drawing_free (view.drawing);
  return box;
}

static void
find_tanks (CoreSheet *self)
{
  const TwPlacedTank *tanks;
  guint n;

  tanks = tw_placement_tanks (self->set->placement, &n);
  for (guint i = 0; i < n && self->n_tanks < SECTIONS_MOST; i++)
    if (tw_id_equal (tanks[i].core, self->core->id))
      self->tanks[self->n_tanks++] = &tanks[i];
}

static GPtrArray *
make_tables (const TwSheetSet *set, const TwPlacedCore *core)
{
  GPtrArray *tables = g_ptr_array_new_with_free_func ((GDestroyNotify)tw_table_free);

  g_ptr_array_add (tables, tw_sheet_core (set, core));
  g_ptr_array_add (tables, tw_sheet_passes (set, core));
  g_ptr_array_add (tables, tw_sheet_baffles (set, core));
  g_ptr_array_add (tables, tw_sheet_tanks (set, core));
  g_ptr_array_add (tables, tw_sheet_ports (set, core));
  return tables;
}

/* The assembly stands above the strip of sections, in the middle of the room. */
static void
place_view (const CoreSheet *self, TwSheetView *view)
{
  TwBox room = tw_sheet_room (self->page->size);
  double across = (self->all.x0_mm + self->all.x1_mm) / 2, up = (self->all.y0_mm + self->all.y1_mm) / 2;

  view->shift.x_mm = (room.x0_mm + room.x1_mm) / 2 - across * view->scale;
  view->shift.y_mm = (room.y0_mm + self->sections_high_mm + room.y1_mm) / 2 - up * view->scale;
}

static void
draw_sections (CoreSheet *self)
{
  TwBox room = tw_sheet_room (self->page->size);
  double step = self->n_tanks > 0 ? (room.x1_mm - room.x0_mm) / self->n_tanks : 0;

  for (guint i = 0; i < self->n_tanks; i++) {
    const TwBox cell = { room.x0_mm + i * step, room.y0_mm, room.x0_mm + (i + 1) * step,
                         room.y0_mm + self->sections_high_mm };

    tw_sheet_section (self->set, self->page, self->tanks[i], 1 / self->section_scale, &cell);
  }
}

void
tw_sheet_core_and_tanks (TwSheetSet *set, const TwPlacedCore *core)
{
  CoreSheet self = { .set = set, .core = core, .extents = find_extents (set, core) };
  g_autoptr (GPtrArray) tables = make_tables (set, core);
  g_autofree char *title = NULL, *scale_text = NULL;
  TwPaperSize size;
  TwSheetView view;
  double scale;
  guint n_cores;

  find_tanks (&self);
  self.all = trial_box (set, core);
  scale = choose (&self, tables, &size);
  size_sections (&self, tw_sheet_room (size));
  scale_text = tw_sheet_scale_text (scale);
  tw_placement_cores (set->placement, &n_cores);
  title = n_cores > 1 ? g_strdup_printf ("%s, %s", tw_part_name ((const TwPart *)set->settings),
                                         tw_sheet_name (set, core->id))
                      : g_strdup (tw_part_name ((const TwPart *)set->settings));
  self.page = tw_sheet_add (set, TW_SHEET_CORE_AND_TANKS, size, title, scale_text);
  view = tw_sheet_view (set, self.page, TW_VIEW_FACE, core->id, 1 / scale, FLAGS);
  self.all = tw_box_add (view.drawing->all, core->face); /* arrows are as long as they are at this scale */
  place_view (&self, &view);
  tw_sheet_put_view (self.page, &view, NULL);
  draw_dimensions (&self, &view);
  draw_sections (&self);
  tw_sheet_put_tables (set, self.page, tables);
  tw_sheet_put_names (self.page, &view, 1);
  tw_view_drawing_free (view.drawing);
}
