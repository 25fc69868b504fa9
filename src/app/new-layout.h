/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * new-layout.h - a first layout from five answers
 *
 * A window over its parent: bay, heat, ambient, coolant and where the air comes from on the left, what would
 * be made of them on the right, with everything that it assumes. It follows as one types; what cannot be
 * taken is said beside its entry.
 */
#pragma once

#include <adwaita.h>

#include "job/job.h"

G_BEGIN_DECLS

#define TW_TYPE_NEW_LAYOUT (tw_new_layout_get_type ())
G_DECLARE_FINAL_TYPE (TwNewLayout, tw_new_layout, TW, NEW_LAYOUT, AdwWindow)

/* Takes the job that was made (transfer full). */
typedef void (*TwNewLayoutDone) (TwJob *job, gpointer data);

/* Asks; @done is called once when the person accepts, and not at all otherwise. @release frees @data. */
void tw_new_layout_ask (GtkWindow *parent, TwNewLayoutDone done, gpointer data, GDestroyNotify release);

G_END_DECLS
