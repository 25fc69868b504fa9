/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What an element put between two others says, by hand; and that undoing takes all of it back.
 */
#include "laid.h"
#include "stage/add-between.h"

#include <math.h>
#include <string.h>

static const char text[]
    = "{\"tankwright-job\": 1,"
      " \"volumes\": [{\"id\": \"bay\", \"use\": \"free\", \"from_mm\": 0, \"to_mm\": 300, \"outline\": ["
      "   {\"id\": \"corner-1\", \"across_mm\": 0, \"up_mm\": 0}, {\"id\": \"corner-2\", \"across_mm\": 100, "
      "\"up_mm\": 0},"
      "   {\"id\": \"corner-3\", \"across_mm\": 100, \"up_mm\": 60}, {\"id\": \"corner-4\", \"across_mm\": "
      "0, \"up_mm\": 60}]},"
      "  {\"id\": \"drum\", \"from_mm\": 0, \"to_mm\": 9, \"outline\": ["
      "   {\"id\": \"corner-1\", \"across_mm\": 0, \"up_mm\": 0, \"bow_mm\": 50},"
      "   {\"id\": \"corner-2\", \"across_mm\": 100, \"up_mm\": 0, \"bow_mm\": 50}]}],"
      " \"cores\": [{\"id\": \"core\", \"face_width_mm\": 600, \"face_height_mm\": 300, \"plugged\": ["
      "   {\"id\": \"plug-1\", \"tube\": 3}, {\"id\": \"plug-2\", \"tube\": 4, \"row\": 1}]}],"
      " \"shrouds\": [{\"id\": \"shroud\", \"core\": \"core\", \"flaps\": ["
      "   {\"id\": \"flap-1\", \"u_mm\": -200, \"v_mm\": 80, \"width_mm\": 60, \"height_mm\": 40}]}],"
      " \"fans\": [{\"id\": \"fan\", \"core\": \"core\", \"curve\": ["
      "   {\"id\": \"curve_point-1\", \"flow_m3_s\": 0, \"pressure_pa\": 200},"
      "   {\"id\": \"curve_point-2\", \"flow_m3_s\": 0.5, \"pressure_pa\": 150},"
      "   {\"id\": \"curve_point-3\", \"flow_m3_s\": 1, \"pressure_pa\": 50}]}],"
      " \"engine_ports\": [{\"id\": \"out\", \"leaves\": \"right\", \"stand_out_mm\": 30, \"outside_mm\": "
      "38},"
      "   {\"id\": \"in\", \"x_mm\": 130, \"y_mm\": 500, \"leaves\": \"down\", \"stand_out_mm\": 20, "
      "\"outside_mm\": 38}],"
      " \"hoses\": [{\"id\": \"run\", \"from\": \"out\", \"to\": \"in\", \"bore_mm\": 38, "
      "\"bend_radius_mm\": 60, \"vias\": ["
      "   {\"id\": \"via-1\", \"x_mm\": 130, \"y_mm\": 0, \"z_mm\": 0}, {\"id\": \"via-2\", \"x_mm\": 130, "
      "\"y_mm\": 200, \"z_mm\": 0}]}]}";

/* Half an arc of 180° with a radius of 50: 50·(1 − cos 45°) */
#define HALF_BOW 14.644660940672622 /* rounded to a nanometre in the job */

/* clang-format off */
static const struct {
  const char *part;
  guint list, nth;
  double says[4]; /* by field, NAN: nothing */
} cases[] = {
  { "bay", 0, 1, { 50, 0, (double)NAN } },       /* between corners 1 and 2 */
  { "bay", 0, 4, { 0, 30, (double)NAN } },       /* behind the last: on the edge back to the first */
  { "bay", 0, 0, { 0, 30, (double)NAN } },
  { "drum", 0, 1, { 50, -50, HALF_BOW } },       /* a positive bow is to the right of the way: down */
  { "drum", 0, 2, { 50, 50, HALF_BOW } },
  { "run", 0, 1, { 130, 100, 0, (double)NAN } },
  { "run", 0, 0, { 80, 0, 0, (double)NAN } },    /* half the way from the stub's end at 30 */
  { "run", 0, 2, { 130, 340, 0, (double)NAN } }, /* to the stub's end at 500 − 20: (200 + 480) / 2 */
  { "fan", 0, 1, { 0.25, 175 } },
  { "fan", 0, 3, { 1.5, -50 } },                 /* the last step goes on: 1 + 0.5, 50 − 100 */
  { "fan", 0, 0, { 0, 250 } },                   /* no flow below 0 */
  { "shroud", 0, 1, { -130, 80, 60, 40 } },      /* −200 + 60 + 10 */
  { "shroud", 0, 0, { -270, 80, 60, 40 } },
  { "core", 0, 1, { 5, -1 } },                   /* 4 is plugged in row 1 */
  { "core", 0, 2, { 5, 1 } },
  { "core", 0, 0, { 2, -1 } },
};
/* clang-format on */

static double
said (const TwPart *element, guint field)
{
  TwValue value = tw_part_get (element, field);
  double number = value.store == TW_FIELD_COUNT ? value.choice : value.number;

  tw_value_clear (&value);
  return number;
}

static void
test_cases (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autoptr (TwTroubles) troubles = tw_troubles_new ();
    g_autoptr (GError) error = NULL;
    g_autofree char *before = NULL, *after = NULL;
    const TwPart *element;
    TwChange *change;
    TwId part, made;
    Laid laid;

    g_test_message ("%s at %u", cases[i].part, cases[i].nth);
    laid_out (&laid, tw_job_read_text (text, strlen (text), troubles));
    g_assert_cmpuint (troubles->n, ==, 0);
    before = tw_job_write_text (laid.job);
    g_assert_true (tw_id_from_text (cases[i].part, &part));
    change = tw_add_between (laid.job, laid.placement, part, cases[i].list, cases[i].nth, &made);
    tw_history_do (laid.history, change, &error);
    g_assert_no_error (error);
    element = g_ptr_array_index (tw_part_list (tw_job_find (laid.job, part), cases[i].list), cases[i].nth);
    g_assert_true (tw_id_equal (element->id, made));
    for (guint k = 0; k < tw_kind_info (element->kind)->n_fields; k++)
      g_assert_true (isnan (cases[i].says[k]) ? isnan (said (element, k))
                                              : fabs (said (element, k) - cases[i].says[k]) < 1e-6);
    tw_history_undo (laid.history);
    after = tw_job_write_text (laid.job);
    g_assert_cmpstr (after, ==, before);
    laid_away (&laid);
  }
}

/* Two arcs of the same circle stand where one stood. */
static void
test_arc_is_halved (void)
{
  g_autoptr (TwTroubles) troubles = tw_troubles_new ();
  TwId part, made;
  Laid laid;

  laid_out (&laid, tw_job_read_text (text, strlen (text), troubles));
  g_assert_true (tw_id_from_text ("drum", &part));
  g_assert_true (
      tw_history_do (laid.history, tw_add_between (laid.job, laid.placement, part, 0, 1, &made), NULL));
  g_assert_cmpfloat_with_epsilon (
      said (g_ptr_array_index (tw_part_list (tw_job_find (laid.job, part), 0), 0), TW_CORNER_bow_mm),
      HALF_BOW, 1e-6);
  laid_away (&laid);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/stage/between/cases", test_cases);
  g_test_add_func ("/stage/between/arc-is-halved", test_arc_is_halved);
  return g_test_run ();
}
