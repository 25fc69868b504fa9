/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * job-forms.h - the same job in another form, for tests of what must not hang on it
 */
#pragma once

#include "support/make-job.h"

G_BEGIN_DECLS

/* How many times larger tw_form_rescale() makes a job; dimensionless. */
#define TW_FORM_SCALE 1.7

/* A job that says all that its drawing fills in, so that nothing more is assumed of its other forms; its
 * parts and elements are copies, which the functions below change where they stand. Hoses from a port to
 * itself are left out: the plane in which they turn back is as good as any. With @reversed each list
 * of parts stands the other way round. (transfer full) */
TwJob *tw_form_settled (const TwJob *job, gboolean reversed) G_GNUC_WARN_UNUSED_RESULT;

/* x to −x. */
void tw_form_mirror (TwJob *job);

/* A quarter turn about z, clockwise looking with the air: x to −y, y to x. Headings do not go with it: take
 * them out before. */
void tw_form_roll (TwJob *job);
void tw_form_without_headings (TwJob *job);

/* All lengths times TW_FORM_SCALE. */
void tw_form_rescale (TwJob *job);

G_END_DECLS
