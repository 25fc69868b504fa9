/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * First layouts: sizes worked by hand from the rule that the header states, what an answer that cannot be
 * taken is told, and a thousand bays that hold what is made for them.
 */
#include "answer/answer.h"
#include "cards/words.h"
#include "job/drawing.h"
#include "job/read.h"
#include "job/write.h"
#include "propose/first-layout.h"

#include <math.h>
#include <string.h>

#define ALL_FIT 1e-6 /* mm */
#define N_BAYS 1000

static TwCatalogue *entries; /* read once, for all tests */

static TwFirstLayoutWish
wish_of (double width_mm, double height_mm, double depth_mm)
{
  TwFirstLayoutWish wish = tw_first_layout_wish ();

  wish.bay_width_mm = width_mm;
  wish.bay_height_mm = height_mm;
  wish.bay_depth_mm = depth_mm;
  return wish;
}

static const TwCore *
core_of (const TwFirstLayout *made)
{
  return (const TwCore *)tw_job_get (made->job, TW_KIND_CORE, 0);
}

/* Nothing stops or warns, nothing is nearer than the clearance. */
static void
assert_fits (const TwJob *job)
{
  g_autoptr (TwAnswer) answer = tw_answer_new (job, entries, NULL);
  const TwFindings *findings = tw_answer_findings (answer);
  const TwClearancePair *tightest = tw_clearance_tightest (tw_answer_clearance (answer));

  for (guint i = 0; i < tw_findings_count (findings); i++) {
    const TwFinding *finding = tw_findings_get (findings, i);
    g_autofree char *words = tw_finding_text (finding, tw_answer_drawing (answer), &TW_UNIT_STYLE_MM);

    /* some faces have a shape that no round fans sweep well */
    if (finding->check->severity != TW_SEVERITY_NOTE && !g_str_equal (finding->check->id, "coverage-low"))
      g_error ("%s: %s %.17g", finding->check->id, words, finding->measured);
  }
  g_assert_nonnull (tightest);
  g_assert_cmpfloat (tightest->over_mm, >=, -ALL_FIT);
}

/* --- sizes ---------------------------------------------------------------------------------------------- */

/* Of the kind `single-row-fine`: pitch 10, thickness 42, header plate 54 wide, 2 thick, reach 6, tank
 * depth 50. */
typedef struct {
  const char *name;
  double width_mm, height_mm, depth_mm;
  int tubes;
  double face_width_mm, face_height_mm;
  guint n_fans;
  double swept_mm;
} Size;

static const Size sizes[] = {
  /* level: along = 430 − 2·(10 + 6) − 2·12 = 374 → 37 tubes, 370; across = 920 − 2·(10 + 2 + 50) = 796.
   * Depth: 6 + 40 before, 42 + 40 + 65 behind, 2·10 clear = 213 ≤ 700. Mouth 786 × 360: one fan of
   * 360 − 16 = 344 → 340; two of the same; three of 786/3 − 16 = 246 → 245 sweep less than two. */
  { "tail", 920, 430, 700, -1, 796, 370, 2, 340 },
  { "just-deep-enough-for-fans", 920, 430, 213, -1, 796, 370, 2, 340 },
  /* 212 deep: no room for fans, the plate alone needs 6 + 40 + 42 + 6 + 20 = 114. */
  { "shallow", 920, 430, 212, -1, 796, 370, 0, 0 },
  { "just-deep-enough", 920, 430, 114, -1, 796, 370, 0, 0 },
  /* upright: along = 300 − 32 = 268 → 26 tubes; across = 600 − 124 − 24 = 452; mouth 250 × 442: one fan of
   * 250 − 16 = 234 → 230; two of 442/2 − 16 = 205: 2·205² = 84 050 over 1.1·230² = 58 190: two. */
  { "tall", 300, 600, 400, -1, 260, 452, 2, 205 },
  /* the same said level: along = 600 − 32 − 24 = 544 → 54 tubes; across = 300 − 124 = 176; mouth 166 × 530:
   * 166 − 16 = 150, one, two or three of them: 530/3 − 16 = 160; four: 530/4 − 16 = 116, too small. */
  { "tall-level", 300, 600, 400, TW_TUBES_LEVEL, 176, 540, 3, 150 },
  /* faces are bought up to 1200 × 800: mouth 1190 × 790, six fans of 790/2 − 16 = 379, 1190/3 − 16 = 380 →
   * 375: 6·375² = 843 750; four: 400 at most: 640 000, three of 382 less. */
  { "hall", 3000, 2000, 1500, -1, 1200, 800, 6, 375 },
  /* level: along = 180 − 56 = 124 → 12; mouth 110 high: 110 − 16 = 94, under 120: no usual fan. */
  { "slot", 900, 180, 400, TW_TUBES_LEVEL, 776, 120, 0, 0 },
};

static void
test_size (gconstpointer data)
{
  const Size *c = data;
  TwFirstLayoutWish wish = wish_of (c->width_mm, c->height_mm, c->depth_mm);
  g_autoptr (TwFirstLayout) made = NULL;

  wish.tubes = c->tubes;
  wish.core_kind = "single-row-fine";
  made = tw_first_layout_make (&wish, entries, '.');
  g_assert_cmpuint (made->refusals->len, ==, 0);
  g_assert_cmpfloat (core_of (made)->face_width_mm, ==, c->face_width_mm);
  g_assert_cmpfloat (core_of (made)->face_height_mm, ==, c->face_height_mm);
  g_assert_cmpuint (tw_job_count (made->job, TW_KIND_FAN), ==, c->n_fans);
  if (c->n_fans > 0)
    g_assert_cmpfloat (((const TwFan *)tw_job_get (made->job, TW_KIND_FAN, 0))->swept_mm, ==, c->swept_mm);
}

/* --- which core, how many passes ------------------------------------------------------------------------ */

typedef struct {
  const char *name;
  double width_mm, height_mm, depth_mm, heat_kw, ambient_c;
  const char *coolant;
  const char *kind; /* chosen */
  guint n_baffles;
  const char *stub;
} Choice;

static const Choice choices[] = {
  /* Face 0.796 × 0.370 = 0.2945 m²; 42 kW to 100 − 32 = 68 K: 2.10 kW/m²K → 42 mm deep. Flow 42 000 / (4205 ·
   * 6) = 1.665 kg/s = 103 L/min. Bore of tube 39.4 × 1.4: outline 2·38.0 + π·1.4 = 80.4 mm;
   * Re = 4·1.665 / (37·0.0804·3.142e-4) = 7 100: one pass. Stub: 1.725e-3 m³/s at 3 m/s = 575 mm², 27.1 mm
   * bore → 32 has 28. */
  { "tail", 920, 430, 700, 42, 32, "water-inhibited", "single-row-fine", 0, "32" },
  /* the same with 80 kW: 4.0 kW/m²K → 70 mm deep */
  { "hot", 920, 430, 700, 80, 32, "water", "two-row-coarse", 0, "42" },
  /* 10 kW: 0.50 kW/m²K → 32 mm; flow 0.396 kg/s; 29.4 × 1.4: outline 60.4 mm, 37 tubes:
   * Re = 4·0.396 / (37·0.0604·3.142e-4) = 2 260, twice it over 2 300: two passes. 24.6 L/min: 13.2 mm bore →
   * 19 has 15.8 (16 has 12.8). */
  { "cool", 920, 430, 700, 10, 32, "water", "single-row-thin", 1, "19" },
  /* 4 kW: Re = 900, twice it still laminar: one pass. */
  { "faint", 920, 430, 700, 4, 32, "water", "single-row-thin", 0, "12" },
  /* half glycol at 90 °C: 0.82 mPa·s, 3551 J/kgK. 42 kW: 1.971 kg/s, Re = 4·1.971 / (37·0.0804·8.2e-4) =
   * 3 230: one. 1.912e-3 m³/s: 28.5 mm bore, 35 has 31. 25 kW: 1.25 kW/m²K → still 42 mm, Re = 1 920: two. */
  { "glycol", 920, 430, 700, 42, 32, "eg-50", "single-row-fine", 0, "35" },
  { "glycol-cool", 920, 430, 700, 25, 32, "eg-50", "single-row-fine", 1, "28" },
  { "nothing-said", 920, 430, 700, (double)NAN, (double)NAN, NULL, "single-row-fine", 0, "32" },
  /* A tank 52 long (40 + 2·6): a stub of at most 44 lies on its wall; 5 kW at 776 × 40: 2.4 kW/m²K. 11.9
   * L/min need 9.2 mm: 15 has 11.8. */
  { "low", 900, 96, 400, 5, 32, "water", "single-row-fine", 0, "15" },
  /* Upright, its tanks 52 long too. 60 kW: 142.7 L/min need 31.8 mm: 38 has 34; a quarter of the face from
   * the end its edge would stand 10 + 19 = 29 from the middle, 7 from the wall at 36. */
  { "slim-hot", 72, 900, 400, 60, 32, "water", "two-row-coarse", 0, "38" },
  /* 213 deep is what 42 mm needs with fans; 70 mm would need 241: fans go before depth of core. */
  { "hot-shallow", 920, 430, 213, 80, 32, "water", "single-row-fine", 0, "42" },
};

static void
test_choice (gconstpointer data)
{
  const Choice *c = data;
  TwFirstLayoutWish wish = wish_of (c->width_mm, c->height_mm, c->depth_mm);
  g_autoptr (TwFirstLayout) made = NULL;

  wish.heat_kw = c->heat_kw;
  wish.ambient_c = c->ambient_c;
  wish.coolant = c->coolant;
  made = tw_first_layout_make (&wish, entries, '.');
  g_assert_nonnull (made->job);
  g_assert_cmpstr (core_of (made)->core_kind, ==, c->kind);
  g_assert_cmpuint (tw_job_count (made->job, TW_KIND_BAFFLE), ==, c->n_baffles);
  g_assert_cmpstr (((const TwPort *)tw_job_get (made->job, TW_KIND_PORT, 0))->size, ==, c->stub);
  assert_fits (made->job);
}

/* --- heat ----------------------------------------------------------------------------------------------- */

typedef struct {
  const char *name;
  double heat_kw, brake_kw, share;
  TwFirstShareOf of;
  double expected_kw;
} Heat;

static const Heat heats[] = {
  { "said", 42, 100, 0.5, TW_FIRST_OF_BRAKE, 42 },
  { "of-brake", (double)NAN, 100, 0.5, TW_FIRST_OF_BRAKE, 50 },
  { "of-brake-usual", (double)NAN, 70, (double)NAN, TW_FIRST_OF_BRAKE, 42 },
  /* of the fuel's heat 26.5 % reach the crankshaft: 53 kW stand for 200 kW of fuel */
  { "of-fuel", (double)NAN, 53, 0.2, TW_FIRST_OF_FUEL, 40 },
};

static void
test_heat (gconstpointer data)
{
  const Heat *c = data;
  TwFirstLayoutWish wish = wish_of (920, 430, 700);
  g_autoptr (TwFirstLayout) made = NULL;

  wish.heat_kw = c->heat_kw;
  wish.brake_kw = c->brake_kw;
  wish.share = c->share;
  wish.share_of = c->of;
  g_assert_cmpfloat_with_epsilon (tw_first_heat_kw (&wish), c->expected_kw, 1e-9);
  made = tw_first_layout_make (&wish, entries, '.');
  g_assert_cmpfloat_with_epsilon (tw_job_settings (made->job)->heat_kw, c->expected_kw, 1e-9);
}

/* --- refusals ------------------------------------------------------------------------------------------- */

typedef struct {
  const char *name;
  double width_mm, height_mm, depth_mm, heat_kw, ambient_c, share;
  const char *kind, *coolant;
  TwFirstAnswer answer;
  const char *words; /* among them */
} Refused;

#define NO (double)NAN
static const Refused refused[] = {
  /* thinnest kind: 44 wide plate, 32 thick: 6 + 40 + 32 + 6 + 20 = 104 */
  { "shallow", 920, 430, 103, NO, NO, NO, NULL, NULL, TW_FIRST_DEPTH,
    "found 103.0 mm, but the smallest core with its tanks and ports needs 104 mm" },
  /* level: 40 + 32 + 24 = 96 */
  { "low", 900, 95, 400, NO, NO, NO, NULL, NULL, TW_FIRST_HEIGHT, "needs 96 mm" },
  /* level, of tanks 40 deep: 60 + 2·(10 + 2 + 40) = 164; upright along 160: 12 tubes, across 160 − 104 − 24 =
   * 32, so level misses less */
  { "narrow", 160, 160, 400, NO, NO, NO, NULL, NULL, TW_FIRST_WIDTH, "needs 164 mm" },
  { "no-width", NO, 430, 700, NO, NO, NO, NULL, NULL, TW_FIRST_WIDTH, "expected 60 to 5000 mm" },
  { "negative", 920, -430, 700, NO, NO, NO, NULL, NULL, TW_FIRST_HEIGHT, "expected" },
  { "endless", 920, 430, (double)INFINITY, NO, NO, NO, NULL, NULL, TW_FIRST_DEPTH, "expected" },
  { "cold-heat", 920, 430, 700, -1, NO, NO, NULL, NULL, TW_FIRST_HEAT, "expected" },
  { "ambient", 920, 430, 700, 42, 100, NO, NULL, NULL, TW_FIRST_AMBIENT, "70" },
  { "share", 920, 430, 700, NO, NO, 3, NULL, NULL, TW_FIRST_SHARE, "200" },
  { "kind", 920, 430, 700, NO, NO, NO, "no-such-kind", NULL, TW_FIRST_KIND, "single-row-fine" },
  { "coolant", 920, 430, 700, NO, NO, NO, NULL, "beer", TW_FIRST_COOLANT, "eg-50" },
};

static void
test_refused (gconstpointer data)
{
  const Refused *c = data;
  TwFirstLayoutWish wish = wish_of (c->width_mm, c->height_mm, c->depth_mm);
  g_autoptr (TwFirstLayout) made = NULL;
  const TwFirstRefusal *refusal;

  wish.heat_kw = c->heat_kw;
  wish.ambient_c = c->ambient_c;
  wish.share = c->share;
  wish.core_kind = c->kind;
  wish.coolant = c->coolant;
  made = tw_first_layout_make (&wish, entries, '.');
  g_assert_null (made->job);
  g_assert_cmpuint (made->choices->len, ==, 0);
  g_assert_cmpuint (made->refusals->len, ==, 1);
  refusal = g_ptr_array_index (made->refusals, 0);
  g_assert_cmpint (refusal->answer, ==, c->answer);
  {
    g_autofree char *plain = g_strdup (refusal->words);

    g_strdelimit (plain, "\342\200\211", ' '); /* thin spaces, byte by byte */
    while (strstr (plain, "   ") != NULL) {
      char *at = strstr (plain, "   ");

      memmove (at + 1, at + 3, strlen (at + 3) + 1);
    }
    g_test_message ("%s", plain);
    g_assert_nonnull (strstr (plain, c->words));
  }
}

/* --- a thousand bays ------------------------------------------------------------------------------------ */

/* What is said to be needed is enough, and one step less is not. */
static void
assert_needed (const TwFirstLayoutWish *wish, const TwFirstLayout *refusal)
{
  TwFirstLayoutWish larger = *wish;
  g_autoptr (TwFirstLayout) made = NULL;

  for (guint i = 0; i < refusal->refusals->len; i++) {
    const TwFirstRefusal *one = g_ptr_array_index (refusal->refusals, i);
    double *measure = one->answer == TW_FIRST_WIDTH    ? &larger.bay_width_mm
                      : one->answer == TW_FIRST_HEIGHT ? &larger.bay_height_mm
                                                       : &larger.bay_depth_mm;

    g_assert_cmpint (one->answer, <=, TW_FIRST_DEPTH);
    g_assert_cmpfloat (one->needed, >, one->found);
    *measure = one->needed;
  }
  made = tw_first_layout_make (&larger, entries, '.');
  g_assert_nonnull (made->job);
  assert_fits (made->job);
}

static TwFirstLayoutWish
random_wish (void)
{
  TwFirstLayoutWish wish = wish_of (g_test_rand_double_range (120, 1800), g_test_rand_double_range (90, 1200),
                                    g_test_rand_double_range (80, 1200));
  guint n = tw_catalogue_count (entries, TW_CATALOGUE_COOLANTS);

  if (g_test_rand_int_range (0, 4) > 0)
    wish.heat_kw = exp (g_test_rand_double_range (0, 5.3));
  if (g_test_rand_int_range (0, 2) > 0)
    wish.ambient_c = g_test_rand_double_range (-10, 55);
  if (g_test_rand_int_range (0, 2) > 0)
    wish.coolant = tw_entry_id (
        tw_catalogue_get (entries, TW_CATALOGUE_COOLANTS, (guint)g_test_rand_int_range (0, (gint32)n)));
  wish.shown_in = g_test_rand_int_range (0, 2) ? TW_SHOWN_IN_MM : TW_SHOWN_IN_INCH;
  wish.air_from = (TwFirstAir)g_test_rand_int_range (0, TW_FIRST_N_AIRS);
  wish.fans = g_test_rand_int_range (0, 5) > 0;
  return wish;
}

static void
test_thousand_bays (void)
{
  guint n_refused = 0, n_two_passes = 0, n_with_fans = 0;

  for (guint i = 0; i < N_BAYS; i++) {
    TwFirstLayoutWish wish = random_wish ();
    g_autoptr (TwFirstLayout) made = tw_first_layout_make (&wish, entries, '.');

    g_test_message ("%.3f × %.3f × %.3f, %.2f kW", wish.bay_width_mm, wish.bay_height_mm, wish.bay_depth_mm,
                    wish.heat_kw);
    if (made->job == NULL) {
      assert_needed (&wish, made);
      n_refused++;
      continue;
    }
    assert_fits (made->job);
    n_two_passes += tw_job_count (made->job, TW_KIND_BAFFLE);
    n_with_fans += tw_job_count (made->job, TW_KIND_FAN) > 0;
  }
  /* all sorts were among them */
  g_assert_cmpuint (n_refused, <, N_BAYS / 4);
  g_assert_cmpuint (n_refused, >, N_BAYS / 100);
  g_assert_cmpuint (n_two_passes, >, N_BAYS / 100);
  g_assert_cmpuint (n_with_fans, >, N_BAYS / 3);
}

/* --- what is kept --------------------------------------------------------------------------------------- */

static TwFirstLayoutWish
whole_wish (void)
{
  TwFirstLayoutWish wish = wish_of (920, 430, 700);

  wish.brake_kw = 70;
  wish.share = 0.6;
  wish.ambient_c = 32;
  wish.coolant = "eg-50";
  wish.air_from = TW_FIRST_AIR_LEFT;
  wish.name = "Tail";
  wish.shown_in = TW_SHOWN_IN_INCH;
  return wish;
}

/* What is made is a job like any other: written, it reads without a trouble. */
static void
test_reads_back (void)
{
  TwFirstLayoutWish wish = whole_wish ();
  g_autoptr (TwFirstLayout) made = tw_first_layout_make (&wish, entries, ',');
  g_autoptr (TwTroubles) troubles = tw_troubles_new ();
  g_autofree char *text = tw_job_write_text (made->job);
  g_autoptr (TwJob) read = tw_job_read_text (text, strlen (text), troubles);

  g_assert_cmpuint (troubles->n, ==, 0);
  g_assert_true (tw_job_equal (made->job, read));
  g_assert_cmpfloat (tw_job_settings (read)->heat_kw, ==, 42);
  g_assert_cmpfloat (tw_job_settings (read)->nose_heading_deg, ==, 90);
  g_assert_nonnull (strstr (text, "\"coolant\": \"eg-50\""));
  g_assert_nonnull (strstr (text, "\"ambient_c\": 32"));
  g_assert_nonnull (strstr (text, "\"water_share_of\": \"brake\""));
}

/* Air from the vehicle's left goes to its right: with the nose where the job says, the right of the driver
 * looks along +z. Nose (−sin h, 0, −cos h) at 90°: (−1, 0, 0); right is (nose.z, 0, −nose.x) = (0, 0, 1). */
static void
test_headings (void)
{
  static const double expected_deg[TW_FIRST_N_AIRS] = { 0, 180, 90, -90 };

  for (guint i = 0; i < TW_FIRST_N_AIRS; i++) {
    TwFirstLayoutWish wish = wish_of (920, 430, 700);
    g_autoptr (TwFirstLayout) made = NULL;

    wish.air_from = i;
    made = tw_first_layout_make (&wish, entries, '.');
    g_assert_cmpfloat (tw_job_settings (made->job)->nose_heading_deg, ==, expected_deg[i]);
  }
}

/* What nobody said is not in the job: the drawing assumes it, and says so. */
static void
test_assumed (void)
{
  TwFirstLayoutWish wish = wish_of (920, 430, 700);
  g_autoptr (TwFirstLayout) made = tw_first_layout_make (&wish, entries, '.');
  const TwFan *fan = (const TwFan *)tw_job_get (made->job, TW_KIND_FAN, 0);
  const TwTank *tank = (const TwTank *)tw_job_get (made->job, TW_KIND_TANK, 0);
  const TwPort *port = (const TwPort *)tw_job_get (made->job, TW_KIND_PORT, 0);

  g_assert_true (isnan (core_of (made)->thickness_mm));
  g_assert_true (isnan (tank->wall_mm) && isnan (tank->depth_mm));
  g_assert_true (isnan (fan->depth_mm) && isnan (port->stand_out_mm));
  g_assert_true (isnan (tw_job_settings (made->job)->heat_kw));
  g_assert_true (isnan (tw_job_settings (made->job)->clearance_mm));
  g_assert_null (tw_job_extra (made->job));
  g_assert_cmpuint (made->choices->len, >=, 6);
  for (guint i = 0; i < made->choices->len; i++) {
    const TwFirstChoice *choice = g_ptr_array_index (made->choices, i);

    g_assert_true (choice->what[0] != '\0' && choice->why[0] != '\0');
    g_assert_nonnull (strstr (tw_job_settings (made->job)->note, choice->what));
  }
}

/* As one change over an empty job it gives the same job, and undone the empty one. */
static void
test_one_change (void)
{
  TwFirstLayoutWish wish = wish_of (920, 430, 700);
  g_autoptr (TwFirstLayout) made = NULL;
  g_autoptr (TwJob) job = tw_job_new (), empty = tw_job_new ();
  g_autoptr (TwChange) change = NULL, inverse = NULL, again = NULL;
  g_autoptr (GError) error = NULL;

  wish.name = "Tail";
  wish.air_from = TW_FIRST_AIR_REAR;
  made = tw_first_layout_make (&wish, entries, '.');
  change = tw_first_layout_change (made->job, "New");
  g_assert_true (tw_change_apply (change, job, &inverse, &error));
  g_assert_no_error (error);
  g_assert_true (tw_job_equal (job, made->job));
  g_assert_true (tw_change_apply (inverse, job, &again, &error));
  g_assert_true (tw_job_equal (job, empty));
}

static void
add_cases (const char *room, gconstpointer cases, guint n, gsize size, GTestDataFunc test)
{
  for (guint i = 0; i < n; i++) {
    const char *const *at = (gconstpointer)((const char *)cases + i * size); /* the name comes first */
    g_autofree char *path = g_strdup_printf ("/propose/first-layout/%s/%s", room, *at);

    g_test_add_data_func (path, at, test);
  }
}

int
main (int argc, char *argv[])
{
  int status;

  g_test_init (&argc, &argv, NULL);
  entries = tw_catalogue_load (NULL);
  g_assert_nonnull (entries);
  add_cases ("size", sizes, G_N_ELEMENTS (sizes), sizeof sizes[0], test_size);
  add_cases ("choice", choices, G_N_ELEMENTS (choices), sizeof choices[0], test_choice);
  add_cases ("heat", heats, G_N_ELEMENTS (heats), sizeof heats[0], test_heat);
  add_cases ("refused", refused, G_N_ELEMENTS (refused), sizeof refused[0], test_refused);
  g_test_add_func ("/propose/first-layout/thousand-bays", test_thousand_bays);
  g_test_add_func ("/propose/first-layout/reads-back", test_reads_back);
  g_test_add_func ("/propose/first-layout/headings", test_headings);
  g_test_add_func ("/propose/first-layout/assumed", test_assumed);
  g_test_add_func ("/propose/first-layout/one-change", test_one_change);
  status = g_test_run ();
  tw_catalogue_free (entries);
  return status;
}
