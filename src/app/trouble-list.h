/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * trouble-list.h - everything that is wrong in a file, to be read and copied
 */
#pragma once

#include <adwaita.h>

#include "base/error.h"

G_BEGIN_DECLS

#define TW_TYPE_TROUBLE_LIST (tw_trouble_list_get_type ())
G_DECLARE_FINAL_TYPE (TwTroubleList, tw_trouble_list, TW, TROUBLE_LIST, AdwWindow)

/* A window over @parent with all of @troubles, which are those of the file at @path. */
void tw_trouble_list_show (GtkWindow *parent, const char *path, const TwTroubles *troubles);

G_END_DECLS
