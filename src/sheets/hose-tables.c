/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Tables of the hose runs, and of their bends by the numbers in the views.
 */
#include "sheets/sheet-private.h"

#include <math.h>

TwTable *
tw_sheet_hoses (const TwSheetSet *self)
{
  static const char *const headings[]
      = { "", N_ ("Run"), N_ ("From"), N_ ("To"), N_ ("Bore"), N_ ("Length"), N_ ("Cut"), N_ ("Bends") };
  TwTable *table = tw_sheet_table (self, N_ ("Hose runs: length wall to wall, cut length"), headings, 8);
  const TwRoutes *routes = tw_answer_routes (self->source->answer);

  for (guint i = 0; i < tw_routes_count (routes); i++) {
    const TwRoute *route = tw_routes_get (routes, i);
    const TwHose *hose = (const TwHose *)tw_drawing_find (self->drawing, route->hose);
    char *cells[] = { g_strdup_printf ("%u", i + 1),
                      g_strdup (tw_sheet_name (self, route->hose)),
                      g_strdup (tw_sheet_name (self, hose->from)),
                      g_strdup (tw_sheet_name (self, hose->to)),
                      tw_sheet_length (self, hose->bore_mm),
                      tw_sheet_length (self, route->centreline_mm),
                      tw_sheet_length (self, route->cut_mm),
                      g_strdup_printf ("%u", route->n_bends) };

    tw_table_add (table, cells);
  }
  return table;
}

static char *
degrees (const TwSheetSet *self, double angle_rad)
{
  double tenths = round (angle_rad * 1800 / G_PI);

  return tw_units_format (TW_QUANTITY_ANGLE, &self->style, tenths / 10, fmod (tenths, 10) == 0 ? 0 : 1);
}

/* One bend with the straight before it; without a @bend the straight at the end. */
static void
add_bend (const TwSheetSet *self,
          TwTable *table,
          const char *number,
          double straight_mm,
          const TwRoutePiece *bend,
          double so_far_mm)
{
  gboolean first = bend != NULL && bend->bend == 1;
  char *cells[] = { g_strdup (number),
                    tw_sheet_length (self, straight_mm),
                    bend != NULL ? degrees (self, bend->angle_rad) : g_strdup (""),
                    bend != NULL ? tw_sheet_length (self, bend->radius_mm) : g_strdup (""),
                    bend != NULL ? (first ? g_strdup ("–") : degrees (self, bend->turn_rad)) : g_strdup (""),
                    tw_sheet_length (self, so_far_mm) };

  tw_table_add (table, cells);
}

static void
add_run (const TwSheetSet *self, TwTable *table, const TwRoute *route, guint run)
{
  double straight_mm = 0, so_far_mm = 0;
  g_autofree char *end = run > 0 ? g_strdup_printf ("%u %s", run, tw_sheet_words (self, N_ ("end")))
                                 : g_strdup (tw_sheet_words (self, N_ ("end")));

  for (guint i = 0; i < route->n_pieces; i++) {
    const TwRoutePiece *piece = &route->pieces[i];
    g_autofree char *number
        = run > 0 ? g_strdup_printf ("%u.%u", run, piece->bend) : g_strdup_printf ("%u", piece->bend);

    so_far_mm += piece->length_mm;
    if (piece->kind == TW_ROUTE_STRAIGHT) {
      straight_mm += piece->length_mm;
      continue;
    }
    add_bend (self, table, number, straight_mm, piece, so_far_mm);
    straight_mm = 0;
  }
  if (route->n_bends > 0)
    add_bend (self, table, end, straight_mm, NULL, so_far_mm);
}

TwTable *
tw_sheet_bends (const TwSheetSet *self)
{
  static const char *const headings[] = { N_ ("Bend"),   N_ ("Straight before"), N_ ("Angle"),
                                          N_ ("Radius"), N_ ("Turn of plane"),   N_ ("Length to its end") };
  TwTable *table
      = tw_sheet_table (self, N_ ("Bends, with the water; turn of plane clockwise looking on"), headings, 6);
  const TwRoutes *routes = tw_answer_routes (self->source->answer);
  guint n = tw_routes_count (routes);

  for (guint i = 0; i < n; i++)
    add_run (self, table, tw_routes_get (routes, i), n > 1 ? i + 1 : 0);
  return table;
}
