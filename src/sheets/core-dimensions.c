/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Sizes on the assembly of core and tanks: running ones along the header sides, face and whole across them,
 * planes of the sections.
 */
#include "sheets/core-sheet-private.h"

#include <math.h>

#define NEAREST_MM                                                                                           \
  0.8 /* running sizes that are nearer to each other on paper are told by the tables alone                   \
       */

/* Ends of a cutting plane: how far from the part, how long, length of their arrows; mm on paper. The plane
 * keeps this from what is dimensioned. */
#define CUT_OFF_MM 1.5
#define CUT_LONG_MM 5.0
#define CUT_ARROW_MM 6.0
#define CUT_CLEAR_MM 8.0

/* Room beyond figures, for names where no figures are; mm on paper. A running size's extension lines kink and
 * end before its figure (draw/dimension). */
#define AIR_MM 4.0
#define KINKS_MM 9.0
#define BARE_MM 14.0

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

/* Ports and baffles of one header side. */
static void
append_fittings (const TwSheetSet *set, const TwPlacedCore *core, const TwHeaderSide *side, GArray *places)
{
  const TwPlacement *placement = set->placement;
  const TwPlacedPort *ports;
  const TwPlacedBaffle *baffles;
  guint n;

  ports = tw_placement_ports (placement, &n);
  for (guint i = 0; i < n; i++)
    if (tw_id_equal (ports[i].core, core->id)
        && tw_placement_tank (placement, ports[i].tank)->side.side == side->side) {
      double along = tw_vec_dot (ports[i].at_core, side->along);

      g_array_append_val (places, along);
    }
  baffles = tw_placement_baffles (placement, &n);
  for (guint i = 0; i < n; i++)
    if (tw_id_equal (baffles[i].core, core->id) && !baffles[i].runs_along
        && tw_placement_tank (placement, baffles[i].tank)->side.side == side->side) {
      double along
          = (tw_vec_dot (baffles[i].from, side->along) + tw_vec_dot (baffles[i].to, side->along)) / 2;

      g_array_append_val (places, along);
    }
}

/* Everything that has a place along one header side: plate ends, tank ends, ports, baffles; lowest first. */
static GArray *
side_places (const TwSheetSet *set, const TwPlacedCore *core, const TwHeaderSide *side)
{
  GArray *places = g_array_new (FALSE, FALSE, sizeof (double));
  const TwPlacedTank *tanks;
  guint n;

  g_array_append_val (places, core->header_start_mm);
  g_array_append_val (places, core->header_end_mm);
  tanks = tw_placement_tanks (set->placement, &n);
  for (guint i = 0; i < n; i++)
    if (tw_id_equal (tanks[i].core, core->id) && tanks[i].side.side == side->side) {
      g_array_append_val (places, tanks[i].start_mm);
      g_array_append_val (places, tanks[i].end_mm);
    }
  append_fittings (set, core, side, places);
  sort_places (places);
  return places;
}

/* The second side says nothing of its own when all its places are places of the first one too. */
static gboolean
is_told_already (const TwSheetSet *set, const TwPlacedCore *core)
{
  g_autoptr (GArray) first = side_places (set, core, &core->sides[0]),
                     second = side_places (set, core, &core->sides[1]);

  for (guint i = 0; i < second->len; i++) {
    gboolean found = FALSE;

    for (guint k = 0; k < first->len && !found; k++)
      found = fabs (g_array_index (first, double, k) - g_array_index (second, double, i)) < 0.05;
    if (!found)
      return FALSE;
  }
  return second->len <= 2;
}

/* Room that the figures of a side need outside the assembly; mm on paper. */
static double
side_room (const TwSheetSet *set, const TwLook *look, const TwPlacedCore *core, guint nth)
{
  g_autoptr (GArray) places = side_places (set, core, &core->sides[nth]);
  TwDimensionManner manner = tw_dimension_manner (set->inches, look, set->source->measure);
  double longest = 0;

  if (nth == 1 && is_told_already (set, core))
    return BARE_MM;
  for (guint i = 0; i < places->len; i++) {
    g_autofree char *text = tw_sheet_length (set, g_array_index (places, double, i) - core->header_start_mm);

    longest = MAX (longest, tw_measure_width (set->source->measure, text, look->heights[TW_INK_SIZE_NOTE]));
  }
  return manner.first_mm + manner.beyond_mm + KINKS_MM + longest + AIR_MM;
}

TwBox
tw_core_sheet_margins (const TwSheetSet *set, const TwLook *look, const TwPlacedCore *core)
{
  double first = side_room (set, look, core, 0), second = side_room (set, look, core, 1);
  TwDimensionManner manner = tw_dimension_manner (set->inches, look, set->source->measure);
  double stack = manner.first_mm + manner.next_mm + 1.5 * look->heights[TW_INK_SIZE_NOTE] + AIR_MM;

  if (core->is_upright)
    return (TwBox){ set->inches ? stack + 14 : stack, MAX (second, BARE_MM), BARE_MM, first };
  return (TwBox){ first, stack, second, BARE_MM };
}

/* How far off the plate what stands at a place reaches: the back of the tank there, or the plate itself.
 * Extension lines begin there, so that they hide neither baffles nor ports. */
static double
off_at (const TwSheetSet *set, const TwPlacedCore *core, const TwHeaderSide *side, double along_mm)
{
  const TwPlacedTank *tanks;
  double off = 0;
  guint n;

  tanks = tw_placement_tanks (set->placement, &n);
  for (guint i = 0; i < n; i++)
    if (tw_id_equal (tanks[i].core, core->id) && tanks[i].side.side == side->side
        && along_mm > tanks[i].start_mm - 0.05 && along_mm < tanks[i].end_mm + 0.05)
      off = MAX (off, tw_placed_tank_depth_mm (&tanks[i], along_mm));
  return off;
}

/* Running sizes of one header side from the lower or left end of the header plate. Too many for the side are
 * left to the tables, which say them all. */
static void
dimension_side (const TwSheetSet *set,
                TwSheet *page,
                const TwSheetView *view,
                const TwPlacedCore *core,
                const TwHeaderSide *side)
{
  TwDimensionManner manner = tw_sheet_manner (set, page);
  TwDimensionSide where = side->side == TW_SIDE_LEFT    ? TW_DIMENSION_LEFT
                          : side->side == TW_SIDE_RIGHT ? TW_DIMENSION_RIGHT
                          : side->side == TW_SIDE_TOP   ? TW_DIMENSION_ABOVE
                                                        : TW_DIMENSION_BELOW;
  const TwDimensionEdge edge = { tw_sheet_on_paper (view, view->drawing->all), where };
  g_autoptr (GArray) places = side_places (set, core, side),
                     dims = g_array_new (FALSE, FALSE, sizeof (TwDimension));
  g_autoptr (GPtrArray) texts = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (TwInk) ink = tw_ink_new ();
  double start = core->header_start_mm;
  TwVec zero = tw_header_point (side, start, off_at (set, core, side, start), 0);
  double last = core->header_start_mm;

  for (guint i = 0; i < places->len; i++) {
    double along = g_array_index (places, double, i);
    TwVec at = tw_header_point (side, along, off_at (set, core, side, along), 0);
    TwDimension dim = { .to = tw_sheet_point (view, (TwPoint){ at.x, at.y }) };

    if ((along - last) * view->scale < NEAREST_MM) /* the datum itself, or as good as at the same place */
      continue;
    last = along;
    g_ptr_array_add (texts, tw_sheet_length (set, along - core->header_start_mm));
    dim.text = g_ptr_array_index (texts, texts->len - 1);
    g_array_append_val (dims, dim);
  }
  if (dims->len > 0
      && tw_dimension_running (ink, &manner, &edge, tw_sheet_point (view, (TwPoint){ zero.x, zero.y }),
                               (const TwDimension *)(gconstpointer)dims->data, dims->len)
             > 0)
    (void)tw_sheet_try (set, page, ink);
}

/* Face and overall sizes across the headers. */
static void
dimension_whole (const TwSheetSet *set,
                 TwSheet *page,
                 const TwSheetView *view,
                 const TwPlacedCore *core,
                 const TwBox *extents)
{
  gboolean across = !core->is_upright;
  const TwDimensionEdge edge
      = { tw_sheet_on_paper (view, view->drawing->all), across ? TW_DIMENSION_BELOW : TW_DIMENSION_LEFT };
  double face = across ? core->face_width_mm : core->face_height_mm;
  double low = across ? extents->x0_mm : extents->y0_mm, high = across ? extents->x1_mm : extents->y1_mm;
  const double spans[2][2] = { { low, high }, { -face / 2, face / 2 } };
  g_autofree char *face_text = tw_sheet_length (set, face), *whole_text = tw_sheet_length (set, high - low);
  TwDimension dims[2];

  for (guint i = 0; i < 2; i++) {
    TwPoint from
        = across ? (TwPoint){ spans[i][0], extents->y0_mm } : (TwPoint){ extents->x0_mm, spans[i][0] };
    TwPoint to = across ? (TwPoint){ spans[i][1], extents->y0_mm } : (TwPoint){ extents->x0_mm, spans[i][1] };

    dims[i] = (TwDimension){ tw_sheet_point (view, from), tw_sheet_point (view, to),
                             i == 0 ? whole_text : face_text, core->id };
  }
  (void)tw_sheet_stack (set, page, &edge, dims, high - low - face >= 0.05 ? 2 : 1);
}

void
tw_core_sheet_dimension (const TwSheetSet *set,
                         TwSheet *page,
                         const TwSheetView *view,
                         const TwPlacedCore *core,
                         const TwBox *extents)
{
  dimension_side (set, page, view, core, &core->sides[0]);
  if (!is_told_already (set, core))
    dimension_side (set, page, view, core, &core->sides[1]);
  dimension_whole (set, page, view, core, extents);
}

/* --- planes of sections -----------------------------------------------------------------------------------
 */

/* The middle of the widest room between places along a tank. FALSE when it is too narrow on paper. */
static gboolean
find_plane (const TwSheetSet *set,
            const TwSheetView *view,
            const TwPlacedCore *core,
            const TwPlacedTank *tank,
            double *along_mm)
{
  g_autoptr (GArray) places = side_places (set, core, &tank->side);
  double widest = 0;

  for (guint i = 0; i + 1 < places->len; i++) {
    double low = g_array_index (places, double, i), high = g_array_index (places, double, i + 1);

    if (low < tank->start_mm - 0.05 || high > tank->end_mm + 0.05 || high - low <= widest)
      continue;
    widest = high - low;
    *along_mm = (low + high) / 2;
  }
  return widest * view->scale >= 2 * CUT_CLEAR_MM;
}

/* One end of the plane: a wide stroke, an arrow on it the way one looks, and the letter. */
static void
draw_plane_end (const TwSheet *page, TwInk *ink, const TwPoint stroke[2], double look_rad, const char *letter)
{
  const TwInkStyle wide = { TW_INK_PEN_CUT, TW_INK_TINT_INK, "cut", TW_ID_NONE };
  const TwInkStyle narrow = { TW_INK_PEN_LEADER, TW_INK_TINT_INK, "cut", TW_ID_NONE };
  double height = page->look.heights[TW_INK_SIZE_NOTE], c = cos (look_rad), s = sin (look_rad);
  TwPoint tail = { stroke[1].x_mm - CUT_ARROW_MM * c, stroke[1].y_mm - CUT_ARROW_MM * s };
  TwInkPlace place = { .at = { tail.x_mm - 0.9 * height * c, tail.y_mm - 0.9 * height * s },
                       .size = TW_INK_SIZE_NOTE,
                       .across = TW_INK_CENTRE,
                       .up = TW_INK_MIDDLE };

  tw_ink_line (ink, &wide, stroke[0], stroke[1]);
  tw_ink_line (ink, &narrow, tail, stroke[1]);
  tw_ink_arrow (ink, &narrow, stroke[1], look_rad);
  if (letter != NULL)
    tw_ink_text (ink, &narrow, &place, letter);
}

gboolean
tw_core_sheet_draw_plane (const TwSheetSet *set,
                          TwSheet *page,
                          const TwSheetView *view,
                          const TwPlacedTank *tank,
                          const char *letter)
{
  const TwPlacedCore *core = tw_placement_core (set->placement, tank->core);
  double look_rad = core->is_upright ? G_PI : -G_PI / 2, along = 0;
  g_autoptr (TwInk) ink = tw_ink_new ();
  double paper = 1 / view->scale;

  if (!find_plane (set, view, core, tank, &along))
    return FALSE;
  for (guint end = 0; end < 2; end++) {
    double depth = tw_placed_tank_depth_mm (tank, along);
    double near = end == 0 ? depth + CUT_OFF_MM * paper : -core->header_thickness_mm - CUT_OFF_MM * paper;
    double far = near + (end == 0 ? CUT_LONG_MM : -CUT_LONG_MM) * paper;
    TwVec from = tw_header_point (&tank->side, along, near, 0),
          to = tw_header_point (&tank->side, along, far, 0);
    const TwPoint stroke[] = { tw_sheet_point (view, (TwPoint){ from.x, from.y }),
                               tw_sheet_point (view, (TwPoint){ to.x, to.y }) };

    draw_plane_end (page, ink, stroke, look_rad, letter);
  }
  return tw_sheet_try (set, page, ink);
}
