/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Arrangement: Front, Side and Plan to scale, overall sizes, where the assembly lies in the bay, port places,
 * hose runs.
 */
#include "sheets/sheet-private.h"

#include <math.h>

/* Room round the views for titles, dimensions and names; mm on paper. */
#define LEFT_MM 28.0
#define LEFT_INCH_MM 52.0 /* figures stand level */
#define LOW_MM 36.0
#define TOP_MM 10.0
#define BETWEEN_MM 12.0

enum { FRONT, SIDE, PLAN, N_VIEWS };

/* Kept free round the face of a turned core in the fourth quarter: for titles, dimensions and names; mm on
 * paper. */
#define FACE_EDGE_MM 14.0
#define FACE_UNDER_SIDE_MM 36.0

typedef struct {
  TwSheetSet *set;
  TwSheet *page;
  TwSheetView views[N_VIEWS + 1]; /* the last: the face of a turned core */
  guint n_views;
  TwBox extents[N_VIEWS]; /* of all that is drawn, mm of the view, with the other views' share along common
                             axes */
  gboolean third;
} Arrangement;

static const TwView kinds[N_VIEWS] = { TW_VIEW_FRONT, TW_VIEW_SIDE, TW_VIEW_PLAN };

static void
draw_views (Arrangement *self, double scale)
{
  for (guint i = 0; i < N_VIEWS; i++)
    self->views[i] = tw_sheet_view (self->set, self->page, kinds[i], TW_ID_NONE, scale, 0);
}

static void
free_views (Arrangement *self)
{
  for (guint i = 0; i < N_VIEWS; i++)
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

static gboolean
fits (const Arrangement *self, TwPaperSize size, double model_a_paper)
{
  TwBox room = tw_sheet_room (size);
  double across = (width (self->extents[FRONT]) + width (self->extents[SIDE])) / model_a_paper + BETWEEN_MM
                  + left_margin (self);
  double up = (height (self->extents[FRONT]) + height (self->extents[PLAN])) / model_a_paper + BETWEEN_MM
              + LOW_MM + TOP_MM;

  return across <= width (room) && up <= height (room);
}

/* The largest scale no coarser than 1:@coarsest at which the views fit on a paper; 0 when there is none. */
static double
scale_on (const Arrangement *self, TwPaperSize size, double coarsest)
{
  double scale;

  for (guint i = 0; (scale = tw_sheet_scale (i)) > 0 && scale <= coarsest; i++)
    if (fits (self, size, scale))
      return scale;
  return 0;
}

/* The smallest paper on which the views fit at 1:10 and the tables on their column, but not the largest one;
 * else at 1:20, else the largest at any scale. Returns model mm a paper mm. */
static double
choose (const Arrangement *self, GPtrArray *tables, TwPaperSize *size)
{
  for (double coarsest = 10; coarsest <= 20; coarsest *= 2)
    for (*size = self->set->smallest; *size != self->set->largest; *size = tw_paper_next (*size)) {
      double scale = scale_on (self, *size, coarsest);

      if (scale > 0 && tw_sheet_tables_need_mm (*size, tables) <= tw_sheet_table_height_mm (*size))
        return scale;
    }
  return scale_on (self, *size, 100) > 0 ? scale_on (self, *size, 100) : 100;
}

/* Draws the views at @scale, or coarser: arrows are as long as they are on paper, so that a view may be
 * larger than it was in the trial. */
static double
settle (Arrangement *self, TwPaperSize size, double scale)
{
  double next;

  draw_views (self, 1 / scale);
  find_extents (self);
  for (guint i = 0; !fits (self, size, scale) && (next = tw_sheet_scale (i)) > 0; i++)
    if (next > scale) {
      free_views (self);
      scale = next;
      draw_views (self, 1 / scale);
      find_extents (self);
    }
  return scale;
}

/* First angle: Side left of Front, Plan below it. Third angle: Side right of Front, Plan above it. */
static void
arrange (Arrangement *self, double scale)
{
  TwBox room = tw_sheet_room (self->page->size);
  double left, low;
  double side_width = width (self->extents[SIDE]) * scale, front_width = width (self->extents[FRONT]) * scale;
  double plan_height = height (self->extents[PLAN]) * scale,
         front_height = height (self->extents[FRONT]) * scale;
  TwPoint corner[N_VIEWS]; /* lower left, on paper */

  left = room.x0_mm + left_margin (self)
         + (width (room) - left_margin (self) - side_width - BETWEEN_MM - front_width) / 2;
  low = room.y0_mm + LOW_MM + (height (room) - LOW_MM - TOP_MM - plan_height - BETWEEN_MM - front_height) / 2;
  corner[FRONT] = (TwPoint){ self->third ? left : left + side_width + BETWEEN_MM,
                             self->third ? low : low + plan_height + BETWEEN_MM };
  corner[SIDE] = (TwPoint){ self->third ? left + front_width + BETWEEN_MM : left, corner[FRONT].y_mm };
  corner[PLAN] = (TwPoint){ corner[FRONT].x_mm, self->third ? low + front_height + BETWEEN_MM : low };
  for (guint i = 0; i < N_VIEWS; i++)
    self->views[i].shift = (TwPoint){ corner[i].x_mm - self->extents[i].x0_mm * scale,
                                      corner[i].y_mm - self->extents[i].y0_mm * scale };
}

/* What is measured along one axis: from the bay's lower end to the assembly, the assembly, the bay. */
typedef struct {
  double bay[2];      /* mm of the view; only with has_bay */
  double assembly[2]; /* mm of the view */
  gboolean has_bay;
} Axis;

static void
dimension_axis (Arrangement *self, guint view, TwDimensionSide side, const Axis *axis)
{
  const TwSheetView *v = &self->views[view];
  TwBox outline = tw_sheet_on_paper (v, self->extents[view]);
  TwDimensionManner manner = tw_sheet_manner (self->set, self->page);
  const TwDimensionEdge edge = { outline, side };
  gboolean across = side == TW_DIMENSION_BELOW;
  const double spans[3][2] = { { axis->assembly[0], axis->assembly[1] },
                               { axis->bay[0], axis->assembly[0] },
                               { axis->bay[0], axis->bay[1] } };
  TwDimension dims[3];
  char *texts[3];
  guint n = 0;

  for (guint i = 0; i < (axis->has_bay ? 3 : 1); i++) {
    double a = spans[i][0] * v->scale + (across ? v->shift.x_mm : v->shift.y_mm);
    double b = spans[i][1] * v->scale + (across ? v->shift.x_mm : v->shift.y_mm);

    texts[n] = tw_sheet_length (self->set, fabs (spans[i][1] - spans[i][0]));
    dims[n] = (TwDimension){
      across ? (TwPoint){ MIN (a, b), outline.y0_mm } : (TwPoint){ outline.x0_mm, MIN (a, b) },
      across ? (TwPoint){ MAX (a, b), outline.y0_mm } : (TwPoint){ outline.x0_mm, MAX (a, b) }, texts[n],
      TW_ID_NONE
    };
    if (tw_sheet_has_room (self->set, self->page, &dims[n]))
      n++;
    else
      g_free (texts[n]);
  }
  (void)tw_dimension_stack (self->page->ink, &manner, &edge, dims, n);
  for (guint i = 0; i < n; i++)
    g_free (texts[i]);
}

/* Widths under the lower of Front and Plan, heights left of the left of Front and Side, depths under Side. */
static void
draw_dimensions (Arrangement *self)
{
  TwVec from, to, bay_from = { 0 }, bay_to = { 0 };
  gboolean has_bay = tw_sheet_bounds (self->set->placement, TRUE, &bay_from, &bay_to);
  Axis x, y, z;

  if (!tw_sheet_bounds (self->set->placement, FALSE, &from, &to))
    return;
  x = (Axis){ { bay_from.x, bay_to.x }, { from.x, to.x }, has_bay };
  y = (Axis){ { bay_from.y, bay_to.y }, { from.y, to.y }, has_bay };
  z = (Axis){ { bay_from.z, bay_to.z }, { from.z, to.z }, has_bay };
  dimension_axis (self, self->third ? FRONT : PLAN, TW_DIMENSION_BELOW, &x);
  dimension_axis (self, self->third ? FRONT : SIDE, TW_DIMENSION_LEFT, &y);
  dimension_axis (self, SIDE, TW_DIMENSION_BELOW, &z);
}

static const char *
view_title (const Arrangement *self, guint view)
{
  static const char *const titles[N_VIEWS]
      = { N_ ("Front, looking with the air"), N_ ("Side, from the right"), N_ ("Plan, from above") };

  return tw_sheet_words (self->set, titles[view]);
}

/* The first core that is not square to the job's axes, or NULL. */
static const TwPlacedCore *
turned_core (const TwSheetSet *set)
{
  guint n;
  const TwPlacedCore *cores = tw_placement_cores (set->placement, &n);

  for (guint i = 0; i < n; i++)
    if (cores[i].frame.u.x < 1 - 1e-9 || cores[i].frame.v.y < 1 - 1e-9)
      return &cores[i];
  return NULL;
}

/* The quarter of the sheet beside Plan and in line with Side, where no other view stands. */
static TwBox
free_quarter (const Arrangement *self)
{
  TwBox side = tw_sheet_on_paper (&self->views[SIDE], self->extents[SIDE]);
  TwBox plan = tw_sheet_on_paper (&self->views[PLAN], self->extents[PLAN]);

  return (TwBox){ side.x0_mm + FACE_EDGE_MM, plan.y0_mm + FACE_EDGE_MM, side.x1_mm - FACE_EDGE_MM,
                  plan.y1_mm - (self->third ? FACE_EDGE_MM : FACE_UNDER_SIDE_MM) };
}

/* A turned core is seen square on its face in no other view: it is put beside them at the largest scale that
 * has room. */
static void
put_face (Arrangement *self)
{
  const TwPlacedCore *core = turned_core (self->set);
  TwBox room = free_quarter (self);
  double scale;

  for (guint i = 0; core != NULL && (scale = tw_sheet_scale (i)) > 0; i++) {
    TwSheetView view = tw_sheet_view (self->set, self->page, TW_VIEW_FACE, core->id, 1 / scale,
                                      TW_VIEW_NO_BAY | TW_VIEW_NO_HOSES);
    TwBox box = tw_sheet_on_paper (&view, view.drawing->all);

    if (width (box) <= width (room) && height (box) <= height (room)) {
      g_autofree char *ratio = tw_sheet_scale_text (scale);
      g_autofree char *title = g_strdup_printf ("%s, %s", tw_sheet_name (self->set, core->id), ratio);

      view.shift = (TwPoint){ (room.x0_mm + room.x1_mm - box.x0_mm - box.x1_mm) / 2,
                              (room.y0_mm + room.y1_mm - box.y0_mm - box.y1_mm) / 2 };
      tw_sheet_put_view (self->page, &view, title);
      self->views[self->n_views++] = view;
      return;
    }
    tw_view_drawing_free (view.drawing);
  }
}

static GPtrArray *
make_tables (const TwSheetSet *set)
{
  GPtrArray *tables = g_ptr_array_new_with_free_func ((GDestroyNotify)tw_table_free);

  g_ptr_array_add (tables, tw_sheet_sizes (set));
  g_ptr_array_add (tables, tw_sheet_clearances (set));
  g_ptr_array_add (tables, tw_sheet_hoses (set));
  g_ptr_array_add (tables, tw_sheet_port_places (set));
  return tables;
}

void
tw_sheet_arrangement (TwSheetSet *set)
{
  Arrangement self = { .set = set, .third = set->settings->projection == TW_PROJECTION_THIRD };
  g_autoptr (GPtrArray) tables = make_tables (set);
  g_autofree char *scale_text = NULL;
  TwPaperSize size = set->smallest;
  TwSheet trial = { .size = size, .look = tw_look_paper (FALSE) };
  double scale = 1;
  gboolean drawn;

  self.page = &trial;
  draw_views (&self, 0.1);
  drawn = find_extents (&self);
  free_views (&self);
  if (drawn) {
    scale = choose (&self, tables, &size);
    trial.size = size;
    trial.look = tw_look_paper (tw_paper (size)->large);
    scale = settle (&self, size, scale);
  }
  scale_text = tw_sheet_scale_text (scale);
  self.page = tw_sheet_add (set, TW_SHEET_ARRANGEMENT, size, tw_part_name ((const TwPart *)set->settings),
                            drawn ? scale_text : NULL);
  if (drawn) {
    arrange (&self, 1 / scale);
    for (guint i = 0; i < N_VIEWS; i++)
      tw_sheet_put_view (self.page, &self.views[i], view_title (&self, i));
    draw_dimensions (&self);
    self.n_views = N_VIEWS;
    put_face (&self);
  }
  {
    TwSheet *page = self.page;

    tw_sheet_put_tables (set, page, tables);
    tw_sheet_put_names (page, self.views, self.n_views);
  }
  if (drawn)
    free_views (&self);
  for (guint i = N_VIEWS; i < self.n_views; i++)
    tw_view_drawing_free (self.views[i].drawing);
}
