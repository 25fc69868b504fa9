/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * session.h - the one bridge between the engine and the window's widgets
 *
 * Holds a job with its history, the drawing made of each revision, what is chosen and which view is shown.
 * Widgets listen and ask; none keeps a copy of the job.
 *
 * Properties (notify): `title`, `path`, `modified`, `undo-label`, `redo-label`, `view`.
 * Signals: `job-leaves` before another job is put in, `job-replaced` when it has been; `job-changed` after
 * each change, undone ones too, and after `job-replaced`; `selection-changed`.
 */
#pragma once

#include <glib-object.h>

#include "answer/answer.h"
#include "draw/views.h"
#include "job/history.h"
#include "stage/freedom.h"

G_BEGIN_DECLS

#define TW_TYPE_SESSION (tw_session_get_type ())
G_DECLARE_FINAL_TYPE (TwSession, tw_session, TW, SESSION, GObject)

/* With no job. (transfer full) */
TwSession *tw_session_new (void) G_GNUC_WARN_UNUSED_RESULT;

/* Whether there is a job; without one the functions that return something of it return NULL. */
gboolean tw_session_has_job (TwSession *self);

/* Puts in another job (transfer full), as just read from or saved to @path, which may be NULL: never saved.
 */
void tw_session_take_job (TwSession *self, TwJob *job, const char *path);

/* Reads @path; a refusal leaves the session as it was. */
gboolean tw_session_open (TwSession *self, const char *path, GError **error);

/* Writes to @path, which becomes the session's own. */
gboolean tw_session_save (TwSession *self, const char *path, GError **error);

/* (transfer none), until the next change */
TwJob *tw_session_job (TwSession *self);
TwHistory *tw_session_history (TwSession *self);
const TwAnswer *tw_session_answer (TwSession *self);
const TwDrawing *tw_session_drawing (TwSession *self);
const TwPlacement *tw_session_placement (TwSession *self);
const TwPasses *tw_session_passes (TwSession *self);
TwGeos *tw_session_geos (TwSession *self);
const TwCatalogue *tw_session_catalogue (TwSession *self);
/* Cards of the answer, of TwCard. */
const GPtrArray *tw_session_cards (TwSession *self);

/* Local path of the file, or NULL when it was never saved. */
const char *tw_session_path (TwSession *self);
/* What the job is called: its own name, else its file's, else `New job`. (transfer full) */
char *tw_session_title (TwSession *self) G_GNUC_WARN_UNUSED_RESULT;
/* Changes that are in no file. */
gboolean tw_session_is_modified (TwSession *self);

/* Does @change (transfer full). An open drag is cancelled first. */
gboolean tw_session_do (TwSession *self, TwChange *change, GError **error);
void tw_session_undo (TwSession *self);
void tw_session_redo (TwSession *self);

/* After a drag or nudge through stage/hand: says what undo and redo are called now. */
void tw_session_tell_history (TwSession *self);

/* How the job shows figures, with the decimal sign of the person's language. */
TwUnitStyle tw_session_style (TwSession *self);

/* The chosen part, of several the leading one, or TW_ID_NONE. What is removed is no longer chosen. The job
 * itself has the id `job` and is only chosen alone. */
TwId tw_session_selection (TwSession *self);
/* This part alone. */
void tw_session_select (TwSession *self, TwId part);
/* All chosen parts, the leading one last. (transfer none) (array length=n), until the next change of it */
const TwId *tw_session_chosen (TwSession *self, guint *n);
gboolean tw_session_is_chosen (TwSession *self, TwId part);
/* Takes @part in as the leading one, or leaves it out when it was chosen. */
void tw_session_choose_also (TwSession *self, TwId part);
/* These, the leading one last; ids that are none or stand twice are left out. */
void tw_session_choose (TwSession *self, const TwId *ids, guint n);
/* Chosen element of the leading part (corner, via-point, flap …), or TW_ID_NONE. */
TwId tw_session_element (TwSession *self);
/* @element of @part, which becomes the leading one, alone unless it was chosen. TW_ID_NONE: no element. */
void tw_session_choose_element (TwSession *self, TwId part, TwId element);

/* Which view is shown. */
TwView tw_session_view (TwSession *self);
void tw_session_set_view (TwSession *self, TwView view);
/* The core that the Face view looks at: that of the chosen part, else the first; NULL when there is none. */
const TwPlacedCore *tw_session_core (TwSession *self);
/* Directions of the view that is shown; FALSE when it shows nothing. */
gboolean tw_session_view_axes (TwSession *self, TwStageView *axes);

G_END_DECLS
