/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * error.h - what a file or a person can get wrong, said so that it can be mended
 *
 * One trouble names the place, what was found there and what is accepted. A reader collects all of them
 * instead of stopping at the first. Sentences are put together in English here; the parts that a person reads
 * are translated where they are made.
 */
#pragma once

#include <glib.h>
#include <glib/gi18n-lib.h>

G_BEGIN_DECLS

#define TW_ERROR (tw_error_quark ())
GQuark tw_error_quark (void);

typedef enum {
  TW_ERROR_FORMAT,  /* a file or text that is not what it should be */
  TW_ERROR_LIMIT,   /* larger or deeper than the program takes */
  TW_ERROR_REFUSED, /* a change that would leave the job broken; nothing was changed */
  TW_ERROR_MISSING, /* a part, file or catalogue entry that is not there */
  TW_ERROR_FILE,    /* the system refused to read or write */
} TwErrorCode;

/* One thing wrong in a file. All three are owned and never NULL. */
typedef struct {
  char *where;    /* `tanks[1].wall_mm`, or `line 3, column 14` */
  char *found;    /* `−2` */
  char *expected; /* `a length of 0.2 to 20 mm` */
} TwTrouble;

/* Troubles kept of one file; more are only counted. */
#define TW_TROUBLES_KEPT 200

typedef struct {
  GPtrArray *list; /* of TwTrouble, in the order of the file */
  guint n;         /* how many there were, kept or not */
} TwTroubles;

/* An empty list; free it with tw_troubles_free(). */
TwTroubles *tw_troubles_new (void) G_GNUC_WARN_UNUSED_RESULT;
void tw_troubles_free (TwTroubles *self);

/* Takes @where and @found (both owned by the caller before); @expected is copied. */
void tw_troubles_add (TwTroubles *self, char *where, char *found, const char *expected);

/* `tanks[1].wall_mm: found −2, expected a length of 0.2 to 20 mm`. (transfer full) */
char *tw_trouble_text (const TwTrouble *self) G_GNUC_WARN_UNUSED_RESULT;

/* All of them as one error, a line each; @self may hold none, then nothing is set and TRUE comes back. */
gboolean tw_troubles_to_error (const TwTroubles *self, const char *file, GError **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwTroubles, tw_troubles_free)

G_END_DECLS
