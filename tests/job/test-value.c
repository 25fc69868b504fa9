/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Values as a person types them: what is kept of the text, and what a refusal says.
 */
#include "job/change.h"
#include "job/parts.h"
#include "job/read.h"
#include "job/write.h"

#include <math.h>
#include <string.h>

static const TwUnitStyle mm = TW_UNIT_STYLE_MM, in = TW_UNIT_STYLE_IN;
static const TwUnitStyle comma = { .finest = 64, .decimal = ',' };
static const TwUnitStyle decimals = { .inches = TRUE, .finest = 64, .decimal = '.' };

static const TwField *
field (TwKind kind, guint nth)
{
  return &tw_kind_info (kind)->fields[nth];
}

/* clang-format off */
static const struct {
  TwKind kind;
  guint field;
  const TwUnitStyle *style;
  const char *text;
  double number;
  const char *typed; /* what is kept: the unit that was meant stands in it */
} kept[] = {
  { TW_KIND_CORE, TW_CORE_face_width_mm, &mm, "610", 610, "610 mm" },
  { TW_KIND_CORE, TW_CORE_face_width_mm, &in, "24 1/2", 622.3, "24 1/2" }, /* inches in any job */
  { TW_KIND_CORE, TW_CORE_face_width_mm, &in, "24.5", 622.3, "24.5 in" },
  { TW_KIND_CORE, TW_CORE_face_width_mm, &in, "1/3", 0, NULL },            /* 8.47 mm: below the range */
  { TW_KIND_CORE, TW_CORE_face_width_mm, &mm, "2 ft 3", 685.8, "2 ft 3" },
  { TW_KIND_CORE, TW_CORE_face_width_mm, &mm, "2' 3 1/2\"", 698.5, "2' 3 1/2\"" },
  { TW_KIND_CORE, TW_CORE_face_width_mm, &mm, "24,5 mm", 24.5, "24,5 mm" },
  { TW_KIND_CORE, TW_CORE_face_width_mm, &comma, "24,5", 24.5, "24,5 mm" },
  { TW_KIND_CORE, TW_CORE_face_width_mm, &comma, "12,250", 12.25, "12.250 mm" }, /* a file has no locale */
  { TW_KIND_CORE, TW_CORE_face_width_mm, &mm,
    "610.00000000000000000000000000000000000000000000000000000 mm", 610, /* 60 bytes are kept */
    "610.00000000000000000000000000000000000000000000000000000 mm" },
  { TW_KIND_CORE, TW_CORE_face_width_mm, &mm,
    "610.000000000000000000000000000000000000000000000000000000 mm", 610, NULL },
  { TW_KIND_HOSE, TW_HOSE_bore_mm, &mm, "-16", 25.4, "-16" },
  { TW_KIND_HOSE, TW_HOSE_bore_mm, &in, "-16", 25.4, "-16" },
  { TW_KIND_HOSE, TW_HOSE_bore_mm, &mm, "38", 38, "38 mm" },
  { TW_KIND_PORT, TW_PORT_outside_mm, &mm, "\u221212", 19.05, "\u221212" }, /* 12/16 in */
  { TW_KIND_TANK, TW_TANK_wall_mm, &mm, "0.080 in", 2.032, "0.080 in" },
};

static const struct {
  TwKind kind;
  guint field;
  const TwUnitStyle *style;
  const char *text;
  const char *says;
} refused[] = {
  { TW_KIND_CORE, TW_CORE_face_width_mm, &mm, "5",
    "face_width_mm: found 5, expected a length of 10 to 5000 mm" },
  /* 10 mm = 25.2/64 in, so 26/64 = 13/32; 5000 mm = 196.85 in = 196 54.4/64, so 27/32 */
  { TW_KIND_CORE, TW_CORE_face_width_mm, &in, "3/8",
    "face_width_mm: found 3/8, expected a length of 13/32 to 196 27/32 in" },
  /* 10 mm = 0.39370 in, 5000 mm = 196.85039 in */
  { TW_KIND_CORE, TW_CORE_face_width_mm, &decimals, "9 mm",
    "face_width_mm: found 9 mm, expected a length of 0.394 to 196.850 in" },
  /* 0.05 mm = 0.00197 in: no ruler's fraction says that; 5 mm = 0.19685 in */
  { TW_KIND_CORE, TW_CORE_tube_wall_mm, &in, "0.001",
    "tube_wall_mm: found 0.001, expected a length of 0.002 to 0.196 in" },
  { TW_KIND_HOSE, TW_HOSE_bore_mm, &mm, "-65", "bore_mm: found -65, expected a diameter of 1 to 300 mm" },
  { TW_KIND_HOSE, TW_HOSE_bore_mm, &mm, "-16 mm",
    "bore_mm: found -16 mm, expected a diameter of 1 to 300 mm" },
  { TW_KIND_CORE, TW_CORE_tube_count, &mm, "0", "tube_count: found 0, expected a whole number of 1 to 1000" },
  { TW_KIND_CORE, TW_CORE_face_width_mm, &mm, "seven",
    "face_width_mm: \"seven\" is not a length; accepted are figures like 610, 24 1/2 in, 2 ft 3, 61 cm" },
};
/* clang-format on */

static void
test_kept (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (kept); i++) {
    const TwField *info = field (kept[i].kind, kept[i].field);
    g_autoptr (GError) error = NULL;
    TwValue value;
    gboolean read = tw_value_parse (info, kept[i].style, kept[i].text, &value, &error);

    g_test_message ("%s", kept[i].text);
    g_assert_cmpint (read, ==, kept[i].number > 0);
    if (!read)
      continue;
    g_assert_cmpfloat (fabs (value.number - kept[i].number), <=, 1e-14 * kept[i].number);
    g_assert_cmpstr (value.typed, ==, kept[i].typed);
    tw_value_clear (&value);
  }
}

/* Whatever is kept can be read back from a file. */
static void
test_kept_is_read (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (kept); i++) {
    g_autoptr (TwJob) job = tw_job_new (), again = NULL;
    g_autoptr (TwTroubles) troubles = tw_troubles_new ();
    g_autoptr (TwChange) change = NULL, inverse = NULL;
    TwPart *core = tw_part_new (TW_KIND_CORE, TW_ID_NONE);
    g_autofree char *text = NULL;
    TwValue value;

    if (kept[i].kind != TW_KIND_CORE || kept[i].number == 0) {
      tw_part_unref (core);
      continue;
    }
    g_assert_true (
        tw_value_parse (field (kept[i].kind, kept[i].field), kept[i].style, kept[i].text, &value, NULL));
    tw_part_put (core, kept[i].field, &value);
    change = tw_change_add (core, -1);
    g_assert_true (tw_change_apply (change, job, &inverse, NULL));
    text = tw_job_write_text (job);
    again = tw_job_read_text (text, strlen (text), troubles);
    g_assert_cmpuint (troubles->n, ==, 0);
    g_assert_true (tw_job_equal (job, again));
  }
}

static void
test_refused (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (refused); i++) {
    const TwField *info = field (refused[i].kind, refused[i].field);
    g_autoptr (GError) error = NULL;
    TwValue value;

    g_assert_false (tw_value_parse (info, refused[i].style, refused[i].text, &value, &error));
    g_assert_cmpstr (error->message, ==, refused[i].says);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/job/value/kept", test_kept);
  g_test_add_func ("/job/value/kept-is-read", test_kept_is_read);
  g_test_add_func ("/job/value/refused", test_refused);
  return g_test_run ();
}
