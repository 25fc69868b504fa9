/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "propose/first-layout-private.h"

#include "base/error.h"

#include <math.h>

#pragma GCC diagnostic ignored "-Wformat-nonliteral" /* the sentences are translated */

/* The list while it is written. */
typedef struct {
  const TwFirstPlan *plan;
  TwUnitStyle style;
  GPtrArray *choices;
} Tell;

/* Takes both (transfer full). */
static void
tell (Tell *self, char *what, char *why)
{
  TwFirstChoice *choice = g_new0 (TwFirstChoice, 1);

  choice->what = what;
  choice->why = why;
  g_ptr_array_add (self->choices, choice);
}

static char *
length (const Tell *self, double length_mm)
{
  return tw_units_format (TW_QUANTITY_LENGTH, &self->style, length_mm, self->style.inches ? 2 : 0);
}

static char *
bare (const Tell *self, double length_mm)
{
  return tw_units_format_number (TW_QUANTITY_LENGTH, &self->style, length_mm, self->style.inches ? 2 : 0);
}

/* What is assumed is millimetres that no fraction fits: inches as decimals. */
static char *
rough (const Tell *self, double length_mm)
{
  TwUnitStyle style = self->style;

  style.fractions = FALSE;
  return tw_units_format (TW_QUANTITY_LENGTH, &style, length_mm, self->style.inches ? 2 : 0);
}

static char *
figure (const Tell *self, TwQuantity quantity, double value, int decimals)
{
  return tw_units_format (quantity, &self->style, value, decimals);
}

static void
tell_core (Tell *self)
{
  const TwFirstPlan *plan = self->plan;
  g_autofree char *width = bare (self, plan->level ? plan->face_across_mm : plan->face_along_mm);
  g_autofree char *height = length (self, plan->level ? plan->face_along_mm : plan->face_across_mm);
  g_autofree char *clearance = rough (self, TW_FIRST_CLEARANCE_MM);
  g_autofree char *load = NULL, *thickness = rough (self, plan->thickness_mm);

  tell (self, g_strdup_printf (_ ("Face %s × %s, %u tubes"), width, height, plan->n_tubes),
        plan->is_capped
            ? g_strdup (_ ("the largest core that one can usually buy; the bay would take more"))
            : g_strdup_printf (_ ("the largest that fits with its tanks and %s of clearance"), clearance));
  if (plan->wish->core_kind != NULL)
    return;
  load = figure (self, TW_QUANTITY_NONE, plan->load_kw_m2_k, 1);
  tell (self, g_strdup_printf (_ ("%s, %s deep"), tw_entry_name (plan->kind), thickness),
        isnan (plan->load_kw_m2_k)
            ? g_strdup (_ ("a usual core; nobody said the heat"))
            : g_strdup_printf (
                _ ("by the load of %s kW for each m² and kelvin; an estimate, good to a third"), load));
}

static void
tell_tubes (Tell *self)
{
  const TwFirstPlan *plan = self->plan;

  if (plan->wish->tubes >= 0)
    return;
  tell (self,
        g_strdup (plan->level ? _ ("Level tubes, tanks left and right")
                              : _ ("Upright tubes, tanks above and below")),
        g_strdup ((plan->wish->bay_width_mm >= plan->wish->bay_height_mm) == plan->level
                      ? _ ("along the longer side of the bay: short tanks, long tubes")
                      : _ ("so the bay holds more of it")));
}

static void
tell_passes (Tell *self)
{
  const TwFirstPlan *plan = self->plan;
  g_autofree char *re = figure (self, TW_QUANTITY_NONE, round (plan->reynolds / 100) * 100, 0);

  if (plan->two_passes)
    tell (self, g_strdup (_ ("Two passes")),
          g_strdup_printf (_ ("with one the tubes would run laminar (Re about %s); two lift them out of it"),
                           re));
  else if (isnan (plan->reynolds))
    tell (self, g_strdup (_ ("One pass")), g_strdup (_ ("it costs the pump least; nobody said the heat")));
  else
    tell (self, g_strdup (_ ("One pass")),
          g_strdup_printf (_ ("a second would cost the pump more than it gains (Re about %s)"), re));
}

static void
tell_ports (Tell *self)
{
  const TwFirstPlan *plan = self->plan;
  g_autofree char *flow = figure (self, TW_QUANTITY_WATER_FLOW, plan->flow_l_min, 0);
  g_autofree char *drop = figure (self, TW_QUANTITY_NONE, TW_FIRST_DROP_K, 0);

  if (plan->stub != NULL)
    tell (self, g_strdup_printf (_ ("Inlet and outlet towards the air: %s"), tw_entry_name (plan->stub)),
          isnan (plan->flow_l_min)
              ? g_strdup (_ ("a usual size"))
              : g_strdup_printf (_ ("for about %s, with which the water cools by %s K"), flow, drop));
  tell (self, g_strdup_printf (_ ("Bleeds above and drains below, %s"), TW_FIRST_BUNG_SIZE),
        g_strdup (_ ("air must leave at every highest place")));
}

static void
tell_fans (Tell *self)
{
  const TwFirstPlan *plan = self->plan;
  guint n = plan->n_across * plan->n_up;
  g_autofree char *swept = length (self, plan->swept_mm), *depth = rough (self, plan->fans_depth_mm);
  g_autofree char *plenum = rough (self, TW_FIRST_PLENUM_MM), *fan = rough (self, TW_FIRST_FAN_DEPTH_MM);

  switch (plan->fans) {
  case TW_FIRST_FANS_FIT:
    tell (self,
          g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u fan of %s in a shroud, pulling",
                                        "%u fans of %s in a shroud, pulling", n),
                           n, swept),
          g_strdup_printf (_ ("they sweep most of the face; plenum %s and fan depth %s are assumed"), plenum,
                           fan));
    break;
  case TW_FIRST_FANS_NO_DEPTH:
    tell (self, g_strdup (_ ("No fans")), g_strdup_printf (_ ("they would need a bay %s deep"), depth));
    break;
  case TW_FIRST_FANS_NO_FACE:
    tell (self, g_strdup (_ ("No fans")), g_strdup (_ ("the face is too small for a usual one")));
    break;
  case TW_FIRST_FANS_NOT_WISHED:
  default:
    break;
  }
}

static void
tell_heat (Tell *self)
{
  const TwFirstLayoutWish *wish = self->plan->wish;
  g_autofree char *heat = figure (self, TW_QUANTITY_POWER, tw_first_heat_kw (wish), 1);
  double taken = wish->share_of == TW_FIRST_OF_FUEL ? TW_FIRST_SHARE_FUEL : TW_FIRST_SHARE_BRAKE;
  double share = isnan (wish->share) ? taken : wish->share;
  g_autofree char *share_text = figure (self, TW_QUANTITY_SHARE, share, 0);
  g_autofree char *brake_share = figure (self, TW_QUANTITY_SHARE, TW_FIRST_BRAKE_OF_FUEL, 1);
  GString *why;

  if (!isnan (wish->heat_kw) || isnan (wish->brake_kw))
    return;
  why = g_string_new (NULL);
  if (wish->share_of == TW_FIRST_OF_FUEL)
    g_string_append_printf (why,
                            _ ("%s of the fuel, of which %s reach the crankshaft (petrol at full power, 25 "
                               "to 28 %%, from memory)"),
                            share_text, brake_share);
  else
    g_string_append_printf (why, _ ("%s of the brake power"), share_text);
  if (isnan (wish->share))
    g_string_append_printf (why, "; %s", _ ("a usual share, petrol at full power: measure it"));
  tell (self, g_strdup_printf (_ ("Heat to the water %s"), heat), g_string_free (why, FALSE));
}

static void
tell_unsaid (Tell *self)
{
  const TwFirstLayoutWish *wish = self->plan->wish;
  g_autofree char *ambient = figure (self, TW_QUANTITY_TEMPERATURE, TW_FIRST_AMBIENT_C, 0);

  if (isnan (wish->ambient_c) && !isnan (tw_first_heat_kw (wish)))
    tell (self, g_strdup_printf (_ ("Ambient %s"), ambient),
          g_strdup (_ ("for the choice of core only; nobody said it")));
  if (wish->coolant == NULL && !isnan (tw_first_heat_kw (wish)))
    tell (self, g_strdup (_ ("Water")), g_strdup (_ ("for passes and stubs only; nobody said the coolant")));
  tell (self, g_strdup (_ ("No hoses")), g_strdup (_ ("nobody said where the engine's ports are")));
  tell (self, g_strdup (_ ("Whether it cools is not yet computed")),
        g_strdup (_ ("this is a place to start from: put in what you have")));
}

void
tw_first_plan_tell (const TwFirstPlan *self, char decimal, GPtrArray *choices)
{
  Tell told = { self, TW_UNIT_STYLE_MM, choices };

  if (self->wish->shown_in == TW_SHOWN_IN_INCH)
    told.style = TW_UNIT_STYLE_IN;
  told.style.finest = 16;
  told.style.decimal = decimal;
  tell_core (&told);
  tell_tubes (&told);
  tell_passes (&told);
  tell_fans (&told);
  tell_ports (&told);
  tell_heat (&told);
  tell_unsaid (&told);
}

char *
tw_first_note (const GPtrArray *choices)
{
  GString *note = g_string_new (_ ("First layout. What was chosen, and why:"));

  for (guint i = 0; i < choices->len; i++) {
    const TwFirstChoice *choice = g_ptr_array_index (choices, i);

    g_string_append_printf (note, "\n%s – %s", choice->what, choice->why);
  }
  return g_string_free (note, FALSE);
}
