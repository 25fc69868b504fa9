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
  TwVec near_from; /* round the assembly and the bay */
  TwVec near_to;
  gboolean leaves_apart; /* header tanks, openings and exits that stand out of that are not drawn */
} TwArrangementWindow;

/* The assembly with the bay round it; what goes far beyond, such as the hoses to an engine at the other end
 * of the vehicle, is cut off. */
TwArrangementWindow tw_arrangement_window (const TwSheetSet *set);

/* Makes @window leave out what stands apart; FALSE when nothing does. */
gboolean tw_arrangement_leave_apart (const TwSheetSet *set, TwArrangementWindow *window);

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

/* Widths under the lower of Front and Plan, heights left of the left of Front and Side, depths under Side:
 * of the assembly, of the bay, and from the bay's lower end to the assembly. @views are those of the page. */
void tw_arrangement_dimensions (TwSheetSet *set,
                                TwSheet *page,
                                const TwSheetView *views,
                                const TwArrangementWindow *window);

G_END_DECLS
