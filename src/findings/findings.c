/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "findings/findings-private.h"

#include <math.h>

struct _TwFindings {
  gint n_refs;
  GArray *found; /* of TwFinding */
  guint n_of[TW_N_SEVERITIES];
  TwCheckState *states; /* by check */
  const char **whys;    /* by check; NULL: none */
};

static const TwCheckRows *const subjects[]
    = { &tw_checks_water, &tw_checks_mouths, &tw_checks_filling, &tw_checks_air,
        &tw_checks_fans,  &tw_checks_hoses,  &tw_checks_fit,     &tw_checks_rules };

static const TwCheckRow *
row_of (guint nth)
{
  for (guint i = 0; i < G_N_ELEMENTS (subjects); i++) {
    if (nth < subjects[i]->n_rows)
      return &subjects[i]->rows[nth];
    nth -= subjects[i]->n_rows;
  }
  g_assert_not_reached ();
}

guint
tw_check_count (void)
{
  guint n = 0;

  for (guint i = 0; i < G_N_ELEMENTS (subjects); i++)
    n += subjects[i]->n_rows;
  return n;
}

const TwCheck *
tw_check_get (guint nth)
{
  g_return_val_if_fail (nth < tw_check_count (), NULL);
  return &row_of (nth)->check;
}

const TwCheck *
tw_check_find (const char *id)
{
  guint n = tw_check_count ();

  for (guint i = 0; i < n; i++)
    if (g_str_equal (row_of (i)->check.id, id))
      return &row_of (i)->check;
  return NULL;
}

guint
tw_check_place (const TwCheck *self)
{
  guint nth = 0;

  while (&row_of (nth)->check != self)
    nth++;
  return nth;
}

const char *
tw_severity_id (TwSeverity severity)
{
  static const char *const ids[TW_N_SEVERITIES] = { "stop", "warn", "note" };

  g_return_val_if_fail (severity < TW_N_SEVERITIES, NULL);
  return ids[severity];
}

TwFinding *
tw_finder_add (TwFinder *self, TwId part)
{
  TwFinding finding = { .check = self->check, .measured = NAN, .limit = NAN, .beside = NAN };

  tw_finding_also (&finding, part);
  g_array_append_val (self->found, finding);
  return &g_array_index (self->found, TwFinding, self->found->len - 1);
}

void
tw_finding_also (TwFinding *self, TwId part)
{
  if (self->n_parts < TW_FINDING_PARTS && !tw_id_is_none (part))
    self->parts[self->n_parts++] = part;
}

static TwRooms
spoken (const TwKnown *known)
{
  return (known->placement != NULL ? TW_ROOM_PLACEMENT : 0) | (known->tubes != NULL ? TW_ROOM_TUBES : 0)
         | (known->passes != NULL ? TW_ROOM_PASSES : 0) | (known->heights != NULL ? TW_ROOM_HEIGHTS : 0)
         | (known->routes != NULL ? TW_ROOM_ROUTES : 0) | (known->frontal != NULL ? TW_ROOM_FRONTAL : 0)
         | (known->coverage != NULL ? TW_ROOM_COVERAGE : 0)
         | (known->clearance != NULL ? TW_ROOM_CLEARANCE : 0);
}

/* Makes one check; the state that it ends in. */
static TwCheckState
make (TwFinder *finder, TwRooms rooms, const TwCheckRow *row, const char **why)
{
  guint before = finder->found->len;

  *why = NULL;
  if ((row->check.needs & ~rooms) != 0)
    return TW_CHECK_WAITING;
  finder->check = &row->check;
  finder->which = row->which;
  *why = row->make (finder);
  if (*why != NULL)
    return TW_CHECK_UNMADE;
  return finder->found->len > before ? TW_CHECK_FOUND : TW_CHECK_CLEAR;
}

/* Worst first; checks and parts stay in the order in which they were found. */
static void
sort_by_severity (TwFindings *self, const GArray *found)
{
  for (TwSeverity severity = 0; severity < TW_N_SEVERITIES; severity++)
    for (guint i = 0; i < found->len; i++)
      if (g_array_index (found, TwFinding, i).check->severity == severity) {
        g_array_append_val (self->found, g_array_index (found, TwFinding, i));
        self->n_of[severity]++;
      }
}

TwFindings *
tw_findings_make (const TwKnown *known)
{
  g_autoptr (GArray) found = g_array_new (FALSE, FALSE, sizeof (TwFinding));
  TwFinder finder = { .known = known, .found = found };
  TwFindings *self = g_new0 (TwFindings, 1);
  guint n = tw_check_count ();

  self->n_refs = 1;
  self->states = g_new0 (TwCheckState, n);
  self->whys = g_new0 (const char *, n);
  for (guint i = 0; i < n; i++) {
    self->states[i] = make (&finder, spoken (known), row_of (i), &self->whys[i]);
    if (self->states[i] == TW_CHECK_WAITING || self->states[i] == TW_CHECK_UNMADE)
      finder.n_left_out++;
  }
  self->found = g_array_sized_new (FALSE, FALSE, sizeof (TwFinding), found->len);
  sort_by_severity (self, found);
  return self;
}

TwFindings *
tw_findings_ref (const TwFindings *self)
{
  TwFindings *mutable = (TwFindings *)self;

  g_atomic_int_inc (&mutable->n_refs);
  return mutable;
}

void
tw_findings_unref (TwFindings *self)
{
  if (self == NULL || !g_atomic_int_dec_and_test (&self->n_refs))
    return;
  g_array_unref (self->found);
  g_free (self->states);
  g_free (self->whys);
  g_free (self);
}

guint
tw_findings_count (const TwFindings *self)
{
  return self->found->len;
}

const TwFinding *
tw_findings_get (const TwFindings *self, guint nth)
{
  return nth < self->found->len ? &g_array_index (self->found, TwFinding, nth) : NULL;
}

guint
tw_findings_count_of (const TwFindings *self, TwSeverity severity)
{
  g_return_val_if_fail (severity < TW_N_SEVERITIES, 0);
  return self->n_of[severity];
}

TwCheckState
tw_findings_state (const TwFindings *self, guint check, const char **why)
{
  g_return_val_if_fail (check < tw_check_count (), TW_CHECK_WAITING);
  if (why != NULL)
    *why = self->whys[check];
  return self->states[check];
}

guint
tw_findings_count_state (const TwFindings *self, TwCheckState state)
{
  guint n = 0;

  for (guint i = 0; i < tw_check_count (); i++)
    n += self->states[i] == state;
  return n;
}
