/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "draw/place.h"

#include <math.h>

/* --- along one side ---------------------------------------------------------------------------------------
 */

/* A run of values that stand as close as they may; its mean is kept as sum (in the unit of the values) and
 * count. */
typedef struct {
  double sum; /* in the unit of the values; dimensionless here */
  guint n;
} Pool;

/* Places for values that want to stand at @wants in this order, the nth at least offsets[n] − offsets[n − 1]
 * beyond the one before it. Taking the offsets off leaves an isotonic regression: pools that fall are merged.
 */
static void
spread (double *wants, const double *offsets, guint n)
{
  g_autofree Pool *pools = g_new (Pool, MAX (n, 1));
  guint n_pools = 0;
  guint next = 0;

  for (guint i = 0; i < n; i++) {
    pools[n_pools++] = (Pool){ wants[i] - offsets[i], 1 };
    while (n_pools > 1
           && pools[n_pools - 2].sum / pools[n_pools - 2].n > pools[n_pools - 1].sum / pools[n_pools - 1].n) {
      pools[n_pools - 2].sum += pools[n_pools - 1].sum;
      pools[n_pools - 2].n += pools[n_pools - 1].n;
      n_pools--;
    }
  }
  for (guint p = 0; p < n_pools; p++)
    for (guint k = 0; k < pools[p].n; k++, next++)
      wants[next] = pools[p].sum / pools[p].n + offsets[next];
}

/* The same kept between @low and @high: a bounded isotonic regression is the free one, clamped. */
static gboolean
spread_between (double *wants, const double *offsets, guint n, double low, double high)
{
  double last = n > 0 ? offsets[n - 1] : 0;

  if (n > 0 && last - offsets[0] > high - low)
    return FALSE;
  spread (wants, offsets, n);
  for (guint i = 0; i < n; i++)
    wants[i] = CLAMP (wants[i] - offsets[i], low - offsets[0], high - last) + offsets[i];
  return TRUE;
}

static double *
even_offsets (guint n, double pitch)
{
  double *offsets = g_new (double, MAX (n, 1));

  for (guint i = 0; i < n; i++)
    offsets[i] = i * pitch;
  return offsets;
}

void
tw_place_spread (double *values, guint n, double pitch)
{
  g_autofree double *offsets = even_offsets (n, pitch);

  g_return_if_fail (pitch > 0);

  spread (values, offsets, n);
}

gboolean
tw_place_spread_between (double *values, guint n, double pitch, double low, double high)
{
  g_autofree double *offsets = even_offsets (n, pitch);

  g_return_val_if_fail (pitch > 0 && low <= high, FALSE);

  return spread_between (values, offsets, n, low, high);
}

/* --- stacked dimensions -----------------------------------------------------------------------------------
 */

static int
compare_spans (gconstpointer a, gconstpointer b)
{
  const TwPlaceSpan *one = *(TwPlaceSpan *const *)a, *two = *(TwPlaceSpan *const *)b;
  double longer = (one->to - one->from) - (two->to - two->from);
  double later = one->from - two->from;

  if (longer != 0)
    return longer > 0 ? 1 : -1;
  if (later != 0)
    return later > 0 ? 1 : -1;
  return one > two ? 1 : -1;
}

static gboolean
meets (const TwPlaceSpan *a, const TwPlaceSpan *b)
{
  return MIN (a->from, a->text_from) < MAX (b->to, b->text_to)
         && MIN (b->from, b->text_from) < MAX (a->to, a->text_to);
}

static gboolean
tier_is_taken (guint tier, const TwPlaceSpan *span, TwPlaceSpan *const *placed, guint n)
{
  for (guint i = 0; i < n; i++)
    if (placed[i]->tier == tier && meets (placed[i], span))
      return TRUE;
  return FALSE;
}

/* Lowest tier for @span over those that are placed already, shorter ones all. */
static guint
lowest_tier (const TwPlaceSpan *span, TwPlaceSpan *const *placed, guint n)
{
  guint tier = 1;

  for (guint i = 0; i < n; i++)
    if (placed[i]->from >= span->from && placed[i]->to <= span->to)
      tier = MAX (tier, placed[i]->tier + 1);
  while (tier_is_taken (tier, span, placed, n))
    tier++;
  return tier;
}

guint
tw_place_tiers (TwPlaceSpan *spans, guint n)
{
  g_autofree TwPlaceSpan **order = g_new (TwPlaceSpan *, MAX (n, 1));
  guint n_tiers = 0;

  for (guint i = 0; i < n; i++)
    order[i] = &spans[i];
  qsort (order, n, sizeof *order, compare_spans);
  for (guint i = 0; i < n; i++) {
    order[i]->tier = lowest_tier (order[i], order, i);
    n_tiers = MAX (n_tiers, order[i]->tier);
  }
  return n_tiers;
}

/* --- labels beside a view ---------------------------------------------------------------------------------
 */

static int
compare_labels (gconstpointer a, gconstpointer b)
{
  const TwPlaceLabel *one = *(TwPlaceLabel *const *)a, *two = *(TwPlaceLabel *const *)b;

  if (one->anchor.y_mm != two->anchor.y_mm)
    return one->anchor.y_mm > two->anchor.y_mm ? 1 : -1;
  if (one->anchor.x_mm != two->anchor.x_mm)
    return one->anchor.x_mm > two->anchor.x_mm ? 1 : -1;
  return one > two ? 1 : -1;
}

/* Takes the labels of one column out of @labels, lowest anchor first. */
static GPtrArray *
column_of (TwPlaceLabel *labels, guint n, gboolean right)
{
  GPtrArray *column = g_ptr_array_new ();

  for (guint i = 0; i < n; i++)
    if (!labels[i].right == !right)
      g_ptr_array_add (column, &labels[i]);
  g_ptr_array_sort (column, compare_labels);
  return column;
}

static double
column_height_mm (const TwPlaceLabel *labels, guint n, gboolean right)
{
  double height_mm = 0;

  for (guint i = 0; i < n; i++)
    if (!labels[i].right == !right)
      height_mm += labels[i].height_mm;
  return height_mm;
}

/* Moves labels from a column that is too full to the other: those first whose way across is shortest. */
static gboolean
balance (TwPlaceLabel *labels, guint n, double middle_mm, double room_mm)
{
  for (guint moves = 0; moves <= n; moves++) {
    gboolean right_full = column_height_mm (labels, n, TRUE) > room_mm;
    TwPlaceLabel *nearest = NULL;

    if (!right_full && column_height_mm (labels, n, FALSE) <= room_mm)
      return TRUE;
    for (guint i = 0; i < n; i++)
      if (!labels[i].right == !right_full
          && (nearest == NULL
              || fabs (labels[i].anchor.x_mm - middle_mm) < fabs (nearest->anchor.x_mm - middle_mm)))
        nearest = &labels[i];
    nearest->right = !right_full;
    if (column_height_mm (labels, n, !right_full) > room_mm)
      return FALSE;
  }
  return FALSE;
}

static double
cross (TwPoint a, TwPoint b, TwPoint c)
{
  return (b.x_mm - a.x_mm) * (c.y_mm - a.y_mm) - (b.y_mm - a.y_mm) * (c.x_mm - a.x_mm);
}

/* Whether the straight leaders of two labels to a column at @x_mm cross. */
static gboolean
leaders_cross (const TwPlaceLabel *a, const TwPlaceLabel *b, double x_mm)
{
  TwPoint a_end = { x_mm, a->y_mm }, b_end = { x_mm, b->y_mm };

  return cross (a->anchor, a_end, b->anchor) * cross (a->anchor, a_end, b_end) < 0
         && cross (b->anchor, b_end, a->anchor) * cross (b->anchor, b_end, a_end) < 0;
}

static gboolean
spread_column (GPtrArray *column, double low_mm, double high_mm)
{
  g_autofree double *wants = g_new (double, MAX (column->len, 1));
  g_autofree double *offsets = g_new (double, MAX (column->len, 1));
  double at_mm = 0;

  for (guint i = 0; i < column->len; i++) {
    const TwPlaceLabel *label = g_ptr_array_index (column, i);

    wants[i] = label->anchor.y_mm;
    offsets[i] = at_mm + label->height_mm / 2;
    at_mm += label->height_mm;
  }
  if (column->len > 0) {
    const TwPlaceLabel *top = g_ptr_array_index (column, column->len - 1);

    if (!spread_between (wants, offsets, column->len, low_mm + offsets[0], high_mm - top->height_mm / 2))
      return FALSE;
  }
  for (guint i = 0; i < column->len; i++)
    ((TwPlaceLabel *)g_ptr_array_index (column, i))->y_mm = wants[i];
  return TRUE;
}

/* Swaps one pair of labels whose leaders cross; FALSE if none do. */
static gboolean
uncross (GPtrArray *column, double x_mm)
{
  for (guint i = 0; i < column->len; i++)
    for (guint k = i + 1; k < column->len; k++)
      if (leaders_cross (g_ptr_array_index (column, i), g_ptr_array_index (column, k), x_mm)) {
        gpointer held = column->pdata[i];

        column->pdata[i] = column->pdata[k];
        column->pdata[k] = held;
        return TRUE;
      }
  return FALSE;
}

gboolean
tw_place_columns (TwPlaceLabel *labels, guint n, const TwBox *view, double low_mm, double high_mm)
{
  double middle_mm = (view->x0_mm + view->x1_mm) / 2;

  for (guint i = 0; i < n; i++)
    labels[i].right = labels[i].anchor.x_mm > middle_mm;
  if (!balance (labels, n, middle_mm, high_mm - low_mm))
    return FALSE;
  for (guint side = 0; side < 2; side++) {
    g_autoptr (GPtrArray) column = column_of (labels, n, side == 1);
    double x_mm = side == 1 ? view->x1_mm : view->x0_mm;

    if (!spread_column (column, low_mm, high_mm))
      return FALSE;
    for (guint tries = 0; tries < n * n && uncross (column, x_mm); tries++)
      if (!spread_column (column, low_mm, high_mm))
        return FALSE;
  }
  return TRUE;
}
