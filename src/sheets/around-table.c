/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The table of what stands round the core: header tanks, openings, exits.
 */
#include "sheets/sheet-private.h"

#include <math.h>

/* Takes @use and @size. */
static void
add_row (const TwSheetSet *self, TwTable *table, TwId part, char *use, char *size, TwVec middle)
{
  TwVec zero = { 0, 0, 0 }, at;

  (void)tw_sheet_datum (self, &zero);
  at = tw_vec_subtract (middle, zero);
  tw_table_add (table,
                (char *[]){ g_strdup (tw_sheet_name (self, part)), use, size, tw_sheet_length (self, at.x),
                            tw_sheet_length (self, at.y), tw_sheet_length (self, at.z) });
}

static char *
sizes_text (const TwSheetSet *self, const double *sizes_mm, guint n)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < n; i++) {
    g_autofree char *size = tw_sheet_length (self, sizes_mm[i]);

    g_string_append_printf (text, "%s%s", i > 0 ? " × " : "", size);
  }
  return g_string_free (text, FALSE);
}

static char *
tank_size (const TwSheetSet *self, const TwPlacedHeaderTank *tank)
{
  const double sizes_mm[] = { 2 * tank->half.x, 2 * tank->half.y, 2 * tank->half.z };
  double long_mm = tank->form == TW_VESSEL_UPRIGHT ? sizes_mm[1] : sizes_mm[0];
  g_autofree char *sizes = NULL;

  if (tank->form == TW_VESSEL_BOX)
    return sizes_text (self, sizes_mm, 3);
  sizes = sizes_text (self, (const double[]){ tank->round_mm, long_mm }, 2);
  return g_strconcat ("Ø", sizes, NULL);
}

/* Of one with an outline of its own: the box round it. */
static char *
opening_size (const TwSheetSet *self, const TwPlacedOpening *opening)
{
  TwBox box = tw_area_bounds (opening->outline);

  return sizes_text (self, (const double[]){ box.x1_mm - box.x0_mm, box.y1_mm - box.y0_mm }, 2);
}

TwTable *
tw_sheet_around (const TwSheetSet *self)
{
  static const char *const headings[] = { N_ ("Part"), N_ ("Use"), N_ ("Size"), "x", "y", "z" };
  TwTable *table
      = tw_sheet_table (self, N_ ("Header tanks, openings, exits: middle from datum 0"), headings, 6);
  guint n_tanks, n_openings;
  const TwPlacedHeaderTank *tanks = tw_placement_header_tanks (self->placement, &n_tanks);
  const TwPlacedOpening *openings = tw_placement_openings (self->placement, &n_openings);

  for (guint i = 0; i < n_tanks; i++)
    add_row (self, table, tanks[i].id, tw_sheet_choice (self, tw_choices_vessel, tanks[i].use),
             tank_size (self, &tanks[i]), tanks[i].frame.origin);
  for (guint i = 0; i < n_openings; i++) {
    TwKind kind = openings[i].is_exit ? TW_KIND_EXIT : TW_KIND_OPENING;

    add_row (self, table, openings[i].id, g_strdup (tw_sheet_words (self, tw_kind_info (kind)->noun)),
             opening_size (self, &openings[i]), openings[i].middle);
  }
  return table;
}
