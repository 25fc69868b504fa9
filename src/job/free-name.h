/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * free-name.h - what a copy is called
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* `Inlet 2` for another `Inlet` or `Inlet 7`: the next number that is not among @taken (of char *), to which
 * the name is added; cut so that it fits the field. (transfer full) */
char *tw_free_name (GHashTable *taken, const char *name) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
