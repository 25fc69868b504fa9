/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * test-arrange.c - several parts at once; worked by hand on the stand of laid.h. Round solids are polygons of
 * the same area, so that their boxes are a few microns larger: figures are compared to a hundredth.
 */
#include "stage/arrange.h"
#include "stage/extent.h"
#include "stage/laid.h"

#include "base/error.h"

#include <math.h>

typedef struct {
  TwId ids[64];
  TwArrangeSet set;
  TwStageView view;
} Chosen;

static void
choose (Chosen *self, Laid *laid, int view, const char *const *ids)
{
  self->view = laid_view (laid, view);
  self->set = (TwArrangeSet){ laid->job, laid->placement, &self->view, self->ids, 0, "Step" };
  for (guint i = 0; ids[i] != NULL; i++)
    self->ids[self->set.n++] = laid_id (ids[i]);
}

/* Does it, if there is anything to do. */
static void
carry_out (Laid *laid, TwChange *change)
{
  g_autoptr (GError) error = NULL;

  g_assert_nonnull (change);
  g_assert_true (tw_history_do (laid->history, change, &error));
  g_assert_no_error (error);
  laid_again (laid);
}

/* --- aligning and spacing ------------------------------------------------------------------------------- */

typedef struct {
  const char *name;
  const char *ids[4];
  int view;
  TwAlign align;
  const char *part;
  const char *field;
  double value_mm;
  const char *refusal;
} Align;

/* Engine ports are stubs of 32 along z: their boxes in Front are 32 × 32 round their places. Header tank: 100
 * × 60 round (200, 260). */
static const Align aligns[] = {
  { "left", { "engine_port-2", "header_tank-1" }, FRONT, TW_ALIGN_LEFT, "engine_port-2", "x_mm", 166, NULL },
  { "middle",
    { "engine_port-2", "header_tank-1" },
    FRONT,
    TW_ALIGN_MIDDLE,
    "engine_port-2",
    "x_mm",
    200,
    NULL },
  { "right",
    { "engine_port-2", "header_tank-1" },
    FRONT,
    TW_ALIGN_RIGHT,
    "engine_port-2",
    "x_mm",
    234,
    NULL },
  { "top", { "engine_port-2", "header_tank-1" }, FRONT, TW_ALIGN_TOP, "engine_port-2", "y_mm", 274, NULL },
  { "bottom",
    { "engine_port-2", "header_tank-1" },
    FRONT,
    TW_ALIGN_BOTTOM,
    "engine_port-2",
    "y_mm",
    246,
    NULL },
  { "centre-of-volume",
    { "volume-2", "header_tank-1" },
    FRONT,
    TW_ALIGN_CENTRE,
    "volume-2",
    "from_mm",
    210,
    NULL },
  { "baffle-across", { "baffle-1", "header_tank-1" }, FRONT, TW_ALIGN_LEFT, NULL, NULL, 0, "baffle-1" },
  { "one-alone", { "header_tank-1" }, FRONT, TW_ALIGN_LEFT, NULL, NULL, 0, "2" },
  { "too-far", { "fan-1", "engine_port-1" }, FRONT, TW_ALIGN_LEFT, "fan-1", "u_mm", 220, NULL },
  { "aligned-already", { "engine_port-1", "engine_port-2" }, FRONT, TW_ALIGN_TOP, NULL, NULL, 0, "already" },
};

static void
test_align (gconstpointer data)
{
  const Align *c = data;
  g_autoptr (GError) error = NULL;
  g_autofree char *before = NULL, *after = NULL;
  TwChange *change;
  Chosen chosen;
  Laid laid;

  laid_out (&laid, laid_stand ());
  before = tw_job_write_text (laid.job);
  choose (&chosen, &laid, c->view, c->ids);
  change = tw_arrange_align (&chosen.set, c->align, &error);
  if (c->refusal != NULL) {
    g_assert_null (change);
    g_assert_nonnull (strstr (error->message, c->refusal));
  } else {
    carry_out (&laid, change);
    g_assert_cmpfloat_with_epsilon (laid_figure (&laid, c->part, c->field), c->value_mm, 1e-2);
    tw_history_undo (laid.history);
  }
  after = tw_job_write_text (laid.job);
  g_assert_cmpstr (after, ==, before);
  laid_away (&laid);
}

/* Stubs 32 wide at 0 and 150, the tank of 100 round 420: middles at equal steps 210, or gaps: from 16 to 370
 * there are 354, less the 32 between: 161 each, so its middle lies at 16 + 161 + 16 = 193. */
static void
test_space (void)
{
  const char *const ids[] = { "engine_port-1", "header_tank-1", "engine_port-2", NULL };

  for (guint centres = 0; centres < 2; centres++) {
    Chosen chosen;
    Laid laid;

    laid_out (&laid, laid_stand ());
    tw_make_set_number (laid.job, "header_tank-1", "x_mm", 420);
    laid_again (&laid);
    choose (&chosen, &laid, FRONT, ids);
    carry_out (&laid, tw_arrange_space (&chosen.set, FALSE, centres, NULL));
    g_assert_cmpfloat_with_epsilon (laid_figure (&laid, "engine_port-1", "x_mm"), centres ? 210 : 193, 1e-2);
    laid_away (&laid);
  }
}

/* --- mirroring ------------------------------------------------------------------------------------------ */

typedef struct {
  const char *name;
  const char *ids[4];
  TwMirrorAbout about;
  const char *part;
  const char *fields[3];
  double values_mm[3];
} Mirror;

static const Mirror mirrors[] = {
  { "fan", { "fan-1" }, TW_MIRROR_JOB, "fan-1", { "u_mm", "v_mm" }, { 90, 0 } },
  { "flap", { "shroud-1" }, TW_MIRROR_JOB, "shroud-1", { "flap-1/u_mm", "flap-1/v_mm" }, { -120, 100 } },
  { "engine-port", { "engine_port-1" }, TW_MIRROR_JOB, "engine_port-1", { "x_mm", "y_mm" }, { -150, -250 } },
  { "volume-plan",
    { "volume-2" },
    TW_MIRROR_JOB,
    "volume-2",
    { "corner-1/across_mm", "corner-2/across_mm", "from_mm" },
    { -300, -380, -200 } },
  { "hose", { "hose-1" }, TW_MIRROR_JOB, "hose-1", { "via-2/x_mm", "via-2/y_mm" }, { 300, 50 } },
  { "vessel", { "header_tank-1" }, TW_MIRROR_JOB, "header_tank-1", { "x_mm", "y_mm" }, { -200, 260 } },
  /* stub from 134 to 166 and tank from 150 to 250: the middle is 192, so 150 becomes 234 and 200 184 */
  { "set", { "engine_port-1", "header_tank-1" }, TW_MIRROR_SET, "engine_port-1", { "x_mm" }, { 234 } },
};

static void
test_mirror (gconstpointer data)
{
  const Mirror *c = data;
  g_autofree char *before = NULL, *after = NULL;
  Chosen chosen;
  Laid laid;

  laid_out (&laid, laid_stand ());
  before = tw_job_write_text (laid.job);
  choose (&chosen, &laid, FRONT, c->ids);
  carry_out (&laid, tw_arrange_mirror (&chosen.set, c->about, NULL));
  for (guint i = 0; i < 3 && c->fields[i] != NULL; i++)
    g_assert_cmpfloat_with_epsilon (laid_figure (&laid, c->part, c->fields[i]), c->values_mm[i], 1e-2);
  choose (&chosen, &laid, FRONT, c->ids);
  carry_out (&laid, tw_arrange_mirror (&chosen.set, c->about, NULL));
  after = tw_job_write_text (laid.job);
  g_assert_cmpstr (after, ==, before);
  laid_away (&laid);
}

/* A tank goes over with what is in it; a port alone goes to the tank over there. */
static void
test_mirror_tanks (void)
{
  const char *const tanks[] = { "tank-1", "tank-2", NULL }, *const port[] = { "port-1", NULL };
  g_autoptr (GError) error = NULL;
  Chosen chosen;
  Laid laid;

  laid_out (&laid, laid_stand ());
  choose (&chosen, &laid, FRONT, tanks);
  carry_out (&laid, tw_arrange_mirror (&chosen.set, TW_MIRROR_CORE, NULL));
  g_assert_cmpint (((const TwTank *)tw_job_find (laid.job, laid_id ("tank-1")))->side, ==, TW_SIDE_RIGHT);
  g_assert_cmpint (((const TwTank *)tw_job_find (laid.job, laid_id ("tank-2")))->side, ==, TW_SIDE_LEFT);
  choose (&chosen, &laid, FRONT, port);
  carry_out (&laid, tw_arrange_mirror (&chosen.set, TW_MIRROR_CORE, NULL));
  g_assert_cmpstr (((const TwPort *)tw_job_find (laid.job, laid_id ("port-1")))->tank.text, ==, "tank-2");
  carry_out (&laid, tw_change_remove_whole (laid.job, laid_id ("tank-1")));
  choose (&chosen, &laid, FRONT, port);
  g_assert_null (tw_arrange_mirror (&chosen.set, TW_MIRROR_CORE, &error));
  g_assert_nonnull (strstr (error->message, "port-1"));
  laid_away (&laid);
}

/* All of a job that says everything, twice, about x = 0: as before to the byte. */
static void
test_mirror_samples (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (laid_samples); i++) {
    g_autofree char *before = NULL, *after = NULL;
    Chosen chosen;
    Laid laid;

    laid_out (&laid, laid_sample (laid_samples[i]));
    before = tw_job_write_text (laid.job);
    for (guint twice = 0; twice < 2; twice++) {
      const char *const none[] = { NULL };

      choose (&chosen, &laid, FRONT, none);
      for (guint kind = TW_KIND_SETTINGS + 1; kind < TW_FIRST_ELEMENT; kind++)
        for (guint k = 0; k < tw_job_count (laid.job, kind); k++)
          chosen.ids[chosen.set.n++] = tw_job_get (laid.job, kind, k)->id;
      carry_out (&laid, tw_arrange_mirror (&chosen.set, TW_MIRROR_JOB, NULL));
    }
    after = tw_job_write_text (laid.job);
    g_assert_cmpstr (after, ==, before);
    laid_away (&laid);
  }
}

/* --- copies --------------------------------------------------------------------------------------------- */

static void
test_duplicate (void)
{
  const char *const ids[] = { "tank-1", "engine_port-1", NULL }, *const hose[] = { "hose-1", NULL };
  g_autofree char *before = NULL, *after = NULL;
  g_autoptr (GArray) made = NULL;
  g_autoptr (GError) error = NULL;
  Chosen chosen;
  Laid laid;

  laid_out (&laid, laid_stand ());
  tw_make_set (laid.job, "port-1", "name", "Inlet");
  tw_make_set (laid.job, "port-2", "name", "Inlet 2");
  laid_again (&laid);
  before = tw_job_write_text (laid.job);
  choose (&chosen, &laid, FRONT, ids);
  carry_out (&laid, tw_arrange_duplicate (&chosen.set, (TwPoint){ 20, -20 }, &made, NULL));
  g_assert_cmpuint (made->len, ==, 2);
  g_assert_cmpstr (g_array_index (made, TwId, 0).text, ==, "tank-3");
  g_assert_cmpstr (g_array_index (made, TwId, 1).text, ==, "engine_port-3");
  /* the tank goes along its header, what is in it belongs to it, and the hose between the two goes along */
  g_assert_cmpfloat_with_epsilon (laid_figure (&laid, "tank-3", "start_mm"), -225, 1e-9);
  g_assert_cmpfloat_with_epsilon (laid_figure (&laid, "engine_port-3", "x_mm"), 170, 1e-9);
  g_assert_cmpstr (((const TwBaffle *)tw_job_find (laid.job, laid_id ("baffle-2")))->tank.text, ==, "tank-3");
  g_assert_cmpstr (((const TwHose *)tw_job_find (laid.job, laid_id ("hose-2")))->to.text, ==, "port-3");
  g_assert_cmpstr (tw_part_name (tw_job_find (laid.job, laid_id ("port-3"))), ==, "Inlet 3");
  tw_history_undo (laid.history);
  after = tw_job_write_text (laid.job);
  g_assert_cmpstr (after, ==, before);

  laid_again (&laid);
  choose (&chosen, &laid, FRONT, hose);
  g_clear_pointer (&made, g_array_unref);
  g_assert_null (tw_arrange_duplicate (&chosen.set, (TwPoint){ 20, -20 }, &made, &error));
  g_assert_nonnull (strstr (error->message, "hose-1"));
  laid_away (&laid);
}

static void
test_remove_and_order (void)
{
  const char *const ids[] = { "tank-1", "port-1", "fan-1", NULL }, *const order[] = { "volume-3", NULL };
  g_autofree char *before = NULL, *after = NULL;
  Chosen chosen;
  Laid laid;

  laid_out (&laid, laid_stand ());
  before = tw_job_write_text (laid.job);
  choose (&chosen, &laid, FRONT, ids);
  carry_out (&laid, tw_arrange_remove (&chosen.set, NULL));
  g_assert_null (tw_job_find (laid.job, laid_id ("baffle-1")));
  g_assert_null (tw_job_find (laid.job, laid_id ("hose-1")));
  g_assert_cmpuint (tw_job_count (laid.job, TW_KIND_FAN), ==, 0);
  tw_history_undo (laid.history);
  laid_again (&laid);
  choose (&chosen, &laid, FRONT, order);
  carry_out (&laid, tw_arrange_reorder (&chosen.set, TRUE, NULL));
  g_assert_cmpstr (tw_job_get (laid.job, TW_KIND_VOLUME, 0)->id.text, ==, "volume-3");
  choose (&chosen, &laid, FRONT, order);
  carry_out (&laid, tw_arrange_reorder (&chosen.set, FALSE, NULL));
  after = tw_job_write_text (laid.job);
  g_assert_cmpstr (after, ==, before);
  laid_away (&laid);
}

static void
test_extents (void)
{
  TwStageView face;
  TwBox box;
  Laid laid;

  laid_out (&laid, laid_stand ());
  face = laid_view (&laid, FACE);
  box = tw_extent_seen (laid.placement, &face, laid_id ("tank-1"), TW_EXTENT_PART);
  g_assert_cmpfloat_with_epsilon (box.x0_mm, -252, 1e-9);
  g_assert_cmpfloat_with_epsilon (box.x1_mm, -202, 1e-9);
  g_assert_cmpfloat_with_epsilon (box.y1_mm, 205, 1e-9);
  /* the assembly with its stubs */
  g_assert_cmpfloat_with_epsilon (tw_extent_box (laid.placement, laid_id ("core-1")).from.x, -292, 1e-9);
  laid_away (&laid);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (aligns); i++) {
    g_autofree char *path = g_strconcat ("/stage/align/", aligns[i].name, NULL);

    g_test_add_data_func (path, &aligns[i], test_align);
  }
  for (guint i = 0; i < G_N_ELEMENTS (mirrors); i++) {
    g_autofree char *path = g_strconcat ("/stage/mirror/", mirrors[i].name, NULL);

    g_test_add_data_func (path, &mirrors[i], test_mirror);
  }
  g_test_add_func ("/stage/space", test_space);
  g_test_add_func ("/stage/mirror/tanks", test_mirror_tanks);
  g_test_add_func ("/stage/mirror/samples", test_mirror_samples);
  g_test_add_func ("/stage/duplicate", test_duplicate);
  g_test_add_func ("/stage/remove-and-order", test_remove_and_order);
  g_test_add_func ("/stage/extents", test_extents);
  return g_test_run ();
}
