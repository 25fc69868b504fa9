/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * First layouts: sizes worked by hand from the rule that the header states, and what a bay that is too small
 * is told.
 */
#include "job/drawing.h"
#include "job/read.h"
#include "job/write.h"
#include "propose/first-layout.h"

#include <math.h>
#include <string.h>

static TwCatalogue *
catalogue (void)
{
  g_autoptr (GError) error = NULL;
  TwCatalogue *made = tw_catalogue_load (&error);

  g_assert_no_error (error);
  return made;
}

/* Of the kind `single-row-fine`: pitch 10, thickness 42, header plate 54 wide, 2 thick, reach 6, tank
 * depth 50. */
typedef struct {
  const char *name;
  double width_mm, height_mm, depth_mm;
  int tubes;
  double face_width_mm, face_height_mm; /* 0: refused */
  guint n_fans;
  const char *refused;
} Case;

static const Case cases[] = {
  /* level: along = 430 − 2·(10 + 6) − 2·12 = 374 → 37 tubes, 370; across = 920 − 2·(10 + 2 + 50) = 796.
   * Depth: 6 + 40 before, 42 + 40 + 65 behind, 2·10 clear = 213 ≤ 700. Mouth 786 × 360, swept 360 − 14 = 346,
   * as many as 786 / 360 = 2 fans. */
  { "tail", 920, 430, 700, -1, 796, 370, 2, NULL },
  /* 212 deep: no room for fans, the plate alone needs 6 + 40 + 42 + 6 + 20 = 114. */
  { "shallow", 920, 430, 212, -1, 796, 370, 0, NULL },
  { "just-too-shallow", 920, 430, 113, -1, 0, 0, 0, "depth is 1 mm too small" },
  /* upright: along = 300 − 32 = 268 → 26 tubes; across = 600 − 124 − 24 = 452; mouth 250 × 442: swept 236,
   * 442 / 250 = 1 fan. */
  { "tall", 300, 600, 400, -1, 260, 452, 1, NULL },
  /* the same said level: along = 600 − 32 − 24 = 544 → 54 tubes; across = 300 − 124 = 176; mouth 166: swept
   * 152, 530 / 166 = 3 fans. */
  { "tall-level", 300, 600, 400, TW_TUBES_LEVEL, 176, 540, 3, NULL },
  { "low", 900, 95, 400, -1, 0, 0, 0, "height is 1 mm too small" },
  { "narrow", 183, 183, 400, TW_TUBES_LEVEL, 0, 0, 0, "width is 1 mm too small" },
  { "no-width", (double)NAN, 430, 700, -1, 0, 0, 0, "bay width" },
  { "negative", 920, -430, 700, -1, 0, 0, 0, "bay height" },
  { "endless", 920, 430, (double)INFINITY, -1, 0, 0, 0, "bay depth" },
};

static void
test_case (gconstpointer data)
{
  const Case *c = data;
  g_autoptr (TwCatalogue) entries = catalogue ();
  TwFirstLayoutWish wish = tw_first_layout_wish ();
  g_autoptr (GError) error = NULL;
  g_autoptr (TwJob) job = NULL;
  const TwCore *core;

  wish.bay_width_mm = c->width_mm;
  wish.bay_height_mm = c->height_mm;
  wish.bay_depth_mm = c->depth_mm;
  wish.tubes = c->tubes;
  wish.core_kind = "single-row-fine";
  job = tw_first_layout (&wish, entries, &error);
  if (c->refused != NULL) {
    g_assert_null (job);
    g_assert_nonnull (strstr (error->message, c->refused));
    return;
  }
  g_assert_no_error (error);
  core = (const TwCore *)tw_job_get (job, TW_KIND_CORE, 0);
  g_assert_cmpfloat (core->face_width_mm, ==, c->face_width_mm);
  g_assert_cmpfloat (core->face_height_mm, ==, c->face_height_mm);
  g_assert_cmpuint (tw_job_count (job, TW_KIND_FAN), ==, c->n_fans);
}

/* What is made is a job like any other: written, it reads without a trouble. */
static void
test_reads_back (void)
{
  g_autoptr (TwCatalogue) entries = catalogue ();
  TwFirstLayoutWish wish = tw_first_layout_wish ();
  g_autoptr (TwTroubles) troubles = tw_troubles_new ();
  g_autoptr (TwJob) job = NULL, read = NULL;
  g_autofree char *text = NULL;

  wish.bay_width_mm = 920;
  wish.bay_height_mm = 430;
  wish.bay_depth_mm = 700;
  wish.heat_kw = 42;
  wish.name = "Tail";
  wish.shown_in = TW_SHOWN_IN_INCH;
  job = tw_first_layout (&wish, entries, NULL);
  text = tw_job_write_text (job);
  read = tw_job_read_text (text, strlen (text), troubles);
  g_assert_cmpuint (troubles->n, ==, 0);
  g_assert_true (tw_job_equal (job, read));
  g_assert_cmpfloat (tw_job_settings (read)->heat_kw, ==, 42);
}

static void
test_unknown_kind (void)
{
  g_autoptr (TwCatalogue) entries = catalogue ();
  TwFirstLayoutWish wish = tw_first_layout_wish ();
  g_autoptr (GError) error = NULL;

  wish.bay_width_mm = wish.bay_height_mm = wish.bay_depth_mm = 500;
  wish.core_kind = "no-such-kind";
  g_assert_null (tw_first_layout (&wish, entries, &error));
  g_assert_nonnull (strstr (error->message, "no-such-kind"));
  g_assert_nonnull (strstr (error->message, "single-row-fine"));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *path = g_strdup_printf ("/propose/first-layout/%s", cases[i].name);

    g_test_add_data_func (path, &cases[i], test_case);
  }
  g_test_add_func ("/propose/first-layout/reads-back", test_reads_back);
  g_test_add_func ("/propose/first-layout/unknown-kind", test_unknown_kind);
  return g_test_run ();
}
