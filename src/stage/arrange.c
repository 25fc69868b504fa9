/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "stage/arrange-private.h"

#include "stage/extent.h"

#include <math.h>

#define SAME_MM 1e-6 /* as near a part stands where it should */

/* --- the set -------------------------------------------------------------------------------------------- */

const TwPart *
tw_arrange_part (const TwArrangeSet *set, guint nth, GError **error)
{
  const TwPart *part = tw_job_find (set->job, set->ids[nth]);

  if (part != NULL && part->kind != TW_KIND_SETTINGS)
    return part;
  g_set_error (error, TW_ERROR, TW_ERROR_MISSING, _ ("there is no part \"%s\""), set->ids[nth].text);
  return NULL;
}

gboolean
tw_arrange_holds (const TwArrangeSet *set, TwId part)
{
  for (guint i = 0; i < set->n; i++)
    if (tw_id_equal (set->ids[i], part))
      return TRUE;
  return FALSE;
}

TwChange *
tw_arrange_finish (TwChange *group, const char *why_empty, GError **error)
{
  if (tw_change_group_size (group) > 0)
    return group;
  tw_change_free (group);
  g_set_error_literal (error, TW_ERROR, TW_ERROR_REFUSED, why_empty);
  return NULL;
}

static gboolean
check_set (const TwArrangeSet *set, guint least, GError **error)
{
  if (set->n < least) {
    g_set_error (error, TW_ERROR, TW_ERROR_REFUSED,
                 g_dngettext (NULL, "choose at least %u part", "choose at least %u parts", least), least);
    return FALSE;
  }
  for (guint i = 0; i < set->n; i++)
    if (tw_arrange_part (set, i, error) == NULL)
      return FALSE;
  return TRUE;
}

/* --- moving in the view --------------------------------------------------------------------------------- */

/* By what the body goes when it is drawn so far, or FALSE with the reason. */
static gboolean
amounts_for (const TwArrangeSet *set,
             const TwPart *part,
             const TwFreedoms *freedoms,
             TwPoint drawn,
             double *amounts_mm,
             GError **error)
{
  TwPoint seen = { 0.0, 0.0 };

  (void)tw_freedoms_solve (freedoms, set->view, NULL, drawn, amounts_mm);
  for (guint i = 0; i < freedoms->n; i++) {
    TwPoint way = tw_stage_view_direction (set->view, freedoms->list[i].along);

    if (amounts_mm[i] < freedoms->list[i].low_mm || amounts_mm[i] > freedoms->list[i].high_mm) {
      g_set_error (error, TW_ERROR, TW_ERROR_REFUSED, _ ("%s cannot go so far"), tw_part_name (part));
      return FALSE;
    }
    seen.x_mm += amounts_mm[i] * way.x_mm;
    seen.y_mm += amounts_mm[i] * way.y_mm;
  }
  if (tw_point_distance_mm (seen, drawn) <= SAME_MM)
    return TRUE;
  g_set_error (error, TW_ERROR, TW_ERROR_REFUSED, _ ("%s cannot go that way in this view"),
               tw_part_name (part));
  return FALSE;
}

static gboolean
move (const TwArrangeSet *set, guint nth, TwPoint drawn, TwChange *group, GError **error)
{
  g_autoptr (TwGrips) grips = tw_grips_new (set->placement, set->view, set->ids[nth]);
  const TwPart *part = tw_arrange_part (set, nth, error);
  double amounts_mm[TW_FREEDOM_MOST];

  if (hypot (drawn.x_mm, drawn.y_mm) <= SAME_MM)
    return TRUE;
  if (tw_grips_body (grips) == NULL) {
    g_set_error (error, TW_ERROR, TW_ERROR_REFUSED, _ ("%s cannot go that way in this view"),
                 tw_part_name (part));
    return FALSE;
  }
  if (!amounts_for (set, part, tw_grips_freedoms (grips, 0), drawn, amounts_mm, error))
    return FALSE;
  tw_freedoms_change (tw_grips_freedoms (grips, 0), part->id, amounts_mm, group);
  return TRUE;
}

static gboolean
box_of (const TwArrangeSet *set, guint nth, TwBox *box, GError **error)
{
  *box = tw_extent_seen (set->placement, set->view, set->ids[nth], TW_EXTENT_PART);
  if (!tw_box_is_empty (*box))
    return TRUE;
  g_set_error (error, TW_ERROR, TW_ERROR_REFUSED, _ ("%s has no size that could be seen"),
               tw_part_name (tw_arrange_part (set, nth, NULL)));
  return FALSE;
}

/* --- aligning ------------------------------------------------------------------------------------------- */

static TwPoint
way_to_align (TwBox lead, TwBox box, TwAlign align)
{
  switch (align) {
  case TW_ALIGN_LEFT:
    return (TwPoint){ lead.x0_mm - box.x0_mm, 0.0 };
  case TW_ALIGN_MIDDLE:
    return (TwPoint){ (lead.x0_mm + lead.x1_mm - box.x0_mm - box.x1_mm) / 2.0, 0.0 };
  case TW_ALIGN_RIGHT:
    return (TwPoint){ lead.x1_mm - box.x1_mm, 0.0 };
  case TW_ALIGN_TOP:
    return (TwPoint){ 0.0, lead.y1_mm - box.y1_mm };
  case TW_ALIGN_CENTRE:
    return (TwPoint){ 0.0, (lead.y0_mm + lead.y1_mm - box.y0_mm - box.y1_mm) / 2.0 };
  case TW_ALIGN_BOTTOM:
    return (TwPoint){ 0.0, lead.y0_mm - box.y0_mm };
  }
  g_assert_not_reached ();
}

TwChange *
tw_arrange_align (const TwArrangeSet *set, TwAlign align, GError **error)
{
  g_autoptr (TwChange) group = tw_change_group (set->label);
  TwBox lead, box;

  if (!check_set (set, 2, error) || !box_of (set, set->n - 1, &lead, error))
    return NULL;
  for (guint i = 0; i + 1 < set->n; i++)
    if (!box_of (set, i, &box, error) || !move (set, i, way_to_align (lead, box, align), group, error))
      return NULL;
  return tw_arrange_finish (g_steal_pointer (&group), _ ("they are aligned already"), error);
}

/* --- spacing -------------------------------------------------------------------------------------------- */

/* One part along the way in which it is spaced. */
typedef struct {
  guint nth;
  double low_mm;  /* of its box */
  double high_mm; /* of its box */
} Span;

static double
middle_mm (const Span *span)
{
  return (span->low_mm + span->high_mm) / 2.0;
}

static int
compare_spans (gconstpointer a, gconstpointer b)
{
  double first_mm = middle_mm (a), second_mm = middle_mm (b);

  if (first_mm != second_mm)
    return first_mm < second_mm ? -1 : 1;
  return ((const Span *)a)->nth < ((const Span *)b)->nth ? -1 : 1;
}

/* The distance from middle to middle, or between boxes, that parts them all evenly. */
static double
even_mm (const Span *spans, guint n, gboolean centres)
{
  double rest_mm = spans[n - 1].low_mm - spans[0].high_mm;

  if (centres)
    return (middle_mm (&spans[n - 1]) - middle_mm (&spans[0])) / (n - 1);
  for (guint i = 1; i + 1 < n; i++)
    rest_mm -= spans[i].high_mm - spans[i].low_mm;
  return rest_mm / (n - 1);
}

TwChange *
tw_arrange_space (const TwArrangeSet *set, gboolean upwards, gboolean centres, GError **error)
{
  g_autoptr (TwChange) group = tw_change_group (set->label);
  g_autofree Span *spans = g_new0 (Span, set->n);
  double step_mm, at_mm;

  if (!check_set (set, 3, error))
    return NULL;
  for (guint i = 0; i < set->n; i++) {
    TwBox box;

    if (!box_of (set, i, &box, error))
      return NULL;
    spans[i] = (Span){ i, upwards ? box.y0_mm : box.x0_mm, upwards ? box.y1_mm : box.x1_mm };
  }
  qsort (spans, set->n, sizeof *spans, compare_spans);
  step_mm = even_mm (spans, set->n, centres);
  at_mm = centres ? middle_mm (&spans[0]) : spans[0].high_mm;
  for (guint i = 1; i + 1 < set->n; i++) {
    double by_mm = at_mm + step_mm - (centres ? middle_mm (&spans[i]) : spans[i].low_mm);

    if (!move (set, spans[i].nth, upwards ? (TwPoint){ 0.0, by_mm } : (TwPoint){ by_mm, 0.0 }, group, error))
      return NULL;
    at_mm += step_mm + (centres ? 0.0 : spans[i].high_mm - spans[i].low_mm);
  }
  return tw_arrange_finish (g_steal_pointer (&group), _ ("they are spaced evenly already"), error);
}

/* --- removing and order --------------------------------------------------------------------------------- */

TwChange *
tw_arrange_remove (const TwArrangeSet *set, GError **error)
{
  return check_set (set, 1, error) ? tw_change_remove_several (set->job, set->ids, set->n, set->label) : NULL;
}

TwChange *
tw_arrange_reorder (const TwArrangeSet *set, gboolean to_first, GError **error)
{
  TwChange *group = tw_change_group (set->label);

  if (!check_set (set, 1, error)) {
    tw_change_free (group);
    return NULL;
  }
  for (guint kind = TW_KIND_SETTINGS + 1; kind < TW_FIRST_ELEMENT; kind++) {
    guint n = tw_job_count (set->job, kind);

    for (guint i = 0; i < n; i++) {
      TwId id = tw_job_get (set->job, kind, to_first ? n - 1 - i : i)->id;

      if (tw_arrange_holds (set, id))
        tw_change_group_add (group, tw_change_reorder (id, TW_ID_NONE, to_first ? 0 : n - 1));
    }
  }
  return group;
}
