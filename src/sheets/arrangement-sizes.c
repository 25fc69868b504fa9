/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Overall sizes of the arrangement, and where the assembly lies in the bay.
 */
#include "sheets/arrangement-private.h"

#include <math.h>

/* What is measured along one axis: from the bay's lower end to the assembly, the assembly, the bay. */
typedef struct {
  double bay[2];      /* mm of the view; only with has_bay */
  double assembly[2]; /* mm of the view */
  double foot_mm;     /* where extension lines begin, along the other axis of the view */
  gboolean has_bay;
  gboolean has_assembly;
} Axis;

static void
dimension_axis (TwSheetSet *set, TwSheet *page, const TwSheetView *v, TwDimensionSide side, const Axis *axis)
{
  TwBox outline = tw_sheet_on_paper (v, v->drawing->all);
  const TwDimensionEdge edge = { outline, side };
  gboolean across = side == TW_DIMENSION_BELOW;
  const double spans[3][2] = { { axis->assembly[0], axis->assembly[1] },
                               { axis->bay[0], axis->bay[1] },
                               { axis->bay[0], axis->assembly[0] } };
  guint first = axis->has_assembly ? 0 : 1, end = axis->has_bay ? axis->has_assembly ? 3 : 2 : 1;
  double foot = axis->foot_mm * v->scale + (across ? v->shift.y_mm : v->shift.x_mm);
  TwDimension dims[3];
  char *texts[3];
  guint n = 0;

  /* what is flush with the wall of the bay has no distance from it */
  if (end == 3 && fabs (axis->assembly[0] - axis->bay[0]) < 0.05)
    end = 2;
  for (guint i = first; i < end; i++) {
    double a = spans[i][0] * v->scale + (across ? v->shift.x_mm : v->shift.y_mm);
    double b = spans[i][1] * v->scale + (across ? v->shift.x_mm : v->shift.y_mm);

    texts[n] = tw_sheet_length (set, fabs (spans[i][1] - spans[i][0]));
    dims[n] = (TwDimension){ across ? (TwPoint){ MIN (a, b), foot } : (TwPoint){ foot, MIN (a, b) },
                             across ? (TwPoint){ MAX (a, b), foot } : (TwPoint){ foot, MAX (a, b) }, texts[n],
                             TW_ID_NONE };
    n++;
  }
  (void)tw_sheet_stack (set, page, &edge, dims, n);
  for (guint i = 0; i < n; i++)
    g_free (texts[i]);
}

void
tw_arrangement_dimensions (TwSheetSet *set,
                           TwSheet *page,
                           const TwSheetView *views,
                           const TwArrangementWindow *window)
{
  gboolean third = set->settings->projection == TW_PROJECTION_THIRD;
  TwVec from = { 0 }, to = { 0 }, low, bay_from = { 0 }, bay_to = { 0 };
  gboolean bay = tw_arrangement_bay (set, window, &bay_from, &bay_to);
  gboolean any = tw_sheet_bounds (set->placement, FALSE, &from, &to);
  Axis x, y, z;

  if (!any && !bay)
    return;
  low = bay ? bay_from : from;
  if (bay && any)
    low = (TwVec){ MIN (from.x, bay_from.x), MIN (from.y, bay_from.y), MIN (from.z, bay_from.z) };
  x = (Axis){ { bay_from.x, bay_to.x }, { from.x, to.x }, third ? low.y : low.z, bay, any };
  y = (Axis){ { bay_from.y, bay_to.y }, { from.y, to.y }, third ? low.x : low.z, bay, any };
  z = (Axis){ { bay_from.z, bay_to.z }, { from.z, to.z }, low.y, bay, any };
  dimension_axis (set, page, &views[third ? TW_ARRANGEMENT_FRONT : TW_ARRANGEMENT_PLAN], TW_DIMENSION_BELOW,
                  &x);
  dimension_axis (set, page, &views[third ? TW_ARRANGEMENT_FRONT : TW_ARRANGEMENT_SIDE], TW_DIMENSION_LEFT,
                  &y);
  dimension_axis (set, page, &views[TW_ARRANGEMENT_SIDE], TW_DIMENSION_BELOW, &z);
}
