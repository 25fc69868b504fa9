/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * arrangement-private.h - what the files of the arrangement share
 */
#pragma once

#include "sheets/sheet-private.h"

G_BEGIN_DECLS

/* The views by their places; the last is their number. */
enum {
  TW_ARRANGEMENT_FRONT,
  TW_ARRANGEMENT_SIDE,
  TW_ARRANGEMENT_PLAN,
  TW_ARRANGEMENT_FACE,
  TW_ARRANGEMENT_VIEWS
};

/* What of the job is drawn: views are broken off beyond it. Job frame. */
typedef struct {
  TwVec from;
  TwVec to;
} TwArrangementWindow;

/* The assembly with the bay round it; what goes far beyond, such as the hoses to an engine at the other end
 * of the vehicle, is cut off. */
TwArrangementWindow tw_arrangement_window (const TwSheetSet *set);

/* One of the three views of the job, broken off, with the names that belong there: bends where their plane is
 * seen best, ends of the water in Front, the air's way in Side. */
TwSheetView tw_arrangement_view (const TwSheetSet *set,
                                 const TwSheet *page,
                                 guint nth,
                                 const TwArrangementWindow *window,
                                 double scale);

/* The box round the rooms of the bay that are wholly within the window; FALSE without any. */
gboolean
tw_arrangement_bay (const TwSheetSet *set, const TwArrangementWindow *window, TwVec *from, TwVec *to);

G_END_DECLS
