/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * recovery.h - what a program that ended badly left behind, offered again
 *
 * A window with a row for each job whose journal was left: which file, when, how many steps, what is lost.
 * Recovered jobs open as they were, with changes that are in no file; nothing is written until they are
 * saved. What is neither recovered nor discarded is offered again.
 */
#pragma once

#include <adwaita.h>

G_BEGIN_DECLS

#define TW_TYPE_RECOVERY (tw_recovery_get_type ())
G_DECLARE_FINAL_TYPE (TwRecovery, tw_recovery, TW, RECOVERY, AdwWindow)

/* Looks for journals and shows the window over the active one when there are some; FALSE when there are
 * none. */
gboolean tw_recovery_offer (GtkApplication *application);

G_END_DECLS
