/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where everything lies: places worked by hand, those of the samples by their tables, volumes of solids by
 * closed forms.
 */
#include "air-parts.h"

/* ---- walls of tanks ---- */

/* A core of 400 × 200 × 40 at the zero, not turned; header plates 2 thick, 50 wide: w −5 … 45. A tank of
 * depth 50 on the left is x −252 … −202, y −105 … 105 (the header plate's ends). */
typedef struct {
  const char *name;
  int side, wall, back;
  double depth_end_mm, along_mm, across_mm, out_mm;
  TwVec at, normal;
} Wall;

static const Wall walls[] = {
  /* clang-format off */
  { "left-back", TW_SIDE_LEFT, TW_WALL_BACK, TW_BACK_FLAT, NAN, 30, 5, NAN, { -252, 30, 25 }, { -1, 0, 0 } },
  { "left-air-in", TW_SIDE_LEFT, TW_WALL_AIR_IN, TW_BACK_FLAT, NAN, 30, NAN, 10, { -212, 30, -5 }, { 0, 0, -1 } },
  { "left-air-in-middle", TW_SIDE_LEFT, TW_WALL_AIR_IN, TW_BACK_FLAT, NAN, NAN, NAN, NAN, { -227, 0, -5 }, { 0, 0, -1 } },
  { "left-air-out", TW_SIDE_LEFT, TW_WALL_AIR_OUT, TW_BACK_FLAT, NAN, -30, NAN, NAN, { -227, -30, 45 }, { 0, 0, 1 } },
  { "left-lower-end", TW_SIDE_LEFT, TW_WALL_START, TW_BACK_FLAT, NAN, NAN, 5, 20, { -222, -105, 25 }, { 0, -1, 0 } },
  { "left-upper-end", TW_SIDE_LEFT, TW_WALL_END, TW_BACK_FLAT, NAN, NAN, 0, 20, { -222, 105, 20 }, { 0, 1, 0 } },
  { "right-back", TW_SIDE_RIGHT, TW_WALL_BACK, TW_BACK_FLAT, NAN, 30, 5, NAN, { 252, 30, 25 }, { 1, 0, 0 } },
  /* From 50 deep below to 92 above over 210: slope 1/5, at the middle 71; out of it (−5, −1, 0)/√26. */
  { "left-tapered", TW_SIDE_LEFT, TW_WALL_BACK, TW_BACK_TAPERED, 92, 0, 0, NAN, { -273, 0, 20 }, { -5 / 5.0990195135927845, -1 / 5.0990195135927845, 0 } },
  { "left-tapered-upper-end", TW_SIDE_LEFT, TW_WALL_END, TW_BACK_TAPERED, 92, 0, 0, 46, { -248, 105, 20 }, { 0, 1, 0 } },
  /* Half-round over 50: circle of 25 about 25 off the plate. 15 off its middle: 25 + √(25² − 15²) = 45. */
  { "left-round", TW_SIDE_LEFT, TW_WALL_BACK, TW_BACK_ROUND, NAN, 10, 15, NAN, { -247, 10, 35 }, { -0.8, 0, 0.6 } },
  /* clang-format on */
};

static void
test_wall (gconstpointer data)
{
  const Wall *c = data;
  g_autoptr (TwJob) job = tw_job_new ();
  TwTank *tank;
  TwPort *port;
  const TwPlacedPort *placed;
  Air air;

  air_core (job, "core", 400, 200, 40);
  tank = air_tank (job, "tank", "core", c->side, 50);
  tank->back = c->back;
  tank->depth_end_mm = c->depth_end_mm;
  port = air_port (job, "port", "tank", c->wall);
  port->along_mm = c->along_mm;
  port->across_mm = c->across_mm;
  port->out_mm = c->out_mm;
  air = air_of (job);
  placed = tw_placement_port (air.placement, air_id ("port"));
  g_assert_cmpfloat (tw_vec_distance_mm (placed->at, c->at), <, 1e-9);
  g_assert_cmpfloat (tw_vec_distance_mm (placed->normal, c->normal), <, 1e-9);
  g_assert_cmpfloat (tw_vec_distance_mm (placed->axis, c->normal), <, 1e-9);
  g_assert_cmpfloat (tw_vec_distance_mm (placed->tip, tw_vec_add_scaled (c->at, 40, c->normal)), <, 1e-9);
  air_clear (&air);
}

/* Upright tubes: tanks on top and bottom, along to the right. */
static void
test_upright (void)
{
  g_autoptr (TwJob) job = tw_job_new ();
  TwCore *core = air_core (job, "core", 400, 200, 40);
  TwTank *top, *bottom;
  TwPort *port;
  const TwPlacedTank *placed;
  Air air;

  core->tubes = TW_TUBES_UPRIGHT;
  core->x_mm = 1000;
  top = air_tank (job, "top", "core", TW_SIDE_TOP, 50);
  top->start_mm = -190;
  top->end_mm = 150;
  bottom = air_tank (job, "bottom", "core", TW_SIDE_BOTTOM, 30);
  bottom->width_mm = 60;
  bottom->offset_mm = 4;
  port = air_port (job, "port", "bottom", TW_WALL_BACK);
  port->along_mm = -40;
  air = air_of (job);

  placed = tw_placement_tank (air.placement, air_id ("top"));
  g_assert_cmpfloat (tw_vec_distance_mm (placed->from, tw_vec (-190, 102, -5)), <, 1e-9);
  g_assert_cmpfloat (tw_vec_distance_mm (placed->to, tw_vec (150, 152, 45)), <, 1e-9);
  placed = tw_placement_tank (air.placement, air_id ("bottom"));
  g_assert_cmpfloat (tw_vec_distance_mm (placed->from, tw_vec (-205, -132, -6)), <, 1e-9);
  g_assert_cmpfloat (tw_vec_distance_mm (placed->to, tw_vec (205, -102, 54)), <, 1e-9);
  g_assert_cmpfloat (
      tw_vec_distance_mm (tw_placement_port (air.placement, air_id ("port"))->at, tw_vec (960, -132, 24)), <,
      1e-9);
  air_clear (&air);
}

/* ---- turned cores ---- */

typedef struct {
  const char *name;
  double turn_deg, lean_deg, roll_deg, heading_deg;
  TwVec u, v, w;
} Turn;

/* The directions of the core's axes by elementary turns, in the order turn, lean, roll, heading. */
static const Turn turns[] = {
  /* clang-format off */
  { "none", 0, 0, 0, 0, { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } },
  { "turn", 90, 0, 0, 0, { 0, -1, 0 }, { 1, 0, 0 }, { 0, 0, 1 } },
  { "lean", 0, 90, 0, 0, { 1, 0, 0 }, { 0, 0, 1 }, { 0, -1, 0 } },
  { "roll", 0, 0, 90, 0, { 0, -1, 0 }, { 1, 0, 0 }, { 0, 0, 1 } },
  { "heading", 0, 0, 0, 90, { 0, 0, -1 }, { 0, 1, 0 }, { 1, 0, 0 } },
  { "lean-then-heading", 0, 90, 0, 90, { 0, 0, -1 }, { 1, 0, 0 }, { 0, -1, 0 } },
  /* clang-format on */
};

static void
test_turn (gconstpointer data)
{
  const Turn *c = data;
  g_autoptr (TwJob) job = tw_job_new ();
  TwCore *core = air_core (job, "core", 400, 200, 40);
  const TwPlacedCore *placed;
  TwVec corner;
  Air air;

  core->turn_deg = c->turn_deg;
  core->lean_deg = c->lean_deg;
  core->roll_deg = c->roll_deg;
  core->heading_deg = c->heading_deg;
  core->y_mm = 500;
  air = air_of (job);
  placed = tw_placement_core (air.placement, air_id ("core"));
  g_assert_cmpfloat (tw_vec_distance_mm (placed->frame.u, c->u), <, 1e-9);
  g_assert_cmpfloat (tw_vec_distance_mm (placed->frame.v, c->v), <, 1e-9);
  g_assert_cmpfloat (tw_vec_distance_mm (placed->frame.w, c->w), <, 1e-9);
  corner = tw_vec_add_scaled (tw_vec_add_scaled (tw_vec (0, 500, 0), 200, c->u), 100, c->v);
  g_assert_cmpfloat (tw_vec_distance_mm (placed->corners[2], corner), <, 1e-9);
  assert_near (placed->air_cos, c->w.z, 1e-12);
  air_clear (&air);
}

/* ---- samples by their tables ---- */

typedef struct {
  const char *name, *sample, *port;
  TwVec at, axis;
  double by_mm; /* the table rounds to this */
} Port;

static const Port ports[] = {
  /* clang-format off */
  { "tail-inlet", "merlin-tail.twjob", "inlet", { -382, 600, -6 }, { 0, 0, -1 }, 1e-6 },
  { "tail-outlet", "merlin-tail.twjob", "outlet", { -382, 378, -6 }, { 0, 0, -1 }, 1e-6 },
  { "tail-sensor", "merlin-tail.twjob", "sensor", { -382, 440, -6 }, { 0, 0, -1 }, 1e-6 },
  /* Lean of 40° about (0, 500, 0), thickness 42, tank 54 wide: the wall is w = −6. */
  { "boot-inlet", "merlin-boot.twjob", "inlet", { -297, 628, 72 }, { 0, 0, -1 }, 0.5 },
  { "boot-outlet", "merlin-boot.twjob", "outlet", { 297, 400, -119 }, { 0, 0, -1 }, 0.5 },
  { "pick-up-inlet", "caravan-4.twjob", "inlet", { 16.8 * 25.4, 18.6 * 25.4, -0.2 * 25.4 }, { 0, 0, -1 }, 1e-6 },
  { "pick-up-outlet", "caravan-4.twjob", "outlet", { 16.8 * 25.4, 3.6 * 25.4, -0.2 * 25.4 }, { 0, 0, -1 }, 1e-6 },
  { "kart-inlet", "volt-9.twjob", "inlet", { -90, 342, -4 }, { 0, 0, -1 }, 1e-6 },
  { "ox-filler", "ox.twjob", "filler", { 150, 827.5, 35 }, { 0, 1, 0 }, 1e-6 },
  { "ox-outlet", "ox.twjob", "outlet", { -180, 62, 75 }, { 0, 0, 1 }, 1e-6 },
  /* clang-format on */
};

static void
test_sample_port (gconstpointer data)
{
  const Port *c = data;
  g_autoptr (TwJob) job = air_sample (c->sample);
  Air air = air_of (job);
  const TwPlacedPort *port = tw_placement_port (air.placement, air_id (c->port));

  g_assert_nonnull (port);
  assert_near (port->at.x, c->at.x, c->by_mm);
  assert_near (port->at.y, c->at.y, c->by_mm);
  assert_near (port->at.z, c->at.z, c->by_mm);
  g_assert_cmpfloat (tw_vec_distance_mm (port->axis, c->axis), <, 1e-9);
  air_clear (&air);
}

/* Merlin, tail: tanks x −412 … −352 and 352 … 407, header plates y 324 … 654 and z −6 … 54; fans behind
 * 48 + 45, their backs at 155; the mouth 680 × 306. */
static void
test_tail (void)
{
  g_autoptr (TwJob) job = air_sample ("merlin-tail.twjob");
  Air air = air_of (job);
  const TwPlacedCore *core = tw_placement_core (air.placement, air_id ("core"));
  const TwPlacedTank *left = tw_placement_tank (air.placement, air_id ("left-tank"));
  const TwPlacedTank *right = tw_placement_tank (air.placement, air_id ("right-tank"));
  const TwPlacedFan *fan = tw_placement_fan (air.placement, air_id ("left-fan"));
  const TwPlacedShroud *shroud = tw_placement_shroud (air.placement, air_id ("shroud"));
  guint n;

  tw_placement_unplaced (air.placement, &n);
  g_assert_cmpuint (n, ==, 0);
  assert_near (left->from.x, -412, 1e-9);
  assert_near (left->to.x, -352, 1e-9);
  assert_near (right->from.x, 352, 1e-9);
  assert_near (right->to.x, 407, 1e-9);
  assert_near (489 + core->header_start_mm, 324, 1e-9);
  assert_near (489 + core->header_end_mm, 654, 1e-9);
  assert_near (core->header_w_from_mm, -6, 1e-9);
  assert_near (core->header_w_to_mm, 54, 1e-9);
  assert_near (fan->mounting_w_mm, 93, 1e-9);
  assert_near (fan->back_w_mm, 155, 1e-9);
  g_assert_cmpstr (fan->shroud.text, ==, "shroud");
  assert_near (shroud->mouth.x0_mm, -340, 1e-9);
  assert_near (shroud->mouth.y1_mm, 153, 1e-9);
  /* baffle from tubes 16|15: its middle at y 484, 5 under the middle of the face */
  assert_near (tw_placement_baffle (air.placement, air_id ("baffle"))->from.y, -6, 1e-9);
  air_clear (&air);
}

/* ---- solids ---- */

static double
volume_of (const Air *air, const char *part, TwSolidRole role)
{
  double sum_mm3 = 0.0;
  guint n;
  const TwPlacedSolid *solids = tw_placement_solids (air->placement, &n);

  for (guint i = 0; i < n; i++)
    if (solids[i].role == role && g_str_equal (solids[i].part.text, part))
      sum_mm3 += tw_convex_volume_mm3 (solids[i].convex);
  return sum_mm3;
}

static void
test_solids (void)
{
  g_autoptr (TwJob) job = tw_job_new ();
  TwCore *core = air_core (job, "core", 400, 200, 40);
  TwTank *tank = air_tank (job, "round", "core", TW_SIDE_RIGHT, 40);
  TwVolume *volume;
  TwShroud *shroud;
  Air air;

  core->lean_deg = 33;
  core->heading_deg = -20;
  core->header_lip_mm = 15;
  tank->back = TW_BACK_ROUND;
  tank = air_tank (job, "tapered", "core", TW_SIDE_LEFT, 50);
  tank->back = TW_BACK_TAPERED;
  tank->depth_end_mm = 92;
  tank = air_tank (job, "shallow", "core", TW_SIDE_RIGHT, 10);
  tank->back = TW_BACK_ROUND;
  air_port (job, "port", "tapered", TW_WALL_BACK);
  air_fan (job, "fan", 0, 0, 150, 60)->blows = TW_BLOWS_PUSH;
  shroud = air_shroud (job, "shroud", 0, 0, 300, 180);
  shroud->form = TW_FORM_TAPERED;
  shroud->stands = TW_STANDS_BEFORE;
  volume = air_volume (job, "elbow", TW_TAKEN_STRUCTURE, TW_DRAWN_PLAN, 10, 30);
  air_corner (volume, 0, 0, 0);
  air_corner (volume, 30, 0, 0);
  air_corner (volume, 30, 10, 0);
  air_corner (volume, 10, 10, 0);
  air_corner (volume, 10, 20, 0);
  air_corner (volume, 0, 20, 0);
  air = air_of (job);

  assert_near (volume_of (&air, "core", TW_SOLID_BLOCK), 400 * 200 * 40, 1e-3);
  /* two plates; on each a rim 15 high of 2: two strips of 210 and two of 50, sharing the corners */
  assert_near (volume_of (&air, "core", TW_SOLID_HEADER),
               2 * (2 * 210 * 50 + 2 * 2 * 210 * 15 + 2 * 2 * 50 * 15), 1e-3);
  /* a trapezium 50 … 92 deep over 210, 50 wide */
  assert_near (volume_of (&air, "tapered", TW_SOLID_TANK), 0.5 * (50 + 92) * 210 * 50, 1e-3);
  /* straight for 40 − 25, then half a circle of 25 */
  assert_near (volume_of (&air, "round", TW_SOLID_TANK), (15 * 50 + 0.5 * G_PI * 625) * 210, 1e-3);
  /* a segment of rise 10 on a chord of 50: R = 36.25, angle 2·asin (25/36.25), area R²/2·(θ − sin θ) */
  {
    double angle_rad = 2 * asin (25 / 36.25);

    assert_near (volume_of (&air, "shallow", TW_SOLID_TANK),
                 0.5 * 36.25 * 36.25 * (angle_rad - sin (angle_rad)) * 210, 1e-3);
  }
  assert_near (volume_of (&air, "port", TW_SOLID_PORT), G_PI * 16 * 16 * 40, 1e-3);
  assert_near (volume_of (&air, "fan", TW_SOLID_FAN), G_PI * 75 * 75 * 60, 1e-2);
  assert_near (volume_of (&air, "fan", TW_SOLID_HUB), G_PI * 30 * 30 * 60, 1e-2);
  /* from 300 × 180 to 150 × 150 over 40, walls straight: h/6·(A + 4·Am + B) (prismoid) */
  assert_near (volume_of (&air, "shroud", TW_SOLID_SHROUD),
               40 / 6.0 * (300 * 180 + 4 * 225 * 165 + 150 * 150), 1e-3);
  assert_near (volume_of (&air, "elbow", TW_SOLID_TAKEN), (30 * 10 + 10 * 10) * 20, 1e-6);
  air_clear (&air);
}

/* The plane's third axis and the place of an outline in it. */
static void
test_planes (void)
{
  static const struct {
    const char *id;
    int plane;
    TwVec from, to;
  } cases[] = {
    { "front", TW_DRAWN_FRONT, { 1, 2, 10 }, { 3, 5, 20 } },
    { "side", TW_DRAWN_SIDE, { 10, 2, 1 }, { 20, 5, 3 } },
    { "plan", TW_DRAWN_PLAN, { 1, 10, 2 }, { 3, 20, 5 } },
  };
  g_autoptr (TwJob) job = tw_job_new ();
  Air air;

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    air_rectangle (air_volume (job, cases[i].id, TW_TAKEN_HOT, cases[i].plane, 20, 10), 1, 2, 3, 5);
  air = air_of (job);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    const TwPlacedVolume *volume = tw_placement_volume (air.placement, air_id (cases[i].id));
    guint n;
    const TwPlacedSolid *solids = tw_placement_solids (air.placement, &n);
    TwSolidBox box = tw_convex_bounds (solids[volume->first_solid].convex);

    g_assert_cmpuint (volume->n_solids, ==, 1);
    assert_near (volume->from_mm, 10, 1e-12);
    g_assert_cmpfloat (tw_vec_distance_mm (box.from, cases[i].from), <, 1e-12);
    g_assert_cmpfloat (tw_vec_distance_mm (box.to, cases[i].to), <, 1e-12);
  }
  air_clear (&air);
}

/* What lacks a figure, or hangs on what does, is listed and nothing else suffers. */
static void
test_unplaced (void)
{
  g_autoptr (TwJob) job = tw_job_new ();
  TwVolume *crossed;
  guint n;
  Air air;

  air_core (job, "core", 400, 200, 40);
  air_tank (job, "good", "core", TW_SIDE_LEFT, 50);
  air_tank (job, "no-header", "core", TW_SIDE_TOP, 50);
  air_port (job, "on-no-header", "no-header", TW_WALL_BACK);
  air_tank (job, "backwards", "core", TW_SIDE_RIGHT, 50)->start_mm = 110;
  air_volume (job, "no-range", TW_TAKEN_HOT, TW_DRAWN_FRONT, NAN, 10);
  air_rectangle (air_volume (job, "no-depth", TW_TAKEN_HOT, TW_DRAWN_FRONT, 10, 10), 0, 0, 5, 5);
  crossed = air_volume (job, "crossed", TW_TAKEN_HOT, TW_DRAWN_FRONT, 0, 10);
  air_corner (crossed, 0, 0, 0);
  air_corner (crossed, 10, 10, 0);
  air_corner (crossed, 10, 0, 0);
  air_corner (crossed, 0, 10, 0);
  air = air_of (job);
  {
    const char *ids[] = { "no-header", "backwards", "on-no-header", "no-range", "no-depth", "crossed" };
    const TwUnplaced *unplaced = tw_placement_unplaced (air.placement, &n);

    g_assert_cmpuint (n, ==, G_N_ELEMENTS (ids));
    for (guint i = 0; i < n; i++) {
      g_assert_cmpstr (unplaced[i].part.text, ==, ids[i]);
      g_assert_nonnull (unplaced[i].why);
    }
  }
  g_assert_nonnull (tw_placement_tank (air.placement, air_id ("good")));
  g_assert_null (tw_placement_tank (air.placement, air_id ("backwards")));
  /* an id of another kind is none of this kind */
  g_assert_null (tw_placement_tank (air.placement, air_id ("core")));
  air_clear (&air);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (walls); i++) {
    g_autofree char *path = g_strdup_printf ("/layout/placement/wall/%s", walls[i].name);
    g_test_add_data_func (path, &walls[i], test_wall);
  }
  for (guint i = 0; i < G_N_ELEMENTS (turns); i++) {
    g_autofree char *path = g_strdup_printf ("/layout/placement/turned/%s", turns[i].name);
    g_test_add_data_func (path, &turns[i], test_turn);
  }
  for (guint i = 0; i < G_N_ELEMENTS (ports); i++) {
    g_autofree char *path = g_strdup_printf ("/layout/placement/sample/%s", ports[i].name);
    g_test_add_data_func (path, &ports[i], test_sample_port);
  }
  g_test_add_func ("/layout/placement/upright", test_upright);
  g_test_add_func ("/layout/placement/sample/tail", test_tail);
  g_test_add_func ("/layout/placement/solids", test_solids);
  g_test_add_func ("/layout/placement/planes", test_planes);
  g_test_add_func ("/layout/placement/unplaced", test_unplaced);
  return g_test_run ();
}
