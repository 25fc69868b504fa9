/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * sheet.h - the drawing sheets of a job: arrangement, core and tanks
 *
 * Made from an answer; every page is one display list for all writers. What has no room on the largest paper
 * goes on to further pages. Nothing overlaps: each page keeps what stands where, for the proof (draw/place).
 */
#pragma once

#include "answer/answer.h"
#include "draw/measure.h"
#include "draw/place.h"
#include "sheets/page.h"
#include "sheets/paper.h"

G_BEGIN_DECLS

/* Kinds of sheet; a set of them is several or-ed together. */
typedef enum {
  TW_SHEET_ARRANGEMENT = 1 << 0,    /* one */
  TW_SHEET_CORE_AND_TANKS = 1 << 1, /* one a core */
} TwSheetKinds;
#define TW_SHEET_ALL (TW_SHEET_ARRANGEMENT | TW_SHEET_CORE_AND_TANKS)

/* What sheets are made from; everything is (transfer none). */
typedef struct {
  const TwAnswer *answer;
  TwGeos *geos;
  const char *revision;                         /* digest of the job, or NULL */
  const TwMeasure *measure;                     /* of the letters that they will be written with */
  char decimal;                                 /* decimal sign of the language: '.' or ',' */
  const char *(*translate) (const char *words); /* for marked words; NULL leaves them English */
  const char *paper; /* name of the smallest paper, `A3`; NULL: A3, or Tabloid for an inch job */
} TwSheetSource;

/* One page. */
typedef struct {
  TwSheetKinds kind;
  const char *id; /* `arrangement`, `core-and-tanks`: for names of files; a constant */
  TwPaperSize size;
  TwLook look;
  TwInk *ink;     /* finished; owned */
  TwPlace *place; /* all that stands on it; owned */
  guint left_out; /* names that found no room in a view; they stand in the tables */
} TwSheet;

/**
 * tw_sheets_new:
 * @kinds: which sheets
 * @error: TW_ERROR_MISSING when @source names a paper that there is not
 *
 * Returns: (transfer full) (element-type TwSheet): pages in order; a half-drawn job gives what it has
 */
GPtrArray *
tw_sheets_new (const TwSheetSource *source, TwSheetKinds kinds, GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* The page as the writers take it; good as long as the sheet. */
TwPage tw_sheet_page (const TwSheet *self);

G_END_DECLS
