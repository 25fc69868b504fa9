/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * told.h - what the cards tell of a sample, for tests
 */
#pragma once

#include "cards/cards.h"
#include "job/change.h"
#include "job/read.h"
#include "support/make-job.h"

/* A job and its cards; all of it is owned. */
typedef struct {
  TwCatalogue *catalogue;
  TwSources *sources;
  TwJob *job;
  TwAnswer *answer; /* NULL until told */
  GPtrArray *cards; /* NULL until told */
} Told;

static inline Told
told_open (const char *sample)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "..", "samples", sample, NULL);
  Told told = { .catalogue = tw_catalogue_load (&error) };

  g_assert_no_error (error);
  told.sources = tw_sources_load (&error);
  g_assert_no_error (error);
  told.job = tw_job_read_file (path, &error);
  g_assert_no_error (error);
  return told;
}

static inline void
told_tell (Told *self)
{
  TwUnitStyle style = tw_job_unit_style (self->job);

  g_clear_pointer (&self->cards, g_ptr_array_unref);
  tw_answer_unref (self->answer);
  self->answer = tw_answer_new (self->job, self->catalogue, NULL);
  self->cards = tw_cards_new (self->answer, self->sources, &style);
}

static inline void
told_clear (Told *self)
{
  g_clear_pointer (&self->cards, g_ptr_array_unref);
  tw_answer_unref (self->answer);
  tw_job_free (self->job);
  tw_sources_free (self->sources);
  tw_catalogue_free (self->catalogue);
}

static inline void
told_remove (Told *self, const char *part)
{
  g_autoptr (TwChange) change = NULL, inverse = NULL;
  g_autoptr (GError) error = NULL;
  TwId id;

  g_assert_true (tw_id_from_text (part, &id));
  change = tw_change_remove_whole (self->job, id);
  if (!tw_change_apply (change, self->job, &inverse, &error))
    g_error ("%s", error->message);
}

/* Compares with plain spaces for thin ones. */
static inline void
told_assert_text (const char *text, const char *expected)
{
  g_auto (GStrv) pieces = g_strsplit (text, "\u2009", -1);
  g_autofree char *plain = g_strjoinv (" ", pieces);

  g_assert_cmpstr (plain, ==, expected);
}

static inline const TwCardRow *
told_row (const Told *self, const char *card, const char *row)
{
  const TwCardRow *found = tw_card_row (tw_cards_find (self->cards, card), row);

  if (found == NULL)
    g_error ("no row %s in the card %s", row, card);
  return found;
}

static inline void
told_assert_row (const Told *self, const char *card, const char *row, const char *expected)
{
  told_assert_text (told_row (self, card, row)->text, expected);
}

static inline double
told_figure (const Told *self, const char *card, const char *row, const char *key)
{
  const TwCardFigure *figure = tw_card_figure (told_row (self, card, row)->figures, key);

  g_assert_nonnull (figure);
  return figure->figure.value;
}

static inline guint
told_count (const Told *self, const char *check)
{
  const TwFindings *findings = tw_answer_findings (self->answer);
  guint n = 0;

  for (guint i = 0; i < tw_findings_count (findings); i++)
    n += g_str_equal (tw_findings_get (findings, i)->check->id, check);
  return n;
}
