/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Arrangement: Front, Side and Plan to scale, Face beside them when a core is turned, overall sizes, where
 * the assembly lies in the bay, port places, hose runs.
 */
#include "sheets/arrangement-private.h"

#include <math.h>
#include <string.h>

/* Room round the views for titles, dimensions and names; mm on paper. */
#define LEFT_MM 28.0
#define LEFT_INCH_MM 58.0 /* figures stand level */
#define LOW_MM 38.0
#define TOP_MM 12.0
#define BETWEEN_MM 14.0
#define FAR_MM 48.0 /* of names, where no other view stands */

#define FRONT TW_ARRANGEMENT_FRONT
#define SIDE TW_ARRANGEMENT_SIDE
#define PLAN TW_ARRANGEMENT_PLAN
#define FACE TW_ARRANGEMENT_FACE
#define N_VIEWS TW_ARRANGEMENT_VIEWS

typedef struct {
  TwSheetSet *set;
  TwSheet *page;
  TwArrangementWindow window;
  TwId turned; /* the first core that does not stand square to the job; none: no Face */
  TwSheetView views[N_VIEWS];
  TwBox extents[N_VIEWS]; /* of all that is drawn, mm of the view, with the other views' share along common
                             axes */
  TwBox cells[N_VIEWS];   /* in which their names stay; mm of the view */
  guint n_views;
  gboolean third;
} Arrangement;

/* The first core that is turned; none if all stand square to the job. */
static TwId
find_turned (const TwSheetSet *set)
{
  const TwPlacedCore *cores;
  guint n;

  cores = tw_placement_cores (set->placement, &n);
  for (guint i = 0; i < n; i++)
    if (cores[i].frame.w.z < 1 - 1e-9 || cores[i].frame.u.x < 1 - 1e-9)
      return cores[i].id;
  return TW_ID_NONE;
}

static void
draw_views (Arrangement *self, double scale)
{
  self->n_views = tw_id_is_none (self->turned) ? FACE : N_VIEWS;
  for (guint i = 0; i < FACE; i++)
    self->views[i] = tw_arrangement_view (self->set, self->page, i, &self->window, scale);
  if (self->n_views > FACE)
    self->views[FACE]
        = tw_sheet_view (self->set, self->page, TW_VIEW_FACE, self->turned, scale,
                         TW_VIEW_NO_BAY | TW_VIEW_NO_HOSES | TW_VIEW_NO_WAYS | TW_VIEW_NO_OPENINGS);
}

static void
free_views (Arrangement *self)
{
  for (guint i = 0; i < self->n_views; i++)
    tw_view_drawing_free (self->views[i].drawing);
}

/* x is common to Front and Plan, y to Front and Side; z runs across in Side and up in Plan. */
static gboolean
find_extents (Arrangement *self)
{
  TwBox front = self->views[FRONT].drawing->all, side = self->views[SIDE].drawing->all,
        plan = self->views[PLAN].drawing->all;

  if (tw_box_is_empty (front) || tw_box_is_empty (side) || tw_box_is_empty (plan))
    return FALSE;
  front.x0_mm = plan.x0_mm = MIN (front.x0_mm, plan.x0_mm);
  front.x1_mm = plan.x1_mm = MAX (front.x1_mm, plan.x1_mm);
  front.y0_mm = side.y0_mm = MIN (front.y0_mm, side.y0_mm);
  front.y1_mm = side.y1_mm = MAX (front.y1_mm, side.y1_mm);
  side.x0_mm = plan.y0_mm = MIN (side.x0_mm, plan.y0_mm);
  side.x1_mm = plan.y1_mm = MAX (side.x1_mm, plan.y1_mm);
  self->extents[FRONT] = front;
  self->extents[SIDE] = side;
  self->extents[PLAN] = plan;
  self->extents[FACE] = self->n_views > FACE ? self->views[FACE].drawing->all : (TwBox){ 0, 0, 0, 0 };
  return TRUE;
}

static double
width (TwBox box)
{
  return box.x1_mm - box.x0_mm;
}

static double
height (TwBox box)
{
  return box.y1_mm - box.y0_mm;
}

static double
left_margin (const Arrangement *self)
{
  return self->set->inches ? LEFT_INCH_MM : LEFT_MM;
}

/* The Face stands in the corner that the three views leave. In first angle the sizes under Side lie between.
 */
static double
face_height (const Arrangement *self, double scale)
{
  return self->n_views > FACE ? height (self->extents[FACE]) * scale + (self->third ? 0 : LOW_MM - BETWEEN_MM)
                              : 0;
}

static double
side_width (const Arrangement *self, double scale)
{
  return MAX (width (self->extents[SIDE]), width (self->extents[FACE])) * scale;
}

static double
plan_height (const Arrangement *self, double scale)
{
  return MAX (height (self->extents[PLAN]) * scale, face_height (self, scale));
}

static gboolean
fits (const Arrangement *self, TwPaperSize size, double scale)
{
  TwBox room = tw_sheet_room (size);
  double across
      = width (self->extents[FRONT]) * scale + side_width (self, scale) + BETWEEN_MM + left_margin (self);
  double up
      = height (self->extents[FRONT]) * scale + plan_height (self, scale) + BETWEEN_MM + LOW_MM + TOP_MM;

  return across <= width (room) && up <= height (room);
}

/* Draws the views at @scale. Arrows are as long as they are on paper, so that a view is larger, in its own
 * millimetres, the smaller its scale: @least are its extents at full size. FALSE, and nothing drawn, when
 * they do not fit. */
static gboolean
draw_if_it_fits (Arrangement *self, const TwBox least[N_VIEWS], double scale)
{
  memcpy (self->extents, least, sizeof self->extents);
  if (!fits (self, self->page->size, scale))
    return FALSE;
  draw_views (self, scale);
  if (find_extents (self) && fits (self, self->page->size, scale))
    return TRUE;
  free_views (self);
  return FALSE;
}

/* Draws at the largest scale no coarser than 1:@coarsest at which the views fit on the page. Returns model mm
 * a paper mm; 0 when there is none. */
static double
draw_at_largest (Arrangement *self, const TwBox least[N_VIEWS], double coarsest)
{
  double scale;

  for (guint i = 0; (scale = tw_sheet_scale (self->set, i)) > 0 && scale <= coarsest; i++)
    if (draw_if_it_fits (self, least, 1 / scale))
      return scale;
  return 0;
}

static void
set_paper (TwSheet *page, TwPaperSize size)
{
  page->size = size;
  page->look = tw_look_paper (tw_paper (size)->large);
}

/* The smallest paper on which the views fit at 1:10 and the tables on their column; many tables go on to
 * further pages rather than want the large papers; else at 1:20, else the largest at any scale. @page has its
 * size and look, and the views are drawn. */
static double
draw_on_smallest (Arrangement *self, GPtrArray *tables, TwSheet *page, const TwBox least[N_VIEWS])
{
  double scale;

  self->page = page;
  for (double coarsest = 10; coarsest <= 20; coarsest *= 2)
    for (TwPaperSize size = self->set->smallest; size != self->set->largest; size = tw_paper_next (size)) {
      set_paper (page, size);
      if (!tw_sheet_tables_fit (self->set, size, tables))
        continue;
      scale = draw_at_largest (self, least, coarsest);
      if (scale > 0)
        return scale;
    }
  set_paper (page, self->set->largest);
  scale = draw_at_largest (self, least, 100);
  if (scale > 0)
    return scale;
  draw_views (self, 0.01);
  (void)find_extents (self);
  return 100;
}

/* First angle: Side left of Front, Plan below it. Third angle: Side right of Front, Plan above it. */
static void
arrange (Arrangement *self, double scale)
{
  TwBox room = tw_sheet_room (self->page->size);
  double across = side_width (self, scale), up = plan_height (self, scale);
  double front_width = width (self->extents[FRONT]) * scale,
         front_height = height (self->extents[FRONT]) * scale;
  double left = room.x0_mm + left_margin (self)
                + (width (room) - left_margin (self) - across - BETWEEN_MM - front_width) / 2;
  double low = room.y0_mm + LOW_MM + (height (room) - LOW_MM - TOP_MM - up - BETWEEN_MM - front_height) / 2;
  double plan_low = self->third ? low + front_height + BETWEEN_MM : low;
  TwPoint corner[N_VIEWS]; /* lower left, on paper */

  corner[FRONT] = (TwPoint){ self->third ? left : left + across + BETWEEN_MM,
                             self->third ? low : low + up + BETWEEN_MM };
  corner[SIDE] = (TwPoint){ self->third ? left + front_width + BETWEEN_MM
                                        : left + across - width (self->extents[SIDE]) * scale,
                            corner[FRONT].y_mm };
  corner[PLAN] = (TwPoint){ corner[FRONT].x_mm,
                            self->third ? plan_low : low + up - height (self->extents[PLAN]) * scale };
  corner[FACE] = (TwPoint){ (self->third ? corner[SIDE].x_mm : left)
                                + (across - width (self->extents[FACE]) * scale) / 2,
                            plan_low + (self->third ? 0 : up - face_height (self, scale)) };
  for (guint i = 0; i < self->n_views; i++)
    self->views[i].shift = (TwPoint){ corner[i].x_mm - self->extents[i].x0_mm * scale,
                                      corner[i].y_mm - self->extents[i].y0_mm * scale };
}

static const char *
view_title (const Arrangement *self, guint view)
{
  static const char *const titles[N_VIEWS]
      = { N_ ("Front, looking with the air"), N_ ("Side, from the right"), N_ ("Plan, from above"),
          N_ ("Face, square on the turned core") };

  return tw_sheet_words (self->set, titles[view]);
}

static GPtrArray *
make_tables (const TwSheetSet *set)
{
  GPtrArray *tables = g_ptr_array_new_with_free_func ((GDestroyNotify)tw_table_free);

  g_ptr_array_add (tables, tw_sheet_sizes (set));
  g_ptr_array_add (tables, tw_sheet_clearances (set));
  g_ptr_array_add (tables, tw_sheet_around (set));
  g_ptr_array_add (tables, tw_sheet_bends (set));
  g_ptr_array_add (tables, tw_sheet_hoses (set));
  g_ptr_array_add (tables, tw_sheet_port_places (set));
  return tables;
}

/* Names keep half of what lies between two views, and go farther where there is none. */
static void
make_cells (Arrangement *self, double scale)
{
  double near = BETWEEN_MM / 2, far = FAR_MM;
  gboolean first = !self->third, face = self->n_views > FACE;
  /* left, below, right, above: whether another view stands there */
  const gboolean taken[N_VIEWS][4] = { [FRONT] = { first, first, self->third, self->third },
                                       [SIDE] = { self->third, first && face, first, self->third && face },
                                       [PLAN] = { first && face, self->third, self->third && face, first },
                                       [FACE] = { self->third, self->third, first, first } };

  for (guint i = 0; i < self->n_views; i++) {
    TwBox box = self->extents[i];

    self->cells[i] = (TwBox){ box.x0_mm - (taken[i][0] ? near : far) / scale,
                              box.y0_mm - (taken[i][1] ? near : far) / scale,
                              box.x1_mm + (taken[i][2] ? near : far) / scale,
                              box.y1_mm + (taken[i][3] ? near : far) / scale };
    self->views[i].manner.shown = &self->cells[i];
  }
}

/* What the window shows, at full size; FALSE when that is nothing. */
static gboolean
find_least (Arrangement *self, TwBox least[N_VIEWS])
{
  gboolean any;

  draw_views (self, 1);
  any = find_extents (self);
  free_views (self);
  memcpy (least, self->extents, sizeof self->extents);
  return any;
}

/* Paper and scale, from a trial of the views at full size; then the views at that scale. Header tanks and
 * openings that stand apart are shown if the rest need not be drawn smaller for them: their table says where
 * they are. 0 when there is nothing. */
static double
prepare (Arrangement *self, GPtrArray *tables, TwSheet *trial)
{
  TwBox least[N_VIEWS];
  double scale;

  self->page = trial;
  self->turned = find_turned (self->set);
  self->window = tw_arrangement_window (self->set);
  if (!tw_arrangement_leave_apart (self->set, &self->window))
    return find_least (self, least) ? draw_on_smallest (self, tables, trial, least) : 0;
  if (!find_least (self, least))
    return 0;
  scale = draw_on_smallest (self, tables, trial, least);
  free_views (self);
  self->window.leaves_apart = FALSE;
  if (find_least (self, least) && draw_if_it_fits (self, least, 1 / scale))
    return scale;
  self->window.leaves_apart = TRUE;
  draw_views (self, 1 / scale);
  (void)find_extents (self);
  return scale;
}

void
tw_sheet_arrangement (TwSheetSet *set)
{
  Arrangement self = { .set = set, .third = set->settings->projection == TW_PROJECTION_THIRD };
  g_autoptr (GPtrArray) tables = make_tables (set);
  TwSheet trial = { .size = set->smallest, .look = tw_look_paper (FALSE) };
  double scale = prepare (&self, tables, &trial);
  gboolean drawn = scale > 0;
  g_autofree char *scale_text = drawn ? tw_sheet_scale_text (scale) : NULL;

  self.page = tw_sheet_add (set, TW_SHEET_ARRANGEMENT, trial.size,
                            tw_part_name ((const TwPart *)set->settings), scale_text);
  if (drawn) {
    arrange (&self, 1 / scale);
    make_cells (&self, 1 / scale);
    for (guint i = 0; i < self.n_views; i++) {
      self.views[i].manner.look = &self.page->look;
      tw_sheet_put_view (self.page, &self.views[i], view_title (&self, i));
    }
    tw_arrangement_dimensions (set, self.page, self.views, &self.window);
  }
  tw_sheet_put_tables (set, self.page, tables);
  tw_sheet_put_names (self.page, self.views, drawn ? self.n_views : 0);
  if (drawn)
    free_views (&self);
}
