/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where tubes stand and what lies over their mouths, by hand. The makers' tubes are 2 high and 40 wide with a
 * wall of 0.3: a mouth is 1.4 by 39.4 with round ends, (39.4 − 1.4)·1.4 + π·0.7² = 54.7394 mm².
 */
#include "layout/drawn.h"
#include "layout/mouth-private.h"

#include <math.h>

#define MOUTH_MM2 (38.0 * 1.4 + G_PI * 0.49)

typedef struct {
  const char *name;
  TwBox box;
  double area_mm2;
} Mouth;

#define SQRT_3 1.7320508075688772935 /* a call is no constant */

static const Mouth mouths[] = {
  { "all of it", { -50, -50, 50, 50 }, MOUTH_MM2 },
  { "nothing", { -50, 0.7, 50, 50 }, 0.0 },
  { "upper half", { -50, 0, 50, 50 }, MOUTH_MM2 / 2.0 },
  { "right half", { 0, -50, 50, 50 }, MOUTH_MM2 / 2.0 },
  { "a quarter", { -50, -50, 0, 0 }, MOUTH_MM2 / 4.0 },
  { "within the flat part", { 1, -0.2, 3, 0.3 }, 1.0 },
  { "the round end", { 19, -1, 50, 1 }, G_PI * 0.49 / 2.0 },
  /* the part of a circle of 0.7 beyond 0.35 from its middle: r²·(π/3 − √3/4) */
  { "a segment of the round end", { 19.35, -1, 50, 1 }, 0.49 * (G_PI / 3.0 - SQRT_3 / 4.0) },
  /* 38 by 0.35 and two segments like that one */
  { "a strip along the edge", { -50, 0.35, 50, 5 }, 38.0 * 0.35 + 0.49 * (G_PI / 3.0 - SQRT_3 / 4.0) },
  { "a box upside down", { 1, 1, -1, -1 }, 0.0 },
};

static void
test_mouth (gconstpointer data)
{
  const Mouth *c = data;
  TwBox mirrored = { -c->box.x1_mm, -c->box.y1_mm, -c->box.x0_mm, -c->box.y0_mm };

  g_assert_cmpfloat_with_epsilon (tw_mouth_area_mm2 (1.4, 39.4, c->box), c->area_mm2, 1e-9);
  g_assert_cmpfloat_with_epsilon (tw_mouth_area_mm2 (1.4, 39.4, mirrored), c->area_mm2, 1e-9);
}

static void
test_round_mouth (void)
{
  g_assert_cmpfloat_with_epsilon (tw_mouth_area_mm2 (6.0, 6.0, (TwBox){ -9, -9, 9, 9 }), 9.0 * G_PI, 1e-9);
  g_assert_cmpfloat_with_epsilon (tw_mouth_area_mm2 (6.0, 6.0, (TwBox){ 0, 0, 9, 9 }), 2.25 * G_PI, 1e-9);
}

/* Tube and row by hand: from the middle of the face, and from the face. */
typedef struct {
  const char *name;
  int tubes;
  double width_mm, height_mm, thickness_mm, first_mm, pitch_mm;
  guint n_tubes, n_rows;
  double first_at_mm, last_at_mm; /* along the header */
  double first_row_mm, last_row_mm;
} Grid;

static const Grid grids[] = {
  /* face y 330–648, lowest centre 339: 150 under the middle at 489 */
  { "Merlin, tail", TW_TUBES_LEVEL, 700, 318, 48, 9, 10, 31, 1, 150, -150, 24, 24 },
  /* lowest centre 2.12 in, face 1.75–20.94 in: 9.225 in under the middle; rows a quarter from each side */
  { "Caravan 4", TW_TUBES_LEVEL, 787.4, 487.426, 57.15, 9.398, 10.414, 46, 2, 234.315, -234.315, 14.2875,
    42.8625 },
  /* face x −150…118, first centre −141: the middle is −16 */
  { "Volt-9", TW_TUBES_UPRIGHT, 268, 200, 32, 9, 10, 26, 1, -125, 125, 16, 16 },
  { "Ox", TW_TUBES_UPRIGHT, 527.8, 640, 70, 8.9, 10, 52, 2, -255, 255, 17.5, 52.5 },
  { "centred when not said", TW_TUBES_LEVEL, 400, 100, 42, (double)NAN, 10, 8, 1, 35, -35, 21, 21 },
  { "one tube", TW_TUBES_UPRIGHT, 20, 400, 42, (double)NAN, 10, 1, 1, 0, 0, 21, 21 },
};

static void
test_grid (gconstpointer data)
{
  const Grid *c = data;
  TwPart *part = tw_part_new (TW_KIND_CORE, id_of ("core"));
  TwCore *core = (TwCore *)part;
  TwTubeGrid grid;

  core->tubes = c->tubes;
  core->face_width_mm = c->width_mm;
  core->face_height_mm = c->height_mm;
  core->thickness_mm = c->thickness_mm;
  core->first_tube_mm = c->first_mm;
  core->tube_pitch_mm = c->pitch_mm;
  core->tube_count = (int)c->n_tubes;
  core->rows = (int)c->n_rows;
  core->tube_height_mm = 2.0;
  core->tube_width_mm = 20.0;
  core->tube_wall_mm = 0.3;
  grid = tw_tube_grid (core);
  g_assert_cmpuint (grid.n_tubes, ==, c->n_tubes);
  g_assert_cmpfloat_with_epsilon (tw_tube_along_mm (&grid, 1), c->first_at_mm, 1e-9);
  g_assert_cmpfloat_with_epsilon (tw_tube_along_mm (&grid, c->n_tubes), c->last_at_mm, 1e-9);
  g_assert_cmpfloat_with_epsilon (tw_tube_across_mm (&grid, 1), c->first_row_mm, 1e-9);
  g_assert_cmpfloat_with_epsilon (tw_tube_across_mm (&grid, c->n_rows), c->last_row_mm, 1e-9);
  g_assert_cmpfloat (grid.length_mm, ==, c->tubes == TW_TUBES_LEVEL ? c->width_mm : c->height_mm);
  tw_part_unref (part);
}

/* What of a core is missing leaves it without tubes. */
static void
test_unknown (void)
{
  TwPart *part = tw_part_new (TW_KIND_CORE, id_of ("core"));

  g_assert_cmpuint (tw_tube_grid ((const TwCore *)part).n_tubes, ==, 0);
  tw_part_unref (part);
}

/* A field that is set in a drawn job, and the covers and lands that follow: kind (b e s l o: baffle, end
 * wall, side wall, lip, outside), side (1 2), tube, row if there are several, and share or land. */
typedef struct {
  const char *name;
  const char *drawn;
  struct {
    const char *part, *field;
    double value;
  } set[2];
  const char *covers;
  const char *lands;
} Case;

/* Of the side walls, which all tubes are equally near, the middle one is named. Twenty tubes, from 95 down to
 * −95; tanks ±105 with walls of 2, across from −6 to 48 with tubes from 1 to 41. */
static const Case cases[] = {
  { "nothing covered", "L20", { { NULL } }, "", "e1:1=7.00 s1:10=5.00 e2:1=7.00 s2:10=5.00" },
  { "baffle between tubes",
    "L20 b1:10",
    { { NULL } },
    "",
    "b1:10=3.00 e1:1=7.00 s1:10=5.00 e2:1=7.00 s2:10=5.00" },
  { "baffle on a mouth",
    "L20 m2:10",
    { { NULL } },
    "b2:10=1.000",
    "e1:1=7.00 s1:10=5.00 b2:10=-2.00 e2:1=7.00 s2:10=5.00" },
  /* the baffle's lower edge in the middle of tube 10, at 5 */
  { "baffle on half a mouth",
    "L20 b1:10",
    { { "baffle-1", "place_mm", 6.0 } },
    "b1:10=0.500",
    "b1:10=-1.00 e1:1=7.00 s1:10=5.00 e2:1=7.00 s2:10=5.00" },
  /* on the tube's wall only: lower edge at 5.8, mouth up to 5.7 */
  { "baffle on a tube's wall",
    "L20 b1:10",
    { { "baffle-1", "place_mm", 6.8 } },
    "",
    "b1:10=-0.20 e1:1=7.00 s1:10=5.00 e2:1=7.00 s2:10=5.00" },
  { "baffle on a plugged mouth",
    "L20 m1:10 p10",
    { { NULL } },
    "",
    "b1:9=8.00 e1:1=7.00 s1:9=5.00 e2:1=7.00 s2:9=5.00" },
  { "end wall on a mouth",
    "L20",
    { { "tank-1", "end_mm", 96.0 } },
    "e1:1=1.000",
    "e1:1=-2.00 s1:10=5.00 e2:1=7.00 s2:10=5.00" },
  { "half a mouth outside, half under the wall",
    "L20",
    { { "tank-1", "end_mm", 95.0 } },
    "e1:1=0.500 o1:1=0.500",
    "e1:1=-1.00 s1:11=5.00 e2:1=7.00 s2:10=5.00" },
  { "two mouths outside",
    "L20",
    { { "tank-2", "start_mm", -80.0 } },
    "o2:19=1.000 o2:20=1.000",
    "e1:1=7.00 s1:10=5.00 e2:18=2.00 s2:9=5.00" },
  /* the lip's edge at 95 and at 4 and 38 across: half of tubes 1 and 20, and at each end of each mouth half a
   * circle and 2 by 1.4: 3.5697 of 54.7394; of 1 and 20 only what the ends' strips leave: half of that */
  { "lip",
    "L2",
    { { "tank-1", "lip_mm", 10.0 }, { NULL } },
    "l1:1=0.500 l1:1=0.033 l1:1=0.033 l1:2=0.500 l1:2=0.033 l1:2=0.033",
    "e1:1=7.00 s1:1=5.00 l1:1=-3.00 e2:1=7.00 s2:1=5.00" },
  /* tank 54 about 21 + 12: from 6 to 60, inside from 8; the mouth from 1.3: 4.7 of it outside, 2 under the
     wall */
  { "off the middle",
    "L1",
    { { "tank-1", "offset_mm", 12.0 } },
    "s1:1=0.051 o1:1=0.116",
    "e1:1=7.00 s1:1=-7.00 e2:1=7.00 s2:1=5.00" },
  { "along a row",
    "L2 r2 a1:21",
    { { NULL } },
    "b1:1/2=0.051 b1:2/2=0.051",
    "b1:1/2=-21.00 e1:1=7.00 s1:1=5.00 e2:1=7.00 s2:1=5.00" },
};

static void
spell_one (GString *text, TwCoverKind kind, TwHeader header, guint tube, guint row, guint n_rows)
{
  g_string_append_printf (text, "%s%c%d:%u", text->len > 0 ? " " : "", "beslo"[kind], header + 1, tube);
  if (n_rows > 1 && kind == TW_COVER_BAFFLE)
    g_string_append_printf (text, "/%u", row);
}

static void
test_case (gconstpointer data)
{
  const Case *c = data;
  g_autoptr (TwJob) job = draw (c->drawn);
  g_autoptr (GString) covers = g_string_new (NULL), lands = g_string_new (NULL);
  char figure[G_ASCII_DTOSTR_BUF_SIZE];
  Found found;

  for (guint i = 0; i < 2; i++)
    if (c->set[i].part != NULL)
      tw_make_set_number (job, c->set[i].part, c->set[i].field, c->set[i].value);
  found = find (job);
  for (guint i = 0; i < tw_tubes_n_covers (found.tubes); i++) {
    const TwCover *cover = tw_tubes_cover (found.tubes, i);

    spell_one (covers, cover->kind, cover->header, cover->tube, cover->row,
               tw_tubes_grid (found.tubes, 0)->n_rows);
    g_string_append_printf (covers, "=%s", g_ascii_formatd (figure, sizeof figure, "%.3f", cover->share));
  }
  for (guint i = 0; i < tw_tubes_n_lands (found.tubes); i++) {
    const TwLand *land = tw_tubes_land (found.tubes, i);

    spell_one (lands, land->kind, land->header, land->tube, land->row,
               tw_tubes_grid (found.tubes, 0)->n_rows);
    g_string_append_printf (lands, "=%s", g_ascii_formatd (figure, sizeof figure, "%.2f", land->land_mm));
  }
  g_assert_cmpstr (covers->str, ==, c->covers);
  g_assert_cmpstr (lands->str, ==, c->lands);
  found_clear (&found);
}

static void
add (const char *what, const char *name, gconstpointer data, GTestDataFunc test)
{
  g_autofree char *path = g_strconcat ("/layout/tubes/", what, name, NULL);

  g_test_add_data_func (path, data, test);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (mouths); i++)
    add ("mouth: ", mouths[i].name, &mouths[i], test_mouth);
  for (guint i = 0; i < G_N_ELEMENTS (grids); i++)
    add ("grid: ", grids[i].name, &grids[i], test_grid);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    add ("", cases[i].name, &cases[i], test_case);
  g_test_add_func ("/layout/tubes/round mouth", test_round_mouth);
  g_test_add_func ("/layout/tubes/unknown", test_unknown);
  return g_test_run ();
}
