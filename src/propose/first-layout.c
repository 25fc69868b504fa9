/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "propose/first-layout-private.h"

#include "base/error.h"

#include <math.h>

TwFirstLayoutWish
tw_first_layout_wish (void)
{
  const double unsaid = (double)NAN;

  return (TwFirstLayoutWish){ .bay_width_mm = unsaid,
                              .bay_height_mm = unsaid,
                              .bay_depth_mm = unsaid,
                              .heat_kw = unsaid,
                              .brake_kw = unsaid,
                              .share = unsaid,
                              .ambient_c = unsaid,
                              .tubes = -1,
                              .fans = TRUE,
                              .shown_in = TW_SHOWN_IN_MM };
}

const char *
tw_first_answer_name (TwFirstAnswer answer)
{
  static const char *const names[TW_FIRST_N_ANSWERS] = {
    [TW_FIRST_WIDTH] = N_ ("bay width"),   [TW_FIRST_HEIGHT] = N_ ("bay height"),
    [TW_FIRST_DEPTH] = N_ ("bay depth"),   [TW_FIRST_HEAT] = N_ ("heat"),
    [TW_FIRST_BRAKE] = N_ ("brake power"), [TW_FIRST_SHARE] = N_ ("share"),
    [TW_FIRST_AMBIENT] = N_ ("ambient"),   [TW_FIRST_COOLANT] = N_ ("coolant"),
    [TW_FIRST_KIND] = N_ ("kind of core"),
  };

  return names[answer];
}

const char *
tw_first_air_name (TwFirstAir air)
{
  static const char *const names[TW_FIRST_N_AIRS] = {
    [TW_FIRST_AIR_FRONT] = N_ ("the front of the vehicle"),
    [TW_FIRST_AIR_REAR] = N_ ("the rear of the vehicle"),
    [TW_FIRST_AIR_LEFT] = N_ ("its left side"),
    [TW_FIRST_AIR_RIGHT] = N_ ("its right side"),
  };

  return names[air];
}

const char *
tw_first_air_id (TwFirstAir air)
{
  static const char *const ids[TW_FIRST_N_AIRS] = { "front", "rear", "left", "right" };

  return ids[air];
}

double
tw_first_heat_kw (const TwFirstLayoutWish *wish)
{
  gboolean of_fuel = wish->share_of == TW_FIRST_OF_FUEL;
  double share = wish->share;

  if (!isnan (wish->heat_kw))
    return wish->heat_kw;
  if (isnan (share))
    share = of_fuel ? TW_FIRST_SHARE_FUEL : TW_FIRST_SHARE_BRAKE;
  return wish->brake_kw * share / (of_fuel ? TW_FIRST_BRAKE_OF_FUEL : 1);
}

/* --- refusals ------------------------------------------------------------------------------------------- */

static void
free_choice (gpointer data)
{
  TwFirstChoice *self = data;

  g_free (self->what);
  g_free (self->why);
  g_free (self);
}

static void
free_refusal (gpointer data)
{
  g_free (((TwFirstRefusal *)data)->words);
  g_free (data);
}

void
tw_first_layout_free (TwFirstLayout *self)
{
  g_clear_pointer (&self->job, tw_job_free);
  g_ptr_array_unref (self->choices);
  g_ptr_array_unref (self->refusals);
  g_free (self);
}

/* @words (transfer full) */
static void
refuse (TwFirstLayout *self, TwFirstAnswer answer, double found, double needed, char *words)
{
  TwFirstRefusal *refusal = g_new0 (TwFirstRefusal, 1);

  refusal->answer = answer;
  refusal->found = found;
  refusal->needed = needed;
  refusal->words = words;
  g_ptr_array_add (self->refusals, refusal);
}

/* An answer that is a figure, with what it may be. */
typedef struct {
  double value; /* in the unit of the quantity */
  TwQuantity quantity;
  double low, high; /* in the unit of the quantity */
  gboolean must;    /* be said */
} Range;

static void
check_range (TwFirstLayout *self, TwFirstAnswer answer, const Range *range, const TwUnitStyle *style)
{
  g_autofree char *low = tw_units_format_number (range->quantity, style, range->low, 0);
  g_autofree char *high = tw_units_format (range->quantity, style, range->high, 0);

  if (isnan (range->value) && !range->must)
    return;
  if (range->value >= range->low && range->value <= range->high)
    return;
  refuse (self, answer, range->value, (double)NAN, g_strdup_printf (_ ("expected %s to %s"), low, high));
}

static void
check_answers (TwFirstLayout *self, const TwFirstLayoutWish *wish, const TwUnitStyle *style)
{
  const Range ranges[TW_FIRST_COOLANT] = {
    [TW_FIRST_WIDTH] = { wish->bay_width_mm, TW_QUANTITY_LENGTH, 60, 5000, TRUE },
    [TW_FIRST_HEIGHT] = { wish->bay_height_mm, TW_QUANTITY_LENGTH, 60, 5000, TRUE },
    [TW_FIRST_DEPTH] = { wish->bay_depth_mm, TW_QUANTITY_LENGTH, 60, 5000, TRUE },
    [TW_FIRST_HEAT] = { wish->heat_kw, TW_QUANTITY_POWER, 0, 5000, FALSE },
    [TW_FIRST_BRAKE] = { wish->brake_kw, TW_QUANTITY_POWER, 0, 5000, FALSE },
    [TW_FIRST_SHARE] = { wish->share, TW_QUANTITY_SHARE, 0.05, 2, FALSE },
    [TW_FIRST_AMBIENT] = { wish->ambient_c, TW_QUANTITY_TEMPERATURE, -40, 70, FALSE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (ranges); i++)
    check_range (self, i, &ranges[i], style);
  if (self->refusals->len == 0 && tw_first_heat_kw (wish) > 5000)
    refuse (self, TW_FIRST_BRAKE, wish->brake_kw, (double)NAN,
            g_strdup (_ ("the heat would be over 5000 kW")));
}

/* An entry that the catalogue must have, if it is said at all. */
static void
check_entry (TwFirstLayout *self,
             TwFirstAnswer answer,
             const TwCatalogue *catalogue,
             TwCatalogueList list,
             const char *id)
{
  GString *ids;

  if (id == NULL || tw_catalogue_find (catalogue, list, id) != NULL)
    return;
  ids = g_string_new (NULL);
  for (guint i = 0; i < tw_catalogue_count (catalogue, list); i++)
    g_string_append_printf (ids, "%s%s", i > 0 ? ", " : "",
                            tw_entry_id (tw_catalogue_get (catalogue, list, i)));
  refuse (self, answer, (double)NAN, (double)NAN,
          g_strdup_printf (_ ("found “%s”, expected one of %s"), id, ids->str));
  g_string_free (ids, TRUE);
}

/* One refusal for each measure of the bay that is too small. */
static void
refuse_bay (TwFirstLayout *self, const TwFirstPlan *plan, const TwUnitStyle *style)
{
  const double found_mm[3]
      = { plan->wish->bay_width_mm, plan->wish->bay_height_mm, plan->wish->bay_depth_mm };

  for (guint i = 0; i < 3; i++) {
    double needed_mm = found_mm[i] + plan->short_of_mm[i];
    /* rounded up: what is said to do must do */
    double step_mm = style->inches ? 25.4 / 16 : 1;
    double shown_mm = ceil (needed_mm / step_mm - 1e-6) * step_mm;
    g_autofree char *found = tw_units_format (TW_QUANTITY_LENGTH, style, found_mm[i], style->inches ? -1 : 1);
    g_autofree char *needed = tw_units_format (TW_QUANTITY_LENGTH, style, shown_mm, style->inches ? -1 : 0);

    if (plan->short_of_mm[i] <= 0)
      continue;
    refuse (self, TW_FIRST_WIDTH + i, found_mm[i], shown_mm,
            g_strdup_printf (_ ("found %s, but the smallest core with its tanks and ports needs %s"), found,
                             needed));
  }
}

static void
keep_note (TwJob *job, const GPtrArray *choices)
{
  TwSettings *settings = (TwSettings *)tw_part_copy ((const TwPart *)tw_job_settings (job));

  settings->note = tw_first_note (choices);
  tw_job_replace (job, (TwPart *)settings);
}

TwFirstLayout *
tw_first_layout_make (const TwFirstLayoutWish *wish, const TwCatalogue *catalogue, char decimal)
{
  TwFirstLayout *self = g_new0 (TwFirstLayout, 1);
  TwFirstPlan plan = { .wish = wish, .catalogue = catalogue };
  TwUnitStyle style = wish->shown_in == TW_SHOWN_IN_INCH ? TW_UNIT_STYLE_IN : TW_UNIT_STYLE_MM;

  style.decimal = decimal;
  style.finest = 16;
  self->choices = g_ptr_array_new_with_free_func (free_choice);
  self->refusals = g_ptr_array_new_with_free_func (free_refusal);
  check_answers (self, wish, &style);
  check_entry (self, TW_FIRST_COOLANT, catalogue, TW_CATALOGUE_COOLANTS, wish->coolant);
  check_entry (self, TW_FIRST_KIND, catalogue, TW_CATALOGUE_CORE_KINDS, wish->core_kind);
  if (self->refusals->len > 0)
    return self;
  if (!tw_first_plan_size (&plan)) {
    refuse_bay (self, &plan, &style);
    return self;
  }
  tw_first_plan_water (&plan);
  tw_first_plan_tell (&plan, decimal, self->choices);
  self->job = tw_first_plan_build (&plan);
  keep_note (self->job, self->choices);
  return self;
}
