/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * core-sheet-private.h - what the files of the sheet of core and tanks share
 */
#pragma once

#include "sheets/sheet-private.h"

G_BEGIN_DECLS

/* Room for dimensions and names left, below, right and above the assembly: x0, y0, x1, y1; mm on paper. */
TwBox tw_core_sheet_margins (const TwSheetSet *set, const TwLook *look, const TwPlacedCore *core);

/* Running sizes along the headers, face and whole across them; @extents: core and tanks in (u, v). */
void tw_core_sheet_dimension (const TwSheetSet *set,
                              TwSheet *page,
                              const TwSheetView *view,
                              const TwPlacedCore *core,
                              const TwBox *extents);

/* Marks where a tank is cut for its section. Returns: FALSE when there is no room for it. */
gboolean tw_core_sheet_draw_plane (const TwSheetSet *set,
                                   TwSheet *page,
                                   const TwSheetView *view,
                                   const TwPlacedTank *tank,
                                   const char *letter);

/* A drawing of the strip under the assembly: a section or a foot. */
typedef struct {
  const TwPlacedTank *tank;     /* of a section, else NULL */
  const TwPlacedBaffle *baffle; /* of a foot, else NULL */
  TwSheetView view;
  double width_mm;    /* of the model */
  double height_mm;   /* of the model */
  gboolean has_plane; /* of a section: where it is cut stands in the drawing */
  char *title;        /* owned */
} TwCoreStripItem;

/* Sections and feet of @core, the drawings in millimetres of the model. (transfer full) (element-type
 * TwCoreStripItem) */
GArray *tw_core_strip_new (const TwSheetSet *set,
                           const TwSheet *page,
                           const TwPlacedCore *core) G_GNUC_WARN_UNUSED_RESULT;

/* Gives the drawings their scales: sections 1 : @small[0], feet @small[1] : 1. Returns: the height that the
 * strip needs with dimensions and titles, mm on paper; @width_mm (out): likewise. */
double tw_core_strip_size (GArray *items, const TwLook *look, const double small[2], double *width_mm);

/* Least side of the sections, mm of the model; G_MAXDOUBLE without any. */
double tw_core_strip_least (GArray *items);

/* Draws the strip into @room, its titles too. The names of its drawings are not placed yet. */
void tw_core_strip_draw (const TwSheetSet *set, TwSheet *page, GArray *items, const TwBox *room);

G_END_DECLS
