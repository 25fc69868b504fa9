/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/check-private.h"

#include "base/outline.h"
#include "base/units.h"

#include <math.h>

static GArray *
corners_of (GPtrArray *list)
{
  GArray *corners = g_array_new (FALSE, FALSE, sizeof (TwCorner));

  for (guint i = 0; i < list->len; i++) {
    const TwOutlineCorner *from = TW_ELEMENT (list, TwOutlineCorner, i);
    TwCorner corner = { { from->across_mm, from->up_mm }, isnan (from->bow_mm) ? 0 : from->bow_mm };

    g_array_append_val (corners, corner);
  }
  return corners;
}

/* Whether every corner has its place. */
static gboolean
corners_placed (GPtrArray *list, const char *name, const char *where, TwTroubles *troubles)
{
  for (guint i = 0; i < list->len; i++) {
    const TwOutlineCorner *corner = TW_ELEMENT (list, TwOutlineCorner, i);

    if (isnan (corner->across_mm) || isnan (corner->up_mm)) {
      tw_troubles_add (troubles, g_strdup_printf ("%s.%s[%u]", where, name, i), g_strdup (_ ("no place")),
                       _ ("across_mm and up_mm"));
      return FALSE;
    }
  }
  return TRUE;
}

/* Outlines must be whole: nothing crossing itself, the hole inside. */
static void
check_outline (GPtrArray *outline, GPtrArray *inner, TwGeos *geos, const char *where, TwTroubles *troubles)
{
  g_autoptr (GArray) outer = corners_of (outline), hole = corners_of (inner);
  const TwOutline rings[]
      = { { (const TwCorner *)outer->data, outer->len }, { (const TwCorner *)hole->data, hole->len } };
  g_autofree char *text = NULL;
  TwOutlineFault fault;

  if (!corners_placed (outline, "outline", where, troubles)
      || !corners_placed (inner, "hole", where, troubles))
    return;
  if (outer->len == 0 && hole->len > 0)
    tw_troubles_add (troubles, g_strdup_printf ("%s.hole", where), g_strdup (_ ("a hole in nothing")),
                     _ ("an outline round it"));
  if (outer->len == 0 || tw_outline_check (geos, rings, hole->len > 0 ? 2 : 1, &fault))
    return;
  text = tw_outline_fault_text (&fault);
  tw_troubles_add (troubles, g_strdup_printf ("%s.%s", where, fault.ring == 0 ? "outline" : "hole"),
                   /* Translators: found … one that crosses itself at (12.0, 40.0) */
                   g_strdup_printf (_ ("one that %s"), text),
                   _ ("an outline that closes and does not touch itself"));
}

static void
check_lists (const TwPart *part, const char *where, TwTroubles *troubles)
{
  const TwKindInfo *info = tw_kind_info (part->kind);

  for (guint i = 0; i < info->n_lists; i++) {
    const TwList *list = &info->lists[i];
    guint n = tw_part_list (part, i)->len;

    if (n > list->most || (n > 0 && n < list->fewest)) {
      g_autofree char *expected
          = g_strdup_printf (_ ("none, or a list of %u to %u"), list->fewest, list->most);

      tw_troubles_add (troubles, g_strdup_printf ("%s.%s", where, list->name),
                       g_strdup_printf (_ ("%u of them"), n), expected);
    }
  }
}

static void
check_range (const TwVolume *volume, const char *where, TwTroubles *troubles)
{
  if (volume->from_mm >= volume->to_mm)
    tw_troubles_add (troubles, g_strdup_printf ("%s.to_mm", where), tw_number_text (volume->to_mm),
                     _ ("a figure above from_mm"));
}

void
tw_part_check (const TwPart *part, TwGeos *geos, const char *where, TwTroubles *troubles)
{
  int outline = tw_kind_list (part->kind, "outline"), hole = tw_kind_list (part->kind, "hole");
  guint before = troubles->n;

  check_lists (part, where, troubles);
  if (outline >= 0 && troubles->n == before) {
    g_autoptr (GPtrArray) none = g_ptr_array_new ();

    check_outline (tw_part_list (part, (guint)outline), hole >= 0 ? tw_part_list (part, (guint)hole) : none,
                   geos, where, troubles);
  }
  if (part->kind == TW_KIND_VOLUME)
    check_range ((const TwVolume *)part, where, troubles);
}
