/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Frames by hand: each turn alone sends the axes where the words of base/space.h say, then together.
 */
#include "base/space.h"

#include <math.h>

#define DEG (G_PI / 180.0)
#define C40 0.76604444311897804
#define S40 0.64278760968653933

static void
assert_vec (TwVec a, TwVec b, double by)
{
  g_assert_cmpfloat_with_epsilon (a.x, b.x, by);
  g_assert_cmpfloat_with_epsilon (a.y, b.y, by);
  g_assert_cmpfloat_with_epsilon (a.z, b.z, by);
}

typedef struct {
  const char *name;
  TwTurns turns;
  TwVec u, v, w;
} Case;

static const Case cases[] = {
  /* clang-format off */
  { "none", { 0, 0, 0, 0 }, { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } },
  /* Clockwise looking with the air: what pointed up points right, what pointed right points down. */
  { "turn-90", { 90 * DEG, 0, 0, 0 }, { 0, -1, 0 }, { 1, 0, 0 }, { 0, 0, 1 } },
  /* Top downstream: up gains +z; the normal then looks down. */
  { "lean-40", { 0, 40 * DEG, 0, 0 }, { 1, 0, 0 }, { 0, C40, S40 }, { 0, -S40, C40 } },
  { "lean-90", { 0, 90 * DEG, 0, 0 }, { 1, 0, 0 }, { 0, 0, 1 }, { 0, -1, 0 } },
  { "roll-90", { 0, 0, 90 * DEG, 0 }, { 0, -1, 0 }, { 1, 0, 0 }, { 0, 0, 1 } },
  /* The normal goes to +x, and so what pointed to +x goes to -z. */
  { "heading-90", { 0, 0, 0, 90 * DEG }, { 0, 0, -1 }, { 0, 1, 0 }, { 1, 0, 0 } },
  { "heading-40", { 0, 0, 0, 40 * DEG }, { C40, 0, -S40 }, { 0, 1, 0 }, { S40, 0, C40 } },
  /* Turned on its side, it leans about its own u, which stands upright now: v goes from +x to +z. */
  { "turn-then-lean", { 90 * DEG, 90 * DEG, 0, 0 }, { 0, -1, 0 }, { 0, 0, 1 }, { -1, 0, 0 } },
  /* Leaned flat, v along z; a roll about z leaves it there and takes u from +x to -y, w from -y to -x. */
  { "lean-then-roll", { 0, 90 * DEG, 90 * DEG, 0 }, { 0, -1, 0 }, { 0, 0, 1 }, { -1, 0, 0 } },
  /* … and a heading then takes v from +z to +x, leaving u upright, w from -x to +z. */
  { "lean-roll-heading", { 0, 90 * DEG, 90 * DEG, 90 * DEG }, { 0, -1, 0 }, { 1, 0, 0 }, { 0, 0, 1 } },
  /* clang-format on */
};

static void
test_case (gconstpointer data)
{
  const Case *c = data;
  TwFrame frame = tw_frame_place (tw_vec (3, 4, 5), c->turns);
  TwVec there = tw_frame_to_job (&frame, tw_vec (1, 2, 3));

  assert_vec (frame.u, c->u, 1e-15);
  assert_vec (frame.v, c->v, 1e-15);
  assert_vec (frame.w, c->w, 1e-15);
  assert_vec (frame.origin, tw_vec (3, 4, 5), 1e-15);
  /* the axes stay a triple of the same hand: u × v = w in the algebra */
  assert_vec (tw_vec_cross (frame.u, frame.v), frame.w, 1e-15);
  assert_vec (tw_frame_from_job (&frame, there), tw_vec (1, 2, 3), 1e-14);
  assert_vec (tw_frame_turn_from_job (&frame, frame.v), tw_vec (0, 1, 0), 1e-15);
}

/* Job 5: tanks 360 high and 54 deep. Leaning by a they take 360·cos a + 54·sin a in height and
 * 360·sin a + 54·cos a in depth: 40° 310.5 and 272.8, 30° 338.8. The middle of the face, 21 before the
 * block's centre at (0, 500, 0), lies at (0, 513.498, −16.087). */
static void
test_leaning_tanks (void)
{
  static const struct {
    double lean_deg, high_mm, deep_mm;
  } rows[] = { { 40, 310.5, 272.8 }, { 30, 338.8, 226.8 }, { 0, 360, 54 } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    TwTurns turns = { .lean_rad = rows[i].lean_deg * DEG };
    TwFrame frame = tw_frame_place (tw_vec (0, 0, 0), turns);
    double y0_mm = 0, y1_mm = 0, z0_mm = 0, z1_mm = 0;

    for (guint k = 0; k < 4; k++) {
      TwVec at = tw_frame_to_job (&frame, tw_vec (0, k & 1 ? 360 : 0, k & 2 ? 54 : 0));

      y0_mm = MIN (y0_mm, at.y);
      y1_mm = MAX (y1_mm, at.y);
      z0_mm = MIN (z0_mm, at.z);
      z1_mm = MAX (z1_mm, at.z);
    }
    g_assert_cmpfloat_with_epsilon (y1_mm - y0_mm, rows[i].high_mm, 0.05);
    g_assert_cmpfloat_with_epsilon (z1_mm - z0_mm, rows[i].deep_mm, 0.05);
  }
  {
    TwTurns turns = { .lean_rad = 40 * DEG };
    TwFrame block = tw_frame_place (tw_vec (0, 500, 0), turns);

    assert_vec (tw_frame_to_job (&block, tw_vec (0, 0, -21)), tw_vec (0, 513.498, -16.087), 0.001);
  }
}

static void
test_planes (void)
{
  for (TwPlane plane = TW_PLANE_FRONT; plane <= TW_PLANE_PLAN; plane++) {
    TwVec at = tw_vec (1, 2, 3);

    assert_vec (tw_plane_lift (plane, tw_plane_drop (plane, at), tw_plane_third_mm (plane, at)), at, 1e-15);
  }
  assert_vec (tw_plane_lift (TW_PLANE_FRONT, (TwPoint){ 1, 2 }, 3), tw_vec (1, 2, 3), 1e-15);
  assert_vec (tw_plane_lift (TW_PLANE_SIDE, (TwPoint){ 1, 2 }, 3), tw_vec (3, 2, 1), 1e-15);
  assert_vec (tw_plane_lift (TW_PLANE_PLAN, (TwPoint){ 1, 2 }, 3), tw_vec (1, 3, 2), 1e-15);
}

static void
test_vectors (void)
{
  TwFrame frame = tw_frame_along (tw_vec (0, 0, 0), tw_vec (0, 0, 1));
  TwFrame down = tw_frame_along (tw_vec (0, 0, 0), tw_vec (0, -1, 0));
  TwFrame slant = tw_frame_along (tw_vec (0, 0, 0), tw_vec (0, -S40, C40));

  assert_vec (frame.u, tw_vec (1, 0, 0), 1e-15);
  assert_vec (frame.v, tw_vec (0, 1, 0), 1e-15);
  assert_vec (down.u, tw_vec (1, 0, 0), 1e-15);
  assert_vec (slant.u, tw_vec (1, 0, 0), 1e-15);
  assert_vec (slant.v, tw_vec (0, C40, S40), 1e-15);
  g_assert_cmpfloat_with_epsilon (tw_vec_angle_rad (tw_vec (1, 0, 0), tw_vec (1, 1e-9, 0)), 1e-9, 1e-24);
  g_assert_cmpfloat_with_epsilon (tw_vec_angle_rad (tw_vec (1, 0, 0), tw_vec (-1, 0, 0)), G_PI, 1e-15);
  g_assert_cmpfloat_with_epsilon (tw_vec_dot (tw_vec_square_to (slant.w), slant.w), 0, 1e-15);
  g_assert_false (tw_vec_is_sane (tw_vec (0, NAN, 0)));
  g_assert_true (tw_vec_is_sane (tw_vec (0, 1e6, 0)));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *path = g_strdup_printf ("/base/space/turns/%s", cases[i].name);

    g_test_add_data_func (path, &cases[i], test_case);
  }
  g_test_add_func ("/base/space/leaning-tanks", test_leaning_tanks);
  g_test_add_func ("/base/space/planes", test_planes);
  g_test_add_func ("/base/space/vectors", test_vectors);
  return g_test_run ();
}
