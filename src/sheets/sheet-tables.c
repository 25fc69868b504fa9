/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Tables of the arrangement, and what all tables are made with.
 */
#include "sheets/sheet-private.h"

#include <math.h>

/* Clearances listed: the closest ones. */
#define CLEARANCES_LISTED 6

TwTable *
tw_sheet_table (const TwSheetSet *self, const char *title, const char *const *marked, guint n)
{
  const char *headings[12];

  for (guint i = 0; i < n; i++)
    headings[i] = tw_sheet_words (self, marked[i]);
  return tw_table_new (tw_sheet_words (self, title), headings, n);
}

char *
tw_sheet_choice (const TwSheetSet *self, const TwChoice *choices, int value)
{
  return g_strdup (value >= 0 ? tw_sheet_words (self, choices[value].label) : "–");
}

char *
tw_sheet_port_size (const TwSheetSet *self, const TwPort *port)
{
  const char *standard = port->standard != NULL ? port->standard : "stub";
  g_autofree char *outside = NULL, *upper = NULL;

  if (g_str_equal (standard, "stub")) {
    if (port->size == NULL && isnan (port->outside_mm))
      return g_strdup (tw_sheet_words (self, N_ ("stub")));
    outside = tw_sheet_length (self, port->outside_mm);
    return g_strdup_printf ("%s Ø%s", tw_sheet_words (self, N_ ("stub")),
                            port->size != NULL ? port->size : outside);
  }
  if (g_str_has_prefix (standard, "iso-"))
    return g_strdup_printf ("ISO %s %s", standard + 4, port->size != NULL ? port->size : "");
  upper = g_ascii_strup (standard, -1);
  return g_strdup_printf ("%s %s", upper, port->size != NULL ? port->size : "");
}

TwTable *
tw_sheet_port_places (const TwSheetSet *self)
{
  static const char *const headings[] = { "", N_ ("Port"), N_ ("Use"), N_ ("Size"), "x", "y", "z" };
  TwTable *table = tw_sheet_table (
      self, N_ ("Ports: middle of the hole from datum 0; x right, y up, z with the air"), headings, 7);
  TwVec zero = { 0, 0, 0 };
  const TwPlacedPort *ports;
  guint n;

  (void)tw_sheet_datum (self, &zero);
  ports = tw_placement_ports (self->placement, &n);
  for (guint i = 0; i < n; i++) {
    const TwPort *port = (const TwPort *)tw_drawing_find (self->drawing, ports[i].id);
    TwVec at = tw_vec_subtract (ports[i].at, zero);
    char *cells[] = { tw_view_port_letter (self->drawing, ports[i].id),
                      g_strdup (tw_sheet_name (self, ports[i].id)),
                      tw_sheet_choice (self, tw_choices_port_use, port->use),
                      tw_sheet_port_size (self, port),
                      tw_sheet_length (self, at.x),
                      tw_sheet_length (self, at.y),
                      tw_sheet_length (self, at.z) };

    tw_table_add (table, cells);
  }
  return table;
}

static int
by_over (gconstpointer a, gconstpointer b)
{
  const TwClearancePair *x = *(const TwClearancePair *const *)a, *y = *(const TwClearancePair *const *)b;

  return x->over_mm < y->over_mm ? -1 : x->over_mm > y->over_mm;
}

TwTable *
tw_sheet_clearances (const TwSheetSet *self)
{
  static const char *const headings[] = { N_ ("Part"), N_ ("To"), N_ ("Distance"), N_ ("Wanted") };
  TwTable *table = tw_sheet_table (self, N_ ("Closest clearances"), headings, 4);
  g_autoptr (GPtrArray) sorted = g_ptr_array_new ();
  const TwClearancePair *pairs;
  guint n;

  pairs = tw_clearance_pairs (tw_answer_clearance (self->source->answer), &n);
  for (guint i = 0; i < n; i++)
    g_ptr_array_add (sorted, (gpointer)&pairs[i]);
  g_ptr_array_sort (sorted, by_over);
  for (guint i = 0; i < MIN (n, CLEARANCES_LISTED); i++) {
    const TwClearancePair *pair = g_ptr_array_index (sorted, i);
    char *cells[]
        = { g_strdup (tw_sheet_name (self, pair->part)), g_strdup (tw_sheet_name (self, pair->other)),
            pair->is_outside ? g_strdup (tw_sheet_words (self, N_ ("outside")))
            : pair->crosses  ? g_strdup (tw_sheet_words (self, N_ ("crosses")))
                             : tw_sheet_length (self, pair->distance_mm),
            tw_sheet_length (self, pair->required_mm) };

    tw_table_add (table, cells);
  }
  return table;
}

void
tw_sheet_add_size (TwTable *table, const char *label, char *text)
{
  char *cells[] = { g_strdup (label), text };

  tw_table_add (table, cells);
}

static void
add_places (const TwSheetSet *self, TwTable *table, const char *label, TwVec at)
{
  g_autofree char *x = tw_sheet_length (self, at.x), *y = tw_sheet_length (self, at.y),
                  *z = tw_sheet_length (self, at.z);

  tw_sheet_add_size (table, label, g_strdup_printf ("%s; %s; %s", x, y, z));
}

/* How a core is turned; nothing of one that stands square. */
static void
add_turns (const TwSheetSet *self, TwTable *table, TwId id)
{
  static const char *const names[] = { N_ ("turned"), N_ ("leans"), N_ ("rolled"), N_ ("heading") };
  const TwCore *core = (const TwCore *)tw_drawing_find (self->drawing, id);
  const double turns[] = { core->turn_deg, core->lean_deg, core->roll_deg, core->heading_deg };
  g_autoptr (GString) text = g_string_new (NULL);
  g_autofree char *label
      = g_strdup_printf ("%s: %s", tw_sheet_name (self, id), tw_sheet_words (self, N_ ("angles")));

  for (guint i = 0; i < G_N_ELEMENTS (turns); i++)
    if (!isnan (turns[i]) && turns[i] != 0) {
      g_autofree char *angle = tw_sheet_figure (self, TW_QUANTITY_ANGLE, turns[i]);

      g_string_append_printf (text, "%s%s %s", text->len > 0 ? "; " : "", tw_sheet_words (self, names[i]),
                              angle);
    }
  if (text->len > 0)
    tw_sheet_add_size (table, label, g_strdup (text->str));
}

static void
add_faces (const TwSheetSet *self, TwTable *table)
{
  const TwFaceShade *faces;
  guint n;

  faces = tw_frontal_faces (tw_answer_frontal (self->source->answer), &n);
  for (guint i = 0; i < n; i++) {
    const char *name = tw_sheet_name (self, faces[i].core);
    g_autofree char *face = tw_sheet_figure (self, TW_QUANTITY_AREA, faces[i].face_mm2);
    g_autofree char *projected = tw_sheet_figure (self, TW_QUANTITY_AREA, faces[i].projected_mm2);
    g_autofree char *area
        = g_strdup_printf ("%s: %s", name, tw_sheet_words (self, N_ ("face; seen along z")));
    g_autofree char *middle
        = g_strdup_printf ("%s: %s", name, tw_sheet_words (self, N_ ("middle of the face, job's x; y; z")));

    tw_sheet_add_size (table, area, g_strdup_printf ("%s; %s", face, projected));
    add_places (self, table, middle, tw_placement_core (self->placement, faces[i].core)->frame.origin);
    add_turns (self, table, faces[i].core);
  }
}

/* Core, tanks, shrouds and fans together; ports stand out of it. */
static void
add_overall (const TwSheetSet *self, TwTable *table)
{
  TwVec from, to;
  g_autofree char *x = NULL, *y = NULL, *z = NULL;

  if (!tw_sheet_bounds (self->placement, FALSE, &from, &to))
    return;
  x = tw_sheet_length (self, to.x - from.x);
  y = tw_sheet_length (self, to.y - from.y);
  z = tw_sheet_length (self, to.z - from.z);
  tw_sheet_add_size (table, tw_sheet_words (self, N_ ("Overall without ports x × y × z")),
                     g_strdup_printf ("%s × %s × %s", x, y, z));
}

TwTable *
tw_sheet_sizes (const TwSheetSet *self)
{
  TwTable *table = tw_table_new (tw_sheet_words (self, N_ ("The whole")), NULL, 2);
  const TwPasses *passes = tw_answer_passes (self->source->answer);
  const TwRoutes *routes = tw_answer_routes (self->source->answer);
  g_autofree char *in_tanks = NULL, *in_hoses = NULL;
  double tanks_l = 0, hoses_l = 0;
  TwVec zero;

  add_overall (self, table);
  add_faces (self, table);
  if (tw_sheet_datum (self, &zero))
    add_places (self, table, tw_sheet_words (self, N_ ("Datum 0 from the job's zero, x; y; z")), zero);
  for (guint i = 0; i < tw_passes_n_chambers (passes); i++)
    tanks_l += tw_passes_chamber (passes, i)->volume_l;
  for (guint i = 0; i < tw_routes_count (routes); i++)
    hoses_l += tw_routes_get (routes, i)->volume_l;
  in_tanks = tw_sheet_figure (self, TW_QUANTITY_VOLUME, tanks_l);
  in_hoses = tw_sheet_figure (self, TW_QUANTITY_VOLUME, hoses_l);
  if (tw_passes_n_chambers (passes) == 0 && tw_routes_count (routes) == 0)
    return table;
  tw_sheet_add_size (table, tw_sheet_words (self, N_ ("Water in the tanks; in the hoses")),
                     g_strdup_printf ("%s; %s", in_tanks, in_hoses));
  tw_sheet_add_size (table, tw_sheet_words (self, N_ ("Mass, dry and filled")),
                     g_strdup (tw_sheet_words (self, N_ ("not yet computed"))));
  return table;
}
