/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * help-made.h - help pages that the program makes of what it knows
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* The page as text with the marks of help-text.h, if @name is one that is made (`sources`, `checks`); else
 * NULL without an error. An error when what it is made of cannot be read. (transfer full) (nullable) */
char *tw_help_made_text (const char *name, GError **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
