/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * application.h - the program: its windows, its shortcuts and what belongs to none of the windows
 */
#pragma once

#include <adwaita.h>

G_BEGIN_DECLS

#define TW_APPLICATION_ID "org.tankwright.Tankwright"

/* Opens files that it is given, else one window with the start page. (transfer full) */
AdwApplication *tw_application_new (GApplicationFlags flags) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
