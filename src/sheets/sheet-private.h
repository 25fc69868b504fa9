/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * sheet-private.h - what all sheets share: a page being made, its columns of tables, words and figures
 *
 * Every sheet is laid out alike: drawings on the left, a column of tables on the right that stands on the
 * title block and is as wide as it.
 */
#pragma once

#include "base/error.h"
#include "draw/dimension.h"
#include "draw/views.h"
#include "sheets/sheet.h"
#include "sheets/table.h"

G_BEGIN_DECLS

/* Between drawings, tables and frame; mm on paper. */
#define TW_SHEET_GAP_MM 6.0

/* How far a centring mark reaches into the frame, and a little more; mm on paper. */
#define TW_SHEET_MARK_MM 11.0

/* A set of pages being made. */
typedef struct {
  const TwSheetSource *source;
  const TwDrawing *drawing;
  const TwPlacement *placement;
  const TwSettings *settings;
  TwUnitStyle style;
  gboolean inches;
  TwPaperSize smallest; /* of the papers that may be taken */
  TwPaperSize largest;
  GPtrArray *pages;  /* of TwSheet, so far; their title blocks are drawn last, when their number is known */
  GPtrArray *titles; /* of TwSheetTitle, one a page */
} TwSheetSet;

/* What only this page's title block says. All owned. */
typedef struct {
  char *title;
  char *scale; /* NULL: none */
  char *kind;
} TwSheetTitle;

/* Words of this program in the reader's language. (transfer none) */
const char *tw_sheet_words (const TwSheetSet *self, const char *marked);

/* A length as on a drawing, `–` when it is not known. (transfer full) */
char *tw_sheet_length (const TwSheetSet *self, double value_mm) G_GNUC_WARN_UNUSED_RESULT;
/* The same of what is thin, such as sheet, tubes and their pitch: never a fraction, one place more. (transfer
 * full) */
char *tw_sheet_thin (const TwSheetSet *self, double value_mm) G_GNUC_WARN_UNUSED_RESULT;
/* Any other figure with its unit. (transfer full) */
char *tw_sheet_figure (const TwSheetSet *self, TwQuantity quantity, double value) G_GNUC_WARN_UNUSED_RESULT;

/* Name of a part; (transfer none) */
const char *tw_sheet_name (const TwSheetSet *self, TwId part);

/* A new page at the end of the set. (transfer none) */
TwSheet *
tw_sheet_add (TwSheetSet *self, TwSheetKinds kind, TwPaperSize size, const char *title, const char *scale);

/* Where tables stand: on the title block, right of the drawings. */
TwBox tw_sheet_column (TwPaperSize size);

/* Room for drawings on a paper: left of the column of tables. */
TwBox tw_sheet_room (TwPaperSize size);

/* How high tables may be stacked on the title block of a paper. */
double tw_sheet_table_height_mm (TwPaperSize size);

/* Height of all tables, one on the other, on that paper. */
double tw_sheet_tables_need_mm (TwPaperSize size, GPtrArray *tables);

/* Whether a paper may be taken for these tables: they fit, or they fit on none but the large papers, and then
 * go on to further pages wherever they begin. */
gboolean tw_sheet_tables_fit (const TwSheetSet *self, TwPaperSize size, GPtrArray *tables);

/* Stacks tables (of TwTable) on the title block of @page; what has no room goes on to pages that hold tables
 * only. Empty tables are left out. */
void tw_sheet_put_tables (TwSheetSet *self, TwSheet *page, GPtrArray *tables);

/* The manner of dimensions of a page. */
TwDimensionManner tw_sheet_manner (const TwSheetSet *self, const TwSheet *page);

/* Puts @ink on the page if nothing of it meets what is there. Returns: whether it did. */
gboolean tw_sheet_try (const TwSheetSet *self, TwSheet *page, const TwInk *ink);

/* Dimensions on one side, most wanted first, as many from the first on as meet nothing; what is left out
 * stands in a table. Returns: how many there are now. */
guint tw_sheet_stack (const TwSheetSet *self,
                      TwSheet *page,
                      const TwDimensionEdge *edge,
                      const TwDimension *dims,
                      guint n);

/* A view on a page. */
typedef struct {
  TwViewDrawing *drawing; /* owned */
  TwViewManner manner;
  TwPoint shift; /* mm on paper: where its zero lies */
  double scale;  /* paper mm a model mm, dimensionless */
} TwSheetView;

/* Draws a view without its names; free its drawing with tw_view_drawing_free(). The shift is nought. With a
 * @core what is fixed to other cores is left out; `all` is the box round all ink. */
TwSheetView tw_sheet_view (const TwSheetSet *self,
                           const TwSheet *page,
                           TwView view,
                           TwId core,
                           double scale,
                           TwViewFlags flags);
/* Puts it on the page, names not yet. */
void tw_sheet_put_view (TwSheet *page, const TwSheetView *view, const char *title);
/* Breaks the view off at the sides of @window (mm of the view), with a line there. */
void tw_sheet_break_view (TwSheetView *view, const TwBox *window);
/* A place of the view on paper. */
TwPoint tw_sheet_point (const TwSheetView *view, TwPoint at);
/* A box of the view on paper. */
TwBox tw_sheet_on_paper (const TwSheetView *view, TwBox box);
/* Names of the views, when all else stands. Takes note of everything on the page first. */
void tw_sheet_put_names (TwSheet *page, const TwSheetView *views, guint n);

/* The box round core, tanks, shrouds and fans of all cores, or round the @bay, job frame; FALSE without any.
 */
gboolean tw_sheet_bounds (const TwPlacement *placement, gboolean bay, TwVec *from, TwVec *to);

/* Scales that a sheet may have: the nth as model mm a paper mm, 0 past the last; from 1:1 down. */
double tw_sheet_scale (const TwSheetSet *self, guint nth);
char *tw_sheet_scale_text (double model_a_paper) G_GNUC_WARN_UNUSED_RESULT;

/* The sheets: each adds its pages to the set. */
void tw_sheet_arrangement (TwSheetSet *self);
void tw_sheet_core_and_tanks (TwSheetSet *self, const TwPlacedCore *core);

/* The one place from which ports are measured on all sheets: the corner of the first core's left header plate
 * (lower one of upright tubes) at its lower or left end, air-in edge and outer face; job frame. FALSE without
 * a core. */
gboolean tw_sheet_datum (const TwSheetSet *self, TwVec *at);
/* Marks it in a view of the job, and wants its name. */
void tw_sheet_mark_datum (const TwSheetSet *self, TwSheetView *view);

/* A bar to be measured on the print: 100 mm, 4 in with inches; in the lower left corner. */
#define TW_SHEET_BAR_LAYER "bar"
void tw_sheet_draw_bar (const TwSheetSet *self, TwSheet *page);

/* Welded all round, from a joint to the elbow of its symbol; mm on paper. Drawn after ISO 2553 system A, with
 * inches after AWS A2.4. The size is not said. */
void tw_sheet_weld (const TwSheetSet *self, const TwSheet *page, TwInk *ink, TwPoint joint, TwPoint elbow);

/* How a drawing in (off the header plate, across that) lies on the page, so that it stands as the side of the
 * core does in the Face view. */
TwPoint tw_sheet_off (const TwHeaderSide *side, double off_mm, double across_mm);
/* Whether that turns it over, so that arcs bow the other way. */
gboolean tw_sheet_off_mirrors (const TwHeaderSide *side);

/* Section across a tank on its header plate, in mm of the model. Its names are wanted, not placed. */
TwSheetView
tw_sheet_section (const TwSheetSet *self, const TwSheet *page, const TwPlacedTank *tank, double scale);
/* Its dimensions, when it has its shift. */
void tw_sheet_dimension_section (const TwSheetSet *self,
                                 TwSheet *page,
                                 const TwSheetView *view,
                                 const TwPlacedTank *tank);

/* The foot of a baffle on the header plate between two tubes. An empty drawing when it does not stand between
 * two tubes. */
TwSheetView
tw_sheet_foot (const TwSheetSet *self, const TwSheet *page, const TwPlacedBaffle *baffle, double scale);
void tw_sheet_dimension_foot (const TwSheetSet *self,
                              TwSheet *page,
                              const TwSheetView *view,
                              const TwPlacedBaffle *baffle);

/* A table with translated title and headings. (transfer full) */
TwTable *tw_sheet_table (const TwSheetSet *self, const char *title, const char *const *marked, guint n)
    G_GNUC_WARN_UNUSED_RESULT;
/* A row of a table of two columns; takes @text. */
void tw_sheet_add_size (TwTable *table, const char *label, char *text);
/* What a choice is called, `–` when it is not made. (transfer full) */
char *tw_sheet_choice (const TwSheetSet *self, const TwChoice *choices, int value) G_GNUC_WARN_UNUSED_RESULT;
/* Standard and size as a port's maker says them: `ISO 6149 M12x1.5`, `stub Ø32`. (transfer full) */
char *tw_sheet_port_size (const TwSheetSet *self, const TwPort *port) G_GNUC_WARN_UNUSED_RESULT;
/* `1–16, 20`: numbers of the tubes of a pass. (transfer full) */
char *tw_sheet_tubes (const TwPass *pass) G_GNUC_WARN_UNUSED_RESULT;
/* `16 | 17`: the tubes between which a baffle sits, `on 16` when it sits on one. (transfer full) */
char *tw_sheet_gap (const TwSheetSet *self,
                    const TwPlacedCore *core,
                    const TwBaffle *baffle) G_GNUC_WARN_UNUSED_RESULT;

/* Tables that they show; each (transfer full), empty when there is nothing. */
TwTable *tw_sheet_port_places (const TwSheetSet *self);
TwTable *tw_sheet_bends (const TwSheetSet *self);
TwTable *tw_sheet_around (const TwSheetSet *self);
TwTable *tw_sheet_hoses (const TwSheetSet *self);
TwTable *tw_sheet_clearances (const TwSheetSet *self);
TwTable *tw_sheet_sizes (const TwSheetSet *self);
TwTable *tw_sheet_ports (const TwSheetSet *self, const TwPlacedCore *core);
TwTable *tw_sheet_baffles (const TwSheetSet *self, const TwPlacedCore *core);
TwTable *tw_sheet_tanks (const TwSheetSet *self, const TwPlacedCore *core);
TwTable *tw_sheet_core (const TwSheetSet *self, const TwPlacedCore *core);
TwTable *tw_sheet_passes (const TwSheetSet *self, const TwPlacedCore *core);

G_END_DECLS
