/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The proof: on every page of the samples, of awkward jobs and of random ones nothing overlaps: no text,
 * dimension or leader, frame or title block; and what is planted on a real page is found.
 */
#include "sheets/desk.h"

#include <string.h>

static void
test_sample (gconstpointer data)
{
  g_autoptr (TwJob) job = desk_sample (data);
  Desk desk = desk_open ();

  g_assert_cmpuint (desk_prove (&desk, data, job), ==, 0);
  desk_close (&desk);
}

static void
test_random (void)
{
  desk_prove_random (1);
}

/* An empty job and one with a bay alone have sheets too. */
static void
test_nearly_empty (void)
{
  g_autoptr (TwJob) job = tw_job_new ();
  const TwMakeBox box = { -100, 0, -100, 100, 200, 300 };
  Desk desk = desk_open ();

  g_assert_cmpuint (desk_prove (&desk, "empty", job), ==, 0);
  tw_make_box (job, TW_DRAWN_FRONT, -1, &box);
  g_assert_cmpuint (desk_prove (&desk, "bay alone", job), ==, 0);
  desk_close (&desk);
}

/* --- awkward jobs -----------------------------------------------------------------------------------------
 */

/* Changes of the tail sample: `part.field=value`, in order. */
typedef struct {
  const char *name;
  const char *changes[8];
} Awkward;

static const Awkward awkward[] = {
  { "one-tube", { "core.tube_count=1", "core.face_height_mm=40", "core.first_tube_mm=20" } },
  { "400-tubes",
    { "core.tube_count=400", "core.tube_pitch_mm=4", "core.face_height_mm=1640", "core.y_mm=1100" } },
  { "rolled", { "core.roll_deg=12", "core.heading_deg=25" } },
  { "on-its-back", { "core.lean_deg=90" } },
  { "upside-down", { "core.turn_deg=180", "core.roll_deg=-90" } },
  { "inches", { "job.shown_in=in" } },
  { "decimals", { "job.shown_in=in", "job.inch_figures=decimals" } },
  { "third-angle", { "job.projection=third" } },
  { "half-round", { "left-tank.back=half-round", "right-tank.lip_mm=12", "core.header_lip_mm=8" } },
  { "long-names",
    { "job.name=Kühler für den außergewöhnlich langen Wagen der Mannschaft 散热器总成图纸 第二版, auch zum "
      "Abdrucken",
      "left-tank.name=Linker Wasserkasten 左水箱 aus Aluminiumblech, gekantet, dicht geschweißt und "
      "abgedrückt",
      "inlet.name=Vorlaufstutzen links oben 入口 mit sehr langem Namen",
      "job.owner=株式会社ラジエーター製作所 Größe" } },
};

static void
change (TwJob *job, const char *text)
{
  g_auto (GStrv) sides = g_strsplit (text, "=", 2);
  g_auto (GStrv) names = g_strsplit (sides[0], ".", 2);

  tw_make_set (job, names[0], names[1], sides[1]);
}

static void
test_awkward (gconstpointer data)
{
  const Awkward *a = data;
  g_autoptr (TwJob) job = desk_sample ("merlin-tail");
  Desk desk = desk_open ();

  for (guint i = 0; i < G_N_ELEMENTS (a->changes) && a->changes[i] != NULL; i++)
    change (job, a->changes[i]);
  g_assert_cmpuint (desk_prove (&desk, a->name, job), ==, 0);
  desk_close (&desk);
}

/* More ports than there is room for beside the tanks: tables go on to further pages, each proved. */
static void
test_many_ports (void)
{
  g_autoptr (TwJob) job = tw_make_job (TW_TUBES_LEVEL, 40);
  Desk desk = desk_open ();
  g_autoptr (GPtrArray) sheets = NULL;

  for (guint i = 0; i < 60; i++)
    tw_make_port (job, i < 30 ? "tank-1" : "tank-2", TW_PORT_SPARE, TW_WALL_AIR_IN, -190.0 + 13.0 * (i % 30));
  sheets = desk_sheets (&desk, job);
  g_assert_cmpuint (desk_count_faults ("many ports", sheets), ==, 0);
  g_assert_cmpuint (sheets->len, >, 2);
  desk_close (&desk);
}

/* --- planted on a real page -------------------------------------------------------------------------------
 */

static const TwInkStyle leader = { TW_INK_PEN_LEADER, TW_INK_TINT_INK, "planted", { "" } };

/* The first item of a kind and pen, on a layer; G_MAXUINT pen for any. */
static const TwInkItem *
find_item (const TwSheet *sheet, TwInkKind kind, guint pen, const char *layer)
{
  for (guint i = 0; i < tw_ink_count (sheet->ink); i++) {
    const TwInkItem *item = tw_ink_get (sheet->ink, i);

    if (item->kind == kind && (pen == G_MAXUINT || item->style.pen == pen)
        && g_str_equal (item->style.layer, layer))
      return item;
  }
  g_assert_not_reached ();
}

/* The page with one thing more. */
static void
assert_found (const Desk *desk, const TwSheet *sheet, const TwInk *planted, TwPlaceFault fault)
{
  TwBox block = tw_paper_title_box (sheet->size, FALSE);
  g_autoptr (TwInk) ink = tw_ink_new ();
  g_autoptr (TwPlace) place = tw_place_new (&tw_paper (sheet->size)->frame, &sheet->look, &desk->measure);
  g_autoptr (GArray) faults = NULL;
  gboolean found = FALSE;

  tw_place_add_block (place, &block, TW_PAPER_TITLE_LAYER);
  tw_ink_append_items (ink, sheet->ink, 0, tw_ink_count (sheet->ink));
  tw_ink_append_items (ink, planted, 0, tw_ink_count (planted));
  tw_place_take (place, ink, 0);
  faults = tw_place_check (place);
  for (guint i = 0; i < faults->len; i++)
    found |= g_array_index (faults, TwPlaceCollision, i).fault == fault;
  g_assert_true (found);
}

static void
plant_text (TwInk *ink, TwPoint at, const char *text)
{
  const TwInkPlace place = { at, TW_INK_SIZE_NOTE, TW_INK_CENTRE, TW_INK_MIDDLE, FALSE };

  tw_ink_text (ink, &leader, &place, text);
}

static void
test_planted (void)
{
  g_autoptr (TwJob) job = desk_sample ("merlin-tail");
  Desk desk = desk_open ();
  g_autoptr (GPtrArray) sheets = desk_sheets (&desk, job);
  const TwSheet *sheet = g_ptr_array_index (sheets, 0);
  const TwInkItem *figure = find_item (sheet, TW_INK_TEXT, G_MAXUINT, "dimension");
  const TwInkItem *line = find_item (sheet, TW_INK_LINE, TW_INK_PEN_DIMENSION, "dimension");
  TwPoint from = line->corners[0].at, to = line->corners[1].at;
  TwPoint middle = { (from.x_mm + to.x_mm) / 2, (from.y_mm + to.y_mm) / 2 };
  TwPoint figure_at = figure->place.at;
  const TwBox *frame = &tw_paper (sheet->size)->frame;

  for (guint i = 0; i < 5; i++) {
    g_autoptr (TwInk) ink = tw_ink_new ();

    switch (i) {
    case TW_PLACE_TEXT_ON_TEXT:
      plant_text (ink, figure_at, "88");
      break;
    case TW_PLACE_LINE_THROUGH_TEXT:
      tw_ink_line (ink, &leader, (TwPoint){ figure_at.x_mm - 20, figure_at.y_mm - 20 },
                   (TwPoint){ figure_at.x_mm + 20, figure_at.y_mm + 20 });
      break;
    case TW_PLACE_DIMENSION_CROSSED:
      tw_ink_line (ink, &leader, (TwPoint){ middle.x_mm - 3, middle.y_mm - 2.5 },
                   (TwPoint){ middle.x_mm + 3, middle.y_mm + 2 });
      break;
    case TW_PLACE_OUTSIDE:
      plant_text (ink, (TwPoint){ frame->x0_mm + 1, frame->y1_mm - 30 }, "beyond");
      break;
    default:
      plant_text (ink, (TwPoint){ frame->x1_mm - 90, frame->y0_mm + 40 }, "on the block");
    }
    assert_found (&desk, sheet, ink, (TwPlaceFault)i);
  }
  desk_close (&desk);
}

int
main (int argc, char *argv[])
{
  static const char *const samples[] = { "merlin-tail", "caravan-4", "volt-9", "ox", "merlin-boot" };

  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (samples); i++) {
    g_autofree char *path = g_strdup_printf ("/sheets/proof/%s", samples[i]);

    g_test_add_data_func (path, samples[i], test_sample);
  }
  g_test_add_func ("/sheets/proof/nearly-empty", test_nearly_empty);
  for (guint i = 0; i < G_N_ELEMENTS (awkward); i++) {
    g_autofree char *path = g_strdup_printf ("/sheets/proof/%s", awkward[i].name);

    g_test_add_data_func (path, &awkward[i], test_awkward);
  }
  g_test_add_func ("/sheets/proof/many-ports", test_many_ports);
  g_test_add_func ("/sheets/proof/planted", test_planted);
  g_test_add_func ("/sheets/proof/random-first-half", test_random);
  return g_test_run ();
}
