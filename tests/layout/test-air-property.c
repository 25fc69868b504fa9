/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Random jobs: mirrored, rolled, rescaled and reordered ones give mirrored, rolled, rescaled and the same
 * areas; shares add up; shadows of volumes against rays cast at the face.
 */
#include "air-parts.h"
#include "layout/coverage.h"
#include "layout/frontal.h"
#include "layout/routes.h"
#include "support/make-job.h"

/* With -m thorough many more: a job takes a tenth of a second, under address checks four times that. */
#define N_JOBS (g_test_thorough () ? 150 : 40)
#define N_RAY_JOBS 40
#define SCALE 1.7

/* ---- other forms of a job ---- */

/* A job that says all that its drawing fills in, so that nothing more is assumed of its other forms. Elements
 * are copies, free to be changed. */
static TwJob *
settled (const TwJob *job, gboolean reversed)
{
  g_autoptr (TwCatalogue) catalogue = tw_catalogue_load (NULL);
  g_autoptr (TwDrawing) drawing = tw_drawing_new (job, catalogue);
  TwJob *made = tw_job_new ();

  for (TwKind kind = TW_KIND_VOLUME; kind < TW_FIRST_ELEMENT; kind++) {
    guint n = tw_drawing_count (drawing, kind);
    const TwKindInfo *info = tw_kind_info (kind);

    for (guint i = 0; i < n; i++) {
      TwPart *part = tw_part_copy (tw_drawing_get (drawing, kind, reversed ? n - 1 - i : i));

      for (guint k = 0; k < info->n_lists; k++) {
        GPtrArray *list = tw_part_list (part, k);

        for (guint e = 0; e < list->len; e++) {
          TwPart *shared = list->pdata[e];

          list->pdata[e] = tw_part_copy (shared);
          tw_part_unref (shared);
        }
      }
      tw_job_insert (made, part, -1);
    }
  }
  return made;
}

/* Parts of a settled job are nobody else's yet. */
static gpointer
own (TwJob *job, TwKind kind, guint nth)
{
  return (gpointer)tw_job_get (job, kind, nth);
}

#define each(type, name, KIND)                                                                               \
  for (guint i_##name = 0; i_##name < tw_job_count (job, KIND); i_##name++)                                  \
    for (type *name = own (job, KIND, i_##name); name != NULL; name = NULL)

static gboolean
is_upright (const TwJob *job, TwId tank)
{
  const TwTank *found = (const TwTank *)tw_job_find (job, tank);

  return ((const TwCore *)tw_job_find (job, found->core))->tubes == TW_TUBES_UPRIGHT;
}

static void
swap (double *a, double *b, double sign)
{
  double kept = *a;

  *a = sign * *b;
  *b = sign * kept;
}

static void
swap_choice (int *choice, int a, int b)
{
  if (*choice == a || *choice == b)
    *choice = a + b - *choice;
}

static void
mirror_outline (GPtrArray *list, gboolean across)
{
  for (guint i = 0; i < list->len; i++) {
    TwOutlineCorner *corner = list->pdata[i];

    if (across)
      corner->across_mm = -corner->across_mm;
    if (across)
      corner->bow_mm = -corner->bow_mm;
  }
}

static void
mirror_tanks (TwJob *job)
{
  each (TwTank, tank, TW_KIND_TANK)
  {
    if (tank->side == TW_SIDE_LEFT || tank->side == TW_SIDE_RIGHT) {
      swap_choice (&tank->side, TW_SIDE_LEFT, TW_SIDE_RIGHT);
      continue;
    }
    swap (&tank->start_mm, &tank->end_mm, -1);
    if (tank->back == TW_BACK_TAPERED)
      swap (&tank->depth_mm, &tank->depth_end_mm, 1);
  }
  each (TwPort, port, TW_KIND_PORT)
  {
    swap_choice (&port->leaves, TW_LEAVES_LEFT, TW_LEAVES_RIGHT);
    if (is_upright (job, port->tank)) {
      port->along_mm = -port->along_mm;
      swap_choice (&port->wall, TW_WALL_START, TW_WALL_END);
    }
  }
}

/* x to −x. */
static void
mirror (TwJob *job)
{
  each (TwCore, core, TW_KIND_CORE)
  {
    core->x_mm = -core->x_mm;
    core->turn_deg = -core->turn_deg;
    core->roll_deg = -core->roll_deg;
    core->heading_deg = -core->heading_deg;
  }
  mirror_tanks (job);
  each (TwFan, fan, TW_KIND_FAN) fan->u_mm = -fan->u_mm;
  each (TwShroud, shroud, TW_KIND_SHROUD)
  {
    shroud->u_mm = -shroud->u_mm;
    for (guint i = 0; i < shroud->flaps->len; i++) {
      TwFlap *flap = shroud->flaps->pdata[i];

      flap->u_mm = -flap->u_mm;
    }
  }
  each (TwVolume, volume, TW_KIND_VOLUME)
  {
    mirror_outline (volume->outline, volume->plane != TW_DRAWN_SIDE);
    mirror_outline (volume->hole, volume->plane != TW_DRAWN_SIDE);
    if (volume->plane == TW_DRAWN_SIDE)
      swap (&volume->from_mm, &volume->to_mm, -1);
  }
  each (TwEnginePort, port, TW_KIND_ENGINE_PORT)
  {
    port->x_mm = -port->x_mm;
    swap_choice (&port->leaves, TW_LEAVES_AXIS_LEFT, TW_LEAVES_AXIS_RIGHT);
  }
  each (TwHose, hose, TW_KIND_HOSE)
  {
    for (guint i = 0; i < hose->vias->len; i++) {
      TwVia *via = hose->vias->pdata[i];

      via->x_mm = -via->x_mm;
    }
  }
}

/* A quarter turn about z, clockwise looking with the air: (x, y) to (y, −x). */
static void
roll_point (double *x_mm, double *y_mm)
{
  double kept_mm = *x_mm;

  *x_mm = *y_mm;
  *y_mm = -kept_mm;
}

static const int rolled_leaves[]
    = { TW_LEAVES_AXIS_UP,    TW_LEAVES_AXIS_DOWN,     TW_LEAVES_AXIS_LEFT,
        TW_LEAVES_AXIS_RIGHT, TW_LEAVES_AXIS_UPSTREAM, TW_LEAVES_AXIS_DOWNSTREAM };

static void
roll_outline (GPtrArray *list, int plane)
{
  for (guint i = 0; i < list->len; i++) {
    TwOutlineCorner *corner = list->pdata[i];

    /* Front (x, y) → Front (y, −x); Side (z, y) → Plan (y, z), turned over; Plan (x, z) → Side (z, −x) */
    if (plane == TW_DRAWN_FRONT || plane == TW_DRAWN_PLAN)
      roll_point (&corner->across_mm, &corner->up_mm);
    else
      swap (&corner->across_mm, &corner->up_mm, 1);
    if (plane == TW_DRAWN_SIDE)
      corner->bow_mm = -corner->bow_mm;
  }
}

static void
roll (TwJob *job)
{
  each (TwCore, core, TW_KIND_CORE)
  {
    roll_point (&core->x_mm, &core->y_mm);
    core->roll_deg = (core->roll_deg > 90 ? core->roll_deg - 360 : core->roll_deg) + 90;
  }
  each (TwVolume, volume, TW_KIND_VOLUME)
  {
    roll_outline (volume->outline, volume->plane);
    roll_outline (volume->hole, volume->plane);
    if (volume->plane == TW_DRAWN_SIDE)
      swap (&volume->from_mm, &volume->to_mm, -1);
    swap_choice (&volume->plane, TW_DRAWN_SIDE, TW_DRAWN_PLAN);
  }
  each (TwPort, port, TW_KIND_PORT)
  {
    if (port->leaves > TW_LEAVES_SQUARE)
      port->leaves = rolled_leaves[port->leaves - 1] + 1;
  }
  each (TwEnginePort, port, TW_KIND_ENGINE_PORT)
  {
    roll_point (&port->x_mm, &port->y_mm);
    if (port->leaves >= 0)
      port->leaves = rolled_leaves[port->leaves];
  }
  each (TwHose, hose, TW_KIND_HOSE)
  {
    for (guint i = 0; i < hose->vias->len; i++) {
      TwVia *via = hose->vias->pdata[i];

      roll_point (&via->x_mm, &via->y_mm);
    }
  }
}

static void
rescale_part (TwPart *part)
{
  const TwKindInfo *info = tw_kind_info (part->kind);

  for (guint i = 0; i < info->n_fields; i++)
    if (info->fields[i].quantity == TW_QUANTITY_LENGTH && info->fields[i].store == TW_FIELD_NUMBER)
      G_STRUCT_MEMBER (double, part, info->fields[i].offset) *= SCALE;
  for (guint k = 0; k < info->n_lists; k++)
    for (guint e = 0; e < tw_part_list (part, k)->len; e++)
      rescale_part (tw_part_list (part, k)->pdata[e]);
}

static void
rescale (TwJob *job)
{
  for (TwKind kind = TW_KIND_VOLUME; kind < TW_FIRST_ELEMENT; kind++)
    for (guint i = 0; i < tw_job_count (job, kind); i++)
      rescale_part (own (job, kind, i));
}

/* Headings do not go with a roll. */
static void
without_headings (TwJob *job)
{
  each (TwCore, core, TW_KIND_CORE) core->heading_deg = 0;
}

/* ---- comparing ---- */

typedef struct {
  Air air;
  TwRoutes *routes;
  TwFrontal *frontal;
  TwCoverage *coverage;
} Seen;

static Seen
see (const TwJob *job)
{
  Seen seen = { .air = air_of (job) };
  guint n;
  const TwPlacedSolid *hoses;

  seen.routes = tw_routes_find (seen.air.placement);
  hoses = tw_routes_solids (seen.routes, &n);
  seen.frontal = tw_frontal_find (seen.air.placement, seen.air.geos, hoses, n);
  seen.coverage = tw_coverage_find (seen.air.placement, seen.air.geos);
  g_assert_null (tw_geos_trouble (seen.air.geos));
  return seen;
}

static void
seen_clear (Seen *seen)
{
  tw_coverage_unref (seen->coverage);
  tw_frontal_unref (seen->frontal);
  tw_routes_unref (seen->routes);
  air_clear (&seen->air);
}

static const TwShade *
shade_of (const TwFaceShade *face, TwId part)
{
  for (guint i = 0; i < face->n_shades; i++)
    if (tw_id_equal (face->shades[i].part, part))
      return &face->shades[i];
  return NULL;
}

/* Polygons stand for circles: those of volumes and fans turn and mirror onto themselves; a tube's corners may
 * come to lie elsewhere on its circle, and the corners of its band elsewhere along its bend. */
static double
give_mm2 (const TwFaceShade *face)
{
  double sum_mm2 = 1e-6 * face->face_mm2;

  for (guint i = 0; i < face->n_shades; i++)
    sum_mm2 += 1e-3 * face->shades[i].shadow_mm2;
  return sum_mm2;
}

static void
compare_frontal (const TwFaceShade *a, const TwFaceShade *b, double scale)
{
  double area = scale * scale, give = give_mm2 (a);
  double sum_mm2 = b->free_mm2 + b->shared_mm2;

  assert_near (b->face_mm2 / area, a->face_mm2, 1e-9 * a->face_mm2);
  assert_near (b->projected_mm2 / area, a->projected_mm2, 1e-9 * a->face_mm2);
  assert_near (b->free_mm2 / area, a->free_mm2, give);
  assert_near (b->shared_mm2 / area, a->shared_mm2, give);
  g_assert_cmpuint (a->flags, ==, b->flags);
  for (guint i = 0; i < a->n_shades; i++) {
    const TwShade *shade = shade_of (b, a->shades[i].part);

    if (shade == NULL) {
      g_assert_cmpfloat (a->shades[i].shadow_mm2, <, give);
      continue;
    }
    assert_near (shade->alone_mm2 / area, a->shades[i].alone_mm2, give);
    assert_near (shade->shadow_mm2 / area, a->shades[i].shadow_mm2, give);
    assert_near (shade->distance_mm / scale, a->shades[i].distance_mm,
                 2 * TW_ROUTES_SAG_MM); /* hoses are chains */
  }
  for (guint i = 0; i < b->n_shades; i++)
    sum_mm2 += b->shades[i].alone_mm2;
  assert_near (sum_mm2, b->face_mm2, 1e-9 * b->face_mm2);
}

static void
compare_coverage (const TwFaceCover *a, const TwFaceCover *b, double scale)
{
  double area = scale * scale, give = 1e-6 * a->face_mm2, own_mm2 = 0.0;

  assert_near (b->swept_mm2 / area, a->swept_mm2, give);
  assert_near (b->ring_mm2 / area, a->ring_mm2, give);
  assert_near (b->boxed_mm2 / area, a->boxed_mm2, give);
  assert_near (b->flaps_mm2 / area, a->flaps_mm2, give);
  assert_near (b->unswept_mm2 / area, a->unswept_mm2, give);
  g_assert_cmpuint (a->n_fans, ==, b->n_fans);
  g_assert_cmpuint (a->n_overlaps, ==, b->n_overlaps);
  g_assert_cmpuint (a->n_gaps, ==, b->n_gaps);
  for (guint i = 0; i < a->n_gaps; i++)
    assert_near (b->gaps[i].gap_mm / scale, a->gaps[i].gap_mm, 1e-6);
  for (guint i = 0; i < a->n_fans; i++)
    for (guint j = 0; j < b->n_fans; j++)
      if (tw_id_equal (a->fans[i].fan, b->fans[j].fan)) {
        assert_near (b->fans[j].own_mm2 / area, a->fans[i].own_mm2, give);
        assert_near (b->fans[j].mouth_over_mm / scale, a->fans[i].mouth_over_mm, 1e-6);
        own_mm2 += b->fans[j].own_mm2;
      }
  assert_near (own_mm2, b->swept_mm2, 1e-9 * b->face_mm2);
}

static void
compare (const TwJob *job, const TwJob *other, double scale)
{
  Seen a = see (job), b = see (other);
  guint n;
  const TwPlacedCore *cores = tw_placement_cores (a.air.placement, &n);

  for (guint i = 0; i < n; i++) {
    const TwFaceShade *face = tw_frontal_face (b.frontal, cores[i].id);

    g_assert_nonnull (face);
    compare_frontal (tw_frontal_face (a.frontal, cores[i].id), face, scale);
    compare_coverage (tw_coverage_face (a.coverage, cores[i].id), tw_coverage_face (b.coverage, cores[i].id),
                      scale);
  }
  seen_clear (&a);
  seen_clear (&b);
}

typedef struct {
  const char *name;
  void (*change) (TwJob *job);
  gboolean reversed, without_headings;
  double scale; /* dimensionless */
} Form;

static const Form forms[] = {
  { "mirrored", mirror, FALSE, FALSE, 1 },
  { "rolled", roll, FALSE, TRUE, 1 },
  { "rescaled", rescale, FALSE, FALSE, SCALE },
  { "reordered", NULL, TRUE, FALSE, 1 },
};

static void
test_form (gconstpointer data)
{
  const Form *form = data;

  for (guint32 seed = 0; seed < (guint32)N_JOBS; seed++) {
    g_autoptr (TwJob) random = tw_random_job (seed);
    g_autoptr (TwJob) job = settled (random, FALSE);
    g_autoptr (TwJob) other = settled (random, form->reversed);

    g_test_message ("job %u", seed);
    if (form->without_headings) {
      without_headings (job);
      without_headings (other);
    }
    if (form->change != NULL)
      form->change (other);
    compare (job, other, form->scale);
  }
}

/* ---- rays ---- */

/* A volume as rays see it: rings of corners in its plane, arcs flattened. */
typedef struct {
  const TwVolume *volume;
  GArray *rings[2];
} Block;

static GArray *
ring_of (GPtrArray *list)
{
  g_autofree TwCorner *corners = g_new0 (TwCorner, list->len);

  for (guint i = 0; i < list->len; i++) {
    const TwOutlineCorner *corner = TW_ELEMENT (list, TwOutlineCorner, i);

    corners[i].at = (TwPoint){ corner->across_mm, corner->up_mm };
    corners[i].bow_mm = isnan (corner->bow_mm) ? 0 : corner->bow_mm;
  }
  return list->len > 0 ? tw_outline_flatten (corners, list->len)
                       : g_array_new (FALSE, FALSE, sizeof (TwPoint));
}

static gboolean
in_ring (const GArray *ring, TwPoint at)
{
  gboolean inside = FALSE;

  for (guint i = 0; i < ring->len; i++) {
    TwPoint a = g_array_index (ring, TwPoint, i), b = g_array_index (ring, TwPoint, (i + 1) % ring->len);

    if ((a.y_mm > at.y_mm) != (b.y_mm > at.y_mm)
        && at.x_mm < a.x_mm + (at.y_mm - a.y_mm) * (b.x_mm - a.x_mm) / (b.y_mm - a.y_mm))
      inside = !inside;
  }
  return inside;
}

static gboolean
in_block (const Block *block, TwVec at)
{
  TwPlane plane = (TwPlane)block->volume->plane;
  double third_mm = tw_plane_third_mm (plane, at);
  TwPoint drop = tw_plane_drop (plane, at);

  return third_mm >= block->volume->from_mm && third_mm <= block->volume->to_mm
         && in_ring (block->rings[0], drop) && !in_ring (block->rings[1], drop);
}

/* A place in a volume that shades, in free room. */
static gboolean
is_dark (const GArray *blocks, TwVec at, gboolean has_bay)
{
  gboolean in_bay = !has_bay, taken = FALSE;

  for (guint i = 0; i < blocks->len; i++) {
    const Block *block = &g_array_index (blocks, Block, i);
    int kind = block->volume->kind;
    gboolean is_free = block->volume->use == TW_USE_FREE;

    if (!is_free && kind != TW_TAKEN_STRUCTURE && kind != TW_TAKEN_HOT && kind != TW_TAKEN_MOVING)
      continue;
    if ((is_free ? in_bay : taken) || !in_block (block, at))
      continue;
    in_bay |= is_free;
    taken |= !is_free;
  }
  return in_bay && taken;
}

static gboolean
is_shaded (const GArray *blocks, TwVec at, TwVec air, gboolean has_bay)
{
  for (double back_mm = 1.5; back_mm < 2600; back_mm += 4)
    if (is_dark (blocks, tw_vec_add_scaled (at, -back_mm, air), has_bay))
      return TRUE;
  return FALSE;
}

/* Share of the face that rays find free, from one place thrown into each of 40 × 40 fields. */
static double
free_by_rays (const GArray *blocks, const TwPlacedCore *core, gboolean has_bay, GRand *rng)
{
  const guint n = 40;
  guint n_free = 0;

  for (guint i = 0; i < n * n; i++) {
    double u_mm = ((i % n + g_rand_double (rng)) / n - 0.5) * core->face_width_mm;
    double v_mm = ((i / n + g_rand_double (rng)) / n - 0.5) * core->face_height_mm;
    TwVec at = tw_frame_to_job (&core->frame, tw_vec (u_mm, v_mm, 0));

    n_free += !is_shaded (blocks, at, core->air, has_bay);
  }
  return (double)n_free / (n * n);
}

static void
clear_block (gpointer data)
{
  Block *block = data;

  g_array_unref (block->rings[0]);
  g_array_unref (block->rings[1]);
}

static GArray *
blocks_of (TwJob *job, gboolean *has_bay)
{
  GArray *blocks = g_array_new (FALSE, FALSE, sizeof (Block));

  *has_bay = FALSE;
  g_array_set_clear_func (blocks, clear_block);
  each (TwVolume, volume, TW_KIND_VOLUME)
  {
    Block block = { volume, { ring_of (volume->outline), ring_of (volume->hole) } };

    *has_bay |= volume->use == TW_USE_FREE;
    g_array_append_val (blocks, block);
  }
  return blocks;
}

/* Only volumes and one core. A field that the edge of a shadow crosses is off by half at the worst: with 1600
 * fields, 160 of them crossed, the share is off by 0.4 % in one case of a thousand; 3 % has room for steps of
 * 4 mm along the rays, which miss what is thinner. */
static void
test_rays (void)
{
  g_autoptr (GRand) rng = g_rand_new_with_seed (20);
  guint n_shaded = 0;

  for (guint32 seed = 1000; seed < 1000 + N_RAY_JOBS; seed++) {
    g_autoptr (TwJob) random = tw_random_job (seed);
    g_autoptr (TwJob) job = tw_job_new ();
    g_autoptr (TwJob) all = settled (random, FALSE);
    g_autoptr (GArray) blocks = NULL;
    gboolean has_bay;
    const TwFaceShade *face;
    Seen seen;

    if (tw_job_count (all, TW_KIND_CORE) == 0)
      continue;
    for (guint i = 0; i < tw_job_count (all, TW_KIND_VOLUME); i++)
      tw_job_insert (job, tw_part_copy (tw_job_get (all, TW_KIND_VOLUME, i)), -1);
    tw_job_insert (job, tw_part_copy (tw_job_get (all, TW_KIND_CORE, 0)), -1);
    seen = see (job);
    face = tw_frontal_face (seen.frontal, tw_job_get (job, TW_KIND_CORE, 0)->id);
    blocks = blocks_of (job, &has_bay);
    if (face != NULL && !(face->flags & TW_FRONTAL_TURNED)) {
      const TwPlacedCore *core = tw_placement_core (seen.air.placement, face->core);

      g_test_message ("job %u: free %d permille", seed, (int)lrint (1000 * face->free_share));
      assert_near (free_by_rays (blocks, core, has_bay, rng), face->free_share, 0.03);
      n_shaded += face->free_share < 0.95;
    }
    seen_clear (&seen);
  }
  /* it was about something */
  g_assert_cmpuint (n_shaded, >=, 2);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (forms); i++) {
    g_autofree char *path = g_strdup_printf ("/layout/air/%s", forms[i].name);
    g_test_add_data_func (path, &forms[i], test_form);
  }
  g_test_add_func ("/layout/air/rays", test_rays);
  return g_test_run ();
}
