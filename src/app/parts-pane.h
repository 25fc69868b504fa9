/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * parts-pane.h - what is on the job, one row a part
 *
 * The job itself first, then the room and what takes it, then each core with its tanks, baffles, ports,
 * shrouds and fans set in under what they belong to, then engine ports and hoses.
 */
#pragma once

#include <gtk/gtk.h>

#include "app/session.h"

G_BEGIN_DECLS

#define TW_TYPE_PARTS_PANE (tw_parts_pane_get_type ())
G_DECLARE_FINAL_TYPE (TwPartsPane, tw_parts_pane, TW, PARTS_PANE, GtkWidget)

/* Once, before it is shown. */
void tw_parts_pane_set_session (TwPartsPane *self, TwSession *session);

G_END_DECLS
