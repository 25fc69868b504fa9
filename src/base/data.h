/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * data.h - finds the program's own data files
 *
 * In order: the folder named by TANKWRIGHT_DATA (tests), the user's own (XDG data home, `tankwright/`), the
 * one beside the program (../share/tankwright: in the build folder a link to data/, and an installation that
 * was moved as a whole), the installed one.
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Path of data file @name (`catalogue/alloys.json`), or NULL with an error that lists where it was sought. */
char *tw_data_find (const char *name, GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* The same, the user's own folder left out. */
char *tw_data_find_shipped (const char *name, GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* Path of the user's own file of that name, or NULL when there is none. */
char *tw_data_find_own (const char *name) G_GNUC_WARN_UNUSED_RESULT;

/* Folder of the translations: the one beside the program (../share/locale: in the build folder a link to what
 * was made from po/), else the installed one. */
char *tw_data_locale_folder (void) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
