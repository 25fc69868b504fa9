/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Fans and shrouds over the face. */
#include "findings/findings-private.h"

#include <math.h>

/* Fans that sweep less of an open face pull through their own share only; in a sealed box with depth half the
 * face is enough. Common practice, no source. */
#define LEAST_SWEPT_OPEN 0.70
#define LEAST_SWEPT_BOXED 0.50

/* A shroud that boxes in less leaves tubes beside it. Common practice, no source. */
#define LEAST_BOXED 0.90

/* Half an inch from core to fan. Common practice, no source. */
#define LEAST_PLENUM_MM 12.7

/* Sheet left between two holes, in thicknesses. Common practice, no source. */
#define LEAST_WEB_WALLS 2.0

/* Reaches and gaps below this are rounding of the drawing. */
#define NOTHING_MM 0.001

static const char *
find_trouble (TwFinder *finder)
{
  guint n;
  const TwFaceCover *faces = tw_coverage_faces (finder->known->coverage, &n);

  for (guint i = 0; i < n; i++)
    if (faces[i].has_trouble)
      tw_finder_add (finder, faces[i].core);
  return NULL;
}

static const char *
find_low_coverage (TwFinder *finder)
{
  guint n;
  const TwFaceCover *faces = tw_coverage_faces (finder->known->coverage, &n);

  for (guint i = 0; i < n; i++) {
    double least = faces[i].boxed_share >= LEAST_BOXED ? LEAST_SWEPT_BOXED : LEAST_SWEPT_OPEN;
    TwFinding *finding;

    if (faces[i].n_fans == 0 || faces[i].swept_share >= least)
      continue;
    finding = tw_finder_add (finder, faces[i].core);
    finding->measured = faces[i].swept_share;
    finding->limit = least;
    finding->beside = faces[i].boxed_share;
  }
  return NULL;
}

static const char *
find_low_boxed (TwFinder *finder)
{
  guint n;
  const TwFaceCover *faces = tw_coverage_faces (finder->known->coverage, &n);

  for (guint i = 0; i < n; i++) {
    TwFinding *finding;

    if (faces[i].n_shrouds == 0 || faces[i].boxed_share >= LEAST_BOXED)
      continue;
    finding = tw_finder_add (finder, faces[i].core);
    finding->measured = faces[i].boxed_share;
    finding->limit = LEAST_BOXED;
  }
  return NULL;
}

static const char *
find_overlaps (TwFinder *finder)
{
  guint n;
  const TwFaceCover *faces = tw_coverage_faces (finder->known->coverage, &n);

  for (guint i = 0; i < n; i++)
    for (guint k = 0; k < faces[i].n_overlaps; k++) {
      const TwFanOverlap *overlap = &faces[i].overlaps[k];
      TwFinding *finding = tw_finder_add (finder, overlap->a);

      tw_finding_also (finding, overlap->b);
      finding->measured = overlap->depth_mm;
      finding->beside = overlap->area_mm2;
    }
  return NULL;
}

static const char *
find_beyond_face (TwFinder *finder)
{
  guint n;
  const TwFaceCover *faces = tw_coverage_faces (finder->known->coverage, &n);

  for (guint i = 0; i < n; i++)
    for (guint k = 0; k < faces[i].n_fans; k++)
      if (faces[i].fans[k].face_over_mm > NOTHING_MM) {
        TwFinding *finding = tw_finder_add (finder, faces[i].fans[k].fan);

        finding->measured = faces[i].fans[k].face_over_mm;
        finding->beside = faces[i].fans[k].face_over_mm2;
      }
  return NULL;
}

static const char *
find_beyond_shroud (TwFinder *finder)
{
  guint n;
  const TwFaceCover *faces = tw_coverage_faces (finder->known->coverage, &n);

  for (guint i = 0; i < n; i++)
    for (guint k = 0; k < faces[i].n_fans; k++)
      if (faces[i].fans[k].ring_mouth_over_mm > NOTHING_MM) {
        const TwPlacedFan *fan = tw_placement_fan (finder->known->placement, faces[i].fans[k].fan);
        TwFinding *finding = tw_finder_add (finder, faces[i].fans[k].fan);

        tw_finding_also (finding, fan->shroud);
        finding->measured = faces[i].fans[k].ring_mouth_over_mm;
      }
  return NULL;
}

static gboolean
overlap_is_said (const TwFaceCover *face, const TwHoleGap *gap)
{
  for (guint i = 0; i < face->n_overlaps; i++) {
    const TwFanOverlap *overlap = &face->overlaps[i];

    if ((tw_id_equal (overlap->a, gap->a) && tw_id_equal (overlap->b, gap->b))
        || (tw_id_equal (overlap->a, gap->b) && tw_id_equal (overlap->b, gap->a)))
      return TRUE;
  }
  return FALSE;
}

/* The thickest sheet among the shrouds of a core; 0 when there is none. */
static double
thickest_wall_mm (const TwDrawing *drawing, TwId core)
{
  double wall_mm = 0;

  for (guint i = 0; i < tw_drawing_count (drawing, TW_KIND_SHROUD); i++) {
    const TwShroud *shroud = TW_DRAWING_SHROUD (drawing, i);

    if (tw_id_equal (shroud->core, core) && shroud->wall_mm > wall_mm)
      wall_mm = shroud->wall_mm;
  }
  return wall_mm;
}

static const char *
find_narrow_webs (TwFinder *finder)
{
  guint n;
  const TwFaceCover *faces = tw_coverage_faces (finder->known->coverage, &n);

  for (guint i = 0; i < n; i++) {
    double least_mm = LEAST_WEB_WALLS * thickest_wall_mm (finder->known->drawing, faces[i].core);

    for (guint k = 0; k < faces[i].n_gaps; k++) {
      const TwHoleGap *gap = &faces[i].gaps[k];
      TwFinding *finding;

      if (gap->gap_mm >= least_mm - NOTHING_MM || overlap_is_said (&faces[i], gap))
        continue;
      finding = tw_finder_add (finder, gap->a);
      tw_finding_also (finding, gap->b);
      finding->measured = gap->gap_mm;
      finding->limit = least_mm;
    }
  }
  return NULL;
}

static gboolean
has_way_out (const TwPlacement *placement, TwId shroud)
{
  guint n_fans, n_flaps;
  const TwPlacedFan *fans = tw_placement_fans (placement, &n_fans);
  const TwPlacedFlap *flaps = tw_placement_flaps (placement, &n_flaps);

  for (guint i = 0; i < n_fans; i++)
    if (tw_id_equal (fans[i].shroud, shroud))
      return TRUE;
  for (guint i = 0; i < n_flaps; i++)
    if (tw_id_equal (flaps[i].shroud, shroud))
      return TRUE;
  return FALSE;
}

static const char *
find_closed_boxes (TwFinder *finder)
{
  guint n;
  const TwPlacedShroud *shrouds = tw_placement_shrouds (finder->known->placement, &n);

  for (guint i = 0; i < n; i++)
    if (!has_way_out (finder->known->placement, shrouds[i].id))
      tw_finder_add (finder, shrouds[i].id);
  return NULL;
}

static const char *
find_shallow (TwFinder *finder)
{
  guint n;
  const TwPlacedShroud *shrouds = tw_placement_shrouds (finder->known->placement, &n);

  for (guint i = 0; i < n; i++) {
    double depth_mm = fabs (shrouds[i].fans_w_mm - shrouds[i].mouth_w_mm);
    TwFinding *finding;

    if (depth_mm >= LEAST_PLENUM_MM)
      continue;
    finding = tw_finder_add (finder, shrouds[i].id);
    finding->measured = depth_mm;
    finding->limit = LEAST_PLENUM_MM;
  }
  return NULL;
}

/* clang-format off */
static const TwCheckRow rows[] = {
  { { "coverage-doubtful", TW_SEVERITY_STOP, TW_ROOM_COVERAGE }, find_trouble },
  { { "box-closed", TW_SEVERITY_STOP, TW_ROOM_PLACEMENT }, find_closed_boxes },
  { { "fans-overlap", TW_SEVERITY_WARN, TW_ROOM_COVERAGE, TW_QUANTITY_LENGTH, TW_QUANTITY_AREA }, find_overlaps },
  { { "fan-beyond-face", TW_SEVERITY_WARN, TW_ROOM_COVERAGE, TW_QUANTITY_LENGTH, TW_QUANTITY_AREA },
    find_beyond_face },
  { { "fan-beyond-shroud", TW_SEVERITY_WARN, TW_ROOM_COVERAGE | TW_ROOM_PLACEMENT, TW_QUANTITY_LENGTH },
    find_beyond_shroud },
  { { "web-narrow", TW_SEVERITY_WARN, TW_ROOM_COVERAGE, TW_QUANTITY_LENGTH, .source = TW_COMMON_PRACTICE },
    find_narrow_webs },
  { { "coverage-low", TW_SEVERITY_WARN, TW_ROOM_COVERAGE, TW_QUANTITY_SHARE, TW_QUANTITY_SHARE, TW_COMMON_PRACTICE },
    find_low_coverage },
  { { "boxed-low", TW_SEVERITY_NOTE, TW_ROOM_COVERAGE, TW_QUANTITY_SHARE, .source = TW_COMMON_PRACTICE },
    find_low_boxed },
  { { "plenum-shallow", TW_SEVERITY_NOTE, TW_ROOM_PLACEMENT, TW_QUANTITY_LENGTH, .source = TW_COMMON_PRACTICE },
    find_shallow },
};
/* clang-format on */

const TwCheckRows tw_checks_fans = { rows, G_N_ELEMENTS (rows) };
