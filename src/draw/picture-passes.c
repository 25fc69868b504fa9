/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * picture-passes.c - headers, tubes by pass, baffles and ports; cores one after the other
 */
#include "draw/picture-tubes-private.h"

#include "base/error.h"

#include <math.h>

/* Most cores that are shown. */
#define MOST_CORES 3
#define CORE_GAP_PX 6.0

/* A core's place narrower than this gets thin tanks and short arrows. */
#define NARROW_PX 120.0

/* Between the ways of neighbouring passes. */
#define PASS_GAP_PX 1.0

/* Of a number over and under its letters, and beside them. */
#define NUMBER_UP_PX 3.0
#define NUMBER_BESIDE_PX 4.0

/* Half a head, and what an upright way takes of a band's width. */
#define BESIDE_WAY_PX 8.0

/* The way of the water: from the header's side, its shortest piece. */
#define WAY_INSET_PX 5.0
#define WAY_LEAST_PX 13.0

#define CROSS_PX 7.0

/* Shares of the tint, dimensionless. */
#define WATER_TONE 0.16
#define UNKNOWN_TONE 0.4

/* First crossing hot, last one cool; what is between is ink: as in the views. */
static TwInkTint
tint_of (const TwPictureCore *core, guint level, gboolean second_half)
{
  if (core->last_level == 1)
    return second_half ? TW_INK_TINT_COOL : TW_INK_TINT_HOT;
  return level == 1 ? TW_INK_TINT_HOT : level == core->last_level ? TW_INK_TINT_COOL : TW_INK_TINT_INK;
}

/* --- tubes ------------------------------------------------------------------------------------------------
 */

/* The way of the water through a band, along its middle; the middle of a number's room is left free. */
typedef struct {
  double along_px;
  double from_px; /* across, in the direction of the water */
  double to_px;
  double free_px; /* half the room of the number; 0: none */
} Way;

static void
draw_half_way (const TwPictureCore *core, const Way *way, double from_px, double to_px, TwInkTint tint)
{
  TwInkStyle style = tw_picture_style (TW_INK_PEN_WATER, tint, core->bench.core);
  double sign = to_px > from_px ? 1 : -1;
  gboolean has_head = to_px == way->to_px;
  TwPoint from = tw_picture_bench_point (&core->bench, way->along_px, from_px);
  TwPoint to = tw_picture_bench_point (&core->bench, way->along_px, to_px);

  tw_ink_line (core->hand->ink, &style, from,
               tw_picture_bench_point (&core->bench, way->along_px,
                                       to_px - (has_head ? sign * TW_PICTURE_HEAD_PX : 0)));
  if (has_head)
    tw_ink_arrow (core->hand->ink, &style, to, atan2 (to.y_mm - from.y_mm, to.x_mm - from.x_mm));
}

static void
draw_way (const TwPictureCore *core, const Way *way, guint level)
{
  double middle_px = (way->from_px + way->to_px) / 2, sign = way->to_px > way->from_px ? 1 : -1;

  draw_half_way (core, way, way->from_px, middle_px - sign * way->free_px, tint_of (core, level, FALSE));
  draw_half_way (core, way, middle_px + sign * way->free_px, way->to_px, tint_of (core, level, TRUE));
}

/* Whether the number stands clear between the band's edges. */
static gboolean
has_room (const TwPictureCore *core, const TwBox *band, const char *number)
{
  double up_px = tw_picture_letter_px (core->hand) * (1 + 2 * tw_measure_down (number)) + 2;
  double beside_px = tw_picture_text_px (core->hand, number) + 2;

  return band->y1_mm - band->y0_mm >= up_px && band->x1_mm - band->x0_mm >= beside_px;
}

/* What is written on a group of tubes; the long form where it fits into @room_px. (transfer full) */
static char *
number_of (const TwPictureCore *core, const TwTubeGroup *group, const TwBox *band, double room_px)
{
  g_autofree char *words = NULL;

  if (group->level > 0) {
    words = g_strdup_printf (tw_picture_words (core->hand, N_ ("pass %u: %u tubes")), group->level,
                             group->n_tubes);
    if (tw_picture_text_px (core->hand, words) <= room_px && has_room (core, band, words))
      return g_steal_pointer (&words);
  }
  return g_strdup_printf ("%u", group->n_tubes);
}

static TwPoint
middle_of (const TwBox *box)
{
  return (TwPoint){ (box->x0_mm + box->x1_mm) / 2, (box->y0_mm + box->y1_mm) / 2 };
}

static void
tone_band (const TwPictureCore *core, const TwTubeGroup *group, const double along_px[2])
{
  double length_px = tw_picture_bench_across_px (&core->bench);
  gboolean back = group->flows == TW_FLOWS_LEFT || group->flows == TW_FLOWS_UP;
  TwInkTint tints[2];

  for (guint half = 0; half < 2; half++)
    tints[half] = group->level > 0 ? tint_of (core, group->level, (half == 1) != back) : TW_INK_TINT_FAINT;
  for (guint half = 0; half < 2; half++) {
    gboolean is_whole = tints[0] == tints[1];
    const double across_px[] = { half * length_px / 2, is_whole ? length_px : (half + 1) * length_px / 2 };
    TwBox box = tw_picture_bench_box (&core->bench, along_px, across_px);
    TwInkStyle style = tw_picture_style (TW_INK_PEN_THIN, tints[half], core->bench.core);

    tw_picture_tone (core->hand, &box, &style, group->level > 0 ? WATER_TONE : UNKNOWN_TONE);
    if (is_whole)
      return;
  }
}

/* Tubes that carry nothing: empty, dashed, crossed, with their number beside the cross. */
static void
draw_dead (const TwPictureCore *core, const TwBox *band, const char *number)
{
  TwInkStyle edge = tw_picture_style (TW_INK_PEN_BEHIND, TW_INK_TINT_SOFT, core->bench.core);
  TwInkStyle cross = tw_picture_style (TW_INK_PEN_THIN, TW_INK_TINT_INK, core->bench.core);
  TwPoint middle = middle_of (band);
  double side_px = MIN (MIN (band->y1_mm - band->y0_mm, band->x1_mm - band->x0_mm) - 2, CROSS_PX) / 2;
  double number_px = number != NULL ? tw_picture_text_px (core->hand, number) + TW_PICTURE_GAP_PX : 0;
  double across_px = band->x1_mm - band->x0_mm;

  tw_ink_box (core->hand->ink, &edge, band);
  if (number_px > 0 && across_px < number_px + 2 * side_px + 4)
    number_px = 0;
  middle.x_mm -= number_px / 2;
  if (side_px > 0.5)
    tw_picture_cross (core->hand,
                      &(TwBox){ middle.x_mm - side_px, middle.y_mm - side_px, middle.x_mm + side_px,
                                middle.y_mm + side_px },
                      &cross);
  if (number_px > 0 && has_room (core, band, number))
    tw_picture_write (core->hand,
                      (TwPoint){ middle.x_mm + MAX (side_px, 0) + TW_PICTURE_GAP_PX, middle.y_mm },
                      TW_INK_LEFT, &cross, number);
}

/* In the way where tubes are level, beside it where they are upright; left out where neither has room. */
static void
write_number (const TwPictureCore *core, const TwBox *band, Way *way, const char *number, gboolean has_way)
{
  TwInkStyle style = tw_picture_style (TW_INK_PEN_THIN, TW_INK_TINT_INK, core->bench.core);
  double number_px = tw_picture_text_px (core->hand, number), free_px = number_px / 2 + NUMBER_BESIDE_PX;
  double both_px = BESIDE_WAY_PX + NUMBER_BESIDE_PX + number_px;
  TwPoint at = middle_of (band);

  if (!has_way) {
    tw_picture_write (core->hand, at, TW_INK_CENTRE, &style, number);
  } else if (core->bench.grid.level && way->to_px - way->from_px >= 2 * (free_px + WAY_LEAST_PX)) {
    way->free_px = free_px;
    tw_picture_write (core->hand, at, TW_INK_CENTRE, &style, number);
  } else if (!core->bench.grid.level && band->x1_mm - band->x0_mm >= both_px + 2) {
    way->along_px -= (both_px - BESIDE_WAY_PX) / 2;
    at.x_mm += both_px / 2 - number_px;
    tw_picture_write (core->hand, at, TW_INK_LEFT, &style, number);
  }
}

/* @is_main: of the bands of the group the one that carries its number */
static void
draw_band (const TwPictureCore *core, const TwTubeGroup *group, const double along_px[2], gboolean is_main)
{
  double length_px = tw_picture_bench_across_px (&core->bench);
  TwBox band = tw_picture_bench_box (&core->bench, along_px, (double[]){ 1, length_px - 1 });
  gboolean back = group->flows == TW_FLOWS_LEFT || group->flows == TW_FLOWS_UP;
  Way way = { (along_px[0] + along_px[1]) / 2, WAY_INSET_PX, length_px - WAY_INSET_PX, 0 };
  double room_px = core->bench.grid.level ? length_px - 2 * (WAY_INSET_PX + WAY_LEAST_PX + NUMBER_BESIDE_PX)
                                          : along_px[1] - along_px[0] - 2 * BESIDE_WAY_PX - NUMBER_BESIDE_PX;
  g_autofree char *number = is_main ? number_of (core, group, &band, room_px) : NULL;

  if (group->why != TW_DEAD_NOT && group->why != TW_DEAD_UNKNOWN) {
    draw_dead (core, &band, number);
    return;
  }
  tone_band (core, group, along_px);
  if (number != NULL && has_room (core, &band, number))
    write_number (core, &band, &way, number, group->level > 0);
  if (group->level == 0 || group->flows == TW_FLOWS_NOWHERE || way.to_px <= way.from_px)
    return;
  if (back)
    way = (Way){ way.along_px, way.to_px, way.from_px, way.free_px };
  draw_way (core, &way, group->level);
}

/* Number of the stretch in which a group has most room. */
static guint
main_stretch (const TwPictureCore *core, guint group)
{
  guint best = G_MAXUINT;
  double most_px = 0;

  for (guint i = 0; i < core->bench.stretches->len; i++) {
    const TwPictureStretch *stretch = &g_array_index (core->bench.stretches, TwPictureStretch, i);
    double width_px = stretch->to_px - stretch->from_px;

    if ((stretch->groups >> group & 1) != 0 && width_px > most_px + 1e-9) {
      most_px = width_px;
      best = i;
    }
  }
  return best;
}

static void
draw_stretch (const TwPictureCore *core, guint nth)
{
  const TwPictureStretch *stretch = &g_array_index (core->bench.stretches, TwPictureStretch, nth);
  TwInkStyle plugged = tw_picture_style (TW_INK_PEN_BEHIND, TW_INK_TINT_SOFT, core->bench.core);
  double length_px = tw_picture_bench_across_px (&core->bench), at_px = stretch->from_px;
  guint n = 0, left;

  for (guint i = 0; i < core->bench.n_groups; i++)
    n += stretch->groups >> i & 1;
  if (n == 0) {
    at_px = (stretch->from_px + stretch->to_px) / 2;
    tw_ink_line (core->hand->ink, &plugged, tw_picture_bench_point (&core->bench, at_px, 0),
                 tw_picture_bench_point (&core->bench, at_px, length_px));
    return;
  }
  left = n;
  for (guint i = 0; i < core->bench.n_groups; i++) {
    double step_px = (stretch->to_px - at_px) / MAX (left, 1);
    const double along_px[] = { at_px + PASS_GAP_PX / 2, at_px + step_px - PASS_GAP_PX / 2 };

    if ((stretch->groups >> i & 1) == 0)
      continue;
    if (along_px[1] > along_px[0])
      draw_band (core, core->bench.groups[i], along_px, main_stretch (core, i) == nth);
    at_px += step_px;
    left--;
  }
}

/* --- cores ------------------------------------------------------------------------------------------------
 */

/* Room for arrows and tanks outside of the tubes, within @place. */
static void
lay_out (TwPictureCore *core, const TwBox *place)
{
  TwBox tubes = tw_box_grow (*place, -TW_PICTURE_PORT_PX);
  gboolean level = core->bench.grid.level;
  gboolean narrow = level && place->x1_mm - place->x0_mm < NARROW_PX;
  double across_px, along_px;

  core->tank_px = narrow ? 8 : level ? 14 : 11;
  core->way_px = narrow ? 12 : level ? 18 : 14;
  across_px = core->tank_px + core->way_px - TW_PICTURE_PORT_PX;
  along_px = tw_picture_has_end_ways (core) ? core->way_px : 0;
  tubes.x0_mm += level ? across_px : along_px;
  tubes.x1_mm -= level ? across_px : along_px;
  tubes.y0_mm += level ? along_px : across_px;
  tubes.y1_mm -= level ? along_px : across_px;
  core->bench.tubes = tubes;
  tw_picture_bench_spread (&core->bench, level ? tubes.y1_mm - tubes.y0_mm : tubes.x1_mm - tubes.x0_mm,
                           level ? tw_picture_letter_px (core->hand) + NUMBER_UP_PX
                                 : tw_picture_text_px (core->hand, "00") + 2 * BESIDE_WAY_PX);
}

static void
draw_core (const TwPictureCore *core)
{
  for (guint i = 0; i < core->bench.stretches->len; i++)
    draw_stretch (core, i);
  tw_picture_draw_tanks (core);
}

/* The water's way; cores without water come last, in the order of the drawing. */
static int
by_level (gconstpointer a, gconstpointer b)
{
  const TwPictureCore *one = a, *two = b;

  if (one->first_level != two->first_level)
    return one->first_level > two->first_level ? 1 : -1;
  return 0;
}

/* Cores that have tubes, as the water takes them. (transfer full) (element-type TwPictureCore) */
static GArray *
open_cores (const TwPictureHand *hand)
{
  const TwTubes *tubes = tw_answer_tubes (hand->answer);
  const TwPasses *passes = tw_answer_passes (hand->answer);
  GArray *cores = g_array_new (FALSE, FALSE, sizeof (TwPictureCore));
  guint last_level = 0;

  for (guint i = 0; i < tw_passes_count (passes); i++)
    last_level = MAX (last_level, tw_passes_get (passes, i)->level);
  for (guint i = 0; i < tw_tubes_n_grids (tubes); i++) {
    TwPictureCore core = { .hand = hand, .first_level = G_MAXUINT, .last_level = last_level };

    if (tw_tubes_grid (tubes, i)->n_tubes == 0)
      continue;
    tw_picture_bench_open (&core.bench, passes, tw_tubes_grid (tubes, i));
    for (guint k = 0; k < core.bench.n_groups; k++)
      if (core.bench.groups[k]->level > 0)
        core.first_level = MIN (core.first_level, core.bench.groups[k]->level);
    g_array_append_val (cores, core);
  }
  g_array_sort (cores, by_level);
  return cores;
}

void
tw_picture_passes (const TwPictureHand *hand)
{
  g_autoptr (GArray) cores = open_cores (hand);
  guint shown = MIN (cores->len, MOST_CORES);
  g_autofree char *others = g_strdup_printf ("+%u", cores->len - shown);
  TwInkStyle style = tw_picture_style (TW_INK_PEN_THIN, TW_INK_TINT_INK, TW_ID_NONE);
  TwBox place = hand->room;
  double width_px;

  if (cores->len > shown) {
    place.x1_mm -= tw_picture_text_px (hand, others) + TW_PICTURE_GAP_PX;
    tw_picture_write (hand, (TwPoint){ place.x1_mm + TW_PICTURE_GAP_PX, (place.y0_mm + place.y1_mm) / 2 },
                      TW_INK_LEFT, &style, others);
  }
  width_px = shown > 0 ? (place.x1_mm - place.x0_mm - (shown - 1) * CORE_GAP_PX) / shown : 0;
  for (guint i = 0; i < shown; i++) {
    TwPictureCore *core = &g_array_index (cores, TwPictureCore, i);

    place.x1_mm = place.x0_mm + width_px;
    lay_out (core, &place);
    draw_core (core);
    place.x0_mm = place.x1_mm + CORE_GAP_PX;
  }
  for (guint i = 0; i < cores->len; i++)
    tw_picture_bench_close (&g_array_index (cores, TwPictureCore, i).bench);
}
