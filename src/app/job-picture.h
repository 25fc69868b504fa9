/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * job-picture.h - a small picture of one view of a job
 *
 * Drawn as the canvas draws it, without names, fitted into the widget's size; drawn again only when what it
 * shows, its size or the colours change.
 */
#pragma once

#include <gtk/gtk.h>

#include "answer/answer.h"
#include "draw/views.h"

G_BEGIN_DECLS

#define TW_TYPE_JOB_PICTURE (tw_job_picture_get_type ())
G_DECLARE_FINAL_TYPE (TwJobPicture, tw_job_picture, TW, JOB_PICTURE, GtkWidget)

/* Empty paper. */
GtkWidget *tw_job_picture_new (void);

/* @answer: (nullable): a reference is kept; NULL shows empty paper. @flags: what is left out besides names.
 * Does nothing when it shows just this. */
void tw_job_picture_show (TwJobPicture *self, const TwAnswer *answer, TwView view, TwViewFlags flags);

/* How many times it has been drawn: for tests. */
guint tw_job_picture_drawn (TwJobPicture *self);

G_END_DECLS
