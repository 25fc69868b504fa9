/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/canvas-private.h"

#include "app/canvas-part.h"
#include "app/compat.h"
#include "app/part-words.h"

#include <adwaita.h>
#include <glib/gi18n-lib.h>
#include <math.h>

enum { PROP_0, PROP_POSITION, PROP_SNAP, PROP_ZOOM, PROP_IS_EMPTY, N_PROPS };

enum { PART_ACTIVATED, LOOKED, N_SIGNALS };

static GParamSpec *props[N_PROPS];
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (TwCanvas, tw_canvas, GTK_TYPE_WIDGET)

TwLens *
tw_canvas_lens (TwCanvas *self)
{
  return &self->lenses[tw_session_view (self->session)];
}

/* --- status --------------------------------------------------------------------------------------------- */

static void
set_text (TwCanvas *self, char **text, guint prop, char *now)
{
  if (g_strcmp0 (*text, now) == 0) {
    g_free (now);
    return;
  }
  g_free (*text);
  *text = now;
  g_object_notify_by_pspec (G_OBJECT (self), props[prop]);
}

static char *
position_text (TwCanvas *self)
{
  static const char *const formats[TW_N_VIEWS] = {
    /* Translators: where the pointer is; in the Face view across and up, else x, y and z of the job */
    [TW_VIEW_FACE] = N_ ("across %s  up %s"),
    [TW_VIEW_FRONT] = N_ ("x %s  y %s"),
    [TW_VIEW_SIDE] = N_ ("z %s  y %s"),
    [TW_VIEW_PLAN] = N_ ("x %s  z %s"),
  };
  TwUnitStyle style = tw_session_style (self->session);
  TwPoint at = tw_lens_to_view (tw_canvas_lens (self), self->pointer);
  double fine_mm = 1.0 / tw_canvas_lens (self)->px_mm;
  int decimals = fine_mm < 0.2 ? 2 : fine_mm < 1.0 ? 1 : 0;
  g_autofree char *across = NULL, *up = NULL;

  if (!self->has_pointer || !tw_session_has_job (self->session))
    return g_strdup ("");
  if (style.inches)
    decimals = -1;
  style.finest = 16;
  across = tw_units_format (TW_QUANTITY_LENGTH, &style, at.x_mm, decimals);
  up = tw_units_format (TW_QUANTITY_LENGTH, &style, at.y_mm, decimals);
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wformat-nonliteral"
  return g_strdup_printf (_ (formats[tw_session_view (self->session)]), across, up);
#pragma GCC diagnostic pop
}

void
tw_canvas_update_status (TwCanvas *self)
{
  g_autofree char *snap = tw_canvas_snap_text (self);
  char *told = NULL;

  if (tw_hand_is_holding (self->hand)) {
    g_autofree char *moved = tw_canvas_moved_text (self);

    told = snap ? g_strdup_printf ("%s – %s", moved, snap) : g_strdup (moved);
  } else if (self->is_measuring) {
    told = tw_canvas_distance_text (self);
  }
  set_text (self, &self->position, PROP_POSITION, position_text (self));
  set_text (self, &self->snap, PROP_SNAP, told ? told : g_strdup (""));
  g_signal_emit (self, signals[LOOKED], 0);
}

/* --- the job and its parts ------------------------------------------------------------------------------ */

/* Letters are as large as the platform asks: 96 dots an inch are its plain size. */
static TwLook
look_now (void)
{
  AdwStyleManager *styles = adw_style_manager_get_default ();
  TwLook look = tw_look_screen (adw_style_manager_get_dark (styles) ? TW_LOOK_DARK : TW_LOOK_LIGHT,
                                tw_compat_high_contrast ());
  double larger = tw_compat_text_scale ();

  for (guint i = 0; i < TW_INK_N_SIZES; i++)
    look.heights[i] *= larger;
  return look;
}

static const char *
translate (const char *words)
{
  return _ (words);
}

/* What of the view is on the screen, mm. */
static TwBox
shown_box (TwCanvas *self)
{
  const TwLens *lens = tw_canvas_lens (self);
  TwPoint low = tw_lens_to_view (lens, (TwPixel){ 0.0, lens->height_px });
  TwPoint high = tw_lens_to_view (lens, (TwPixel){ lens->width_px, 0.0 });

  return (TwBox){ low.x_mm, low.y_mm, high.x_mm, high.y_mm };
}

/* @px_mm decides how close tubes lie and where names have room. While the view is as it was fitted no name is
 * cut by its edge. (transfer full) (nullable) */
static TwViewDrawing *
draw_view (TwCanvas *self, double px_mm)
{
  const TwAnswer *answer = tw_session_answer (self->session);
  const TwPlacedCore *core = tw_session_core (self->session);
  TwMeasure measure = tw_letters_measure (self->letters);
  TwLook look = look_now ();
  gboolean is_framed = self->framed[tw_session_view (self->session)] && tw_canvas_lens (self)->px_mm > 0.0;
  TwBox shown = is_framed ? shown_box (self) : TW_BOX_EMPTY;
  TwViewSource source;
  TwViewManner manner = {
    .shown = is_framed ? &shown : NULL,
    .view = tw_session_view (self->session),
    .core = core ? core->id : TW_ID_NONE,
    .scale = px_mm,
    .look = &look,
    .measure = &measure,
    .translate = translate,
  };

  if (answer == NULL)
    return NULL;
  source = (TwViewSource){ tw_answer_placement (answer), tw_answer_routes (answer), tw_answer_passes (answer),
                           tw_session_geos (self->session) };
  return tw_view_draw (&source, &manner);
}

static void
draw_again (TwCanvas *self)
{
  double px_mm = tw_canvas_lens (self)->px_mm;
  gboolean is_empty;

  g_clear_pointer (&self->pick, tw_pick_free);
  g_clear_pointer (&self->drawing, tw_view_drawing_free);
  self->drawn_px_mm = px_mm > 0.0 ? px_mm : 1.0;
  self->drawing = draw_view (self, self->drawn_px_mm);
  if (self->drawing != NULL)
    self->pick = tw_pick_new (self->drawing->ink);
  is_empty = self->drawing == NULL || tw_ink_count (self->drawing->ink) == 0;
  if (is_empty == self->is_empty)
    return;
  self->is_empty = is_empty;
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_IS_EMPTY]);
}

static void
say_zoom (TwCanvas *self)
{
  TwUnitStyle style = tw_session_style (self->session);
  /* 96 px are taken for an inch: what a screen at scale 1 claims to be */
  double share = tw_canvas_lens (self)->px_mm * 25.4 / 96.0;

  set_text (self, &self->zoom, PROP_ZOOM, tw_units_format (TW_QUANTITY_SHARE, &style, share, 0));
  tw_canvas_update_status (self);
}

static void
show_lens (TwCanvas *self)
{
  if (self->drawn_px_mm != tw_canvas_lens (self)->px_mm)
    draw_again (self);
  say_zoom (self);
  gtk_widget_queue_allocate (GTK_WIDGET (self));
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
tw_canvas_lens_changed (TwCanvas *self)
{
  gboolean *framed = &self->framed[tw_session_view (self->session)];

  if (*framed)
    self->drawn_px_mm = 0.0; /* with the names beyond its edges too */
  *framed = FALSE;
  self->fitted[tw_session_view (self->session)] = FALSE;
  show_lens (self);
}

/* The children that stand for parts; those that are there already stay, with their focus. */
static void
sync_parts (TwCanvas *self)
{
  g_autoptr (GHashTable) old = g_hash_table_new (g_str_hash, g_str_equal);
  GPtrArray *parts = g_ptr_array_new ();
  GtkWidget *before = NULL;

  for (guint i = 0; i < self->parts->len; i++) {
    TwCanvasPart *part = g_ptr_array_index (self->parts, i);

    g_hash_table_insert (old, g_strdup (tw_canvas_part_id (part).text), part);
  }
  for (guint i = 0; self->pick != NULL && i < tw_pick_count (self->pick); i++) {
    const TwPickShape *shape = tw_pick_get (self->pick, i);
    gpointer key = NULL, part = NULL;

    if (tw_job_find (tw_session_job (self->session), shape->part) == NULL)
      continue;
    if (g_hash_table_steal_extended (old, shape->part.text, &key, &part))
      g_free (key);
    else
      part = tw_canvas_part_new (self->session, shape->part);
    gtk_widget_insert_after (part, GTK_WIDGET (self), before);
    tw_canvas_part_update (part);
    before = part;
    g_ptr_array_add (parts, part);
  }
  {
    GHashTableIter iter;
    gpointer key, part;

    g_hash_table_iter_init (&iter, old);
    while (g_hash_table_iter_next (&iter, &key, &part)) {
      gtk_widget_unparent (part);
      g_free (key);
    }
  }
  g_ptr_array_unref (self->parts);
  self->parts = parts;
}

static void
show_job (TwCanvas *self)
{
  draw_again (self);
  sync_parts (self);
  tw_canvas_sync_grips (self);
  tw_canvas_update_status (self);
  gtk_widget_queue_allocate (GTK_WIDGET (self));
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
job_leaves_cb (TwCanvas *self)
{
  tw_canvas_end_typing (self, FALSE);
  tw_hand_cancel (self->hand);
  self->has_grip = FALSE;
  self->is_boxing = FALSE;
}

/* Another job: nothing of the old one's views is of use. */
static void
job_replaced_cb (TwCanvas *self)
{
  for (guint i = 0; i < TW_N_VIEWS; i++)
    self->lenses[i].px_mm = 0.0;
}

static void
view_changed_cb (TwCanvas *self)
{
  tw_canvas_end_typing (self, FALSE);
  tw_hand_cancel (self->hand);
  self->has_grip = FALSE;
  show_job (self);
  if (tw_canvas_lens (self)->px_mm > 0.0)
    show_lens (self);
}

static void
selection_changed_cb (TwCanvas *self)
{
  for (guint i = 0; i < self->parts->len; i++)
    tw_canvas_part_update (g_ptr_array_index (self->parts, i));
  tw_canvas_sync_grips (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

TwHandBench
tw_canvas_bench (TwCanvas *self)
{
  return (TwHandBench){ tw_session_job (self->session), tw_session_history (self->session),
                        tw_session_placement (self->session), tw_session_passes (self->session) };
}

/* --- the widget ----------------------------------------------------------------------------------------- */

static void
tw_canvas_measure (GtkWidget *widget,
                   GtkOrientation orientation,
                   int for_size,
                   int *min,
                   int *nat,
                   int *min_b,
                   int *nat_b)
{
  *min = 200;
  *nat = orientation == GTK_ORIENTATION_HORIZONTAL ? 640 : 480;
  *min_b = *nat_b = -1;
}

static void
allocate_part (TwCanvas *self, TwCanvasPart *part)
{
  const TwPickShape *shape = tw_pick_find (self->pick, tw_canvas_part_id (part));
  const TwLens *lens = tw_canvas_lens (self);
  TwPixel low = { 0.0, 0.0 }, high = { 1.0, 1.0 };
  GtkAllocation place;

  if (shape != NULL && !tw_box_is_empty (shape->box)) {
    low = tw_lens_to_screen (lens, (TwPoint){ shape->box.x0_mm, shape->box.y1_mm });
    high = tw_lens_to_screen (lens, (TwPoint){ shape->box.x1_mm, shape->box.y0_mm });
  }
  place.x = (int)CLAMP (floor (low.x_px), -16000.0, 16000.0);
  place.y = (int)CLAMP (floor (low.y_px), -16000.0, 16000.0);
  place.width = MAX ((int)CLAMP (ceil (high.x_px), -16000.0, 16000.0) - place.x, 1);
  place.height = MAX ((int)CLAMP (ceil (high.y_px), -16000.0, 16000.0) - place.y, 1);
  gtk_widget_measure (GTK_WIDGET (part), GTK_ORIENTATION_HORIZONTAL, -1, NULL, NULL, NULL, NULL);
  gtk_widget_size_allocate (GTK_WIDGET (part), &place, -1);
}

/* Beside the pointer, or the middle of what is held by keys, whole on the canvas. */
static void
allocate_typing (TwCanvas *self, int width, int height)
{
  const TwGrip *grip = tw_hand_grip (self->hand, 0);
  TwPixel at = self->pointer;
  GtkAllocation place;
  GtkRequisition size;

  if (!self->has_pointer && grip != NULL)
    at = tw_lens_to_screen (tw_canvas_lens (self), grip->at);
  gtk_widget_get_preferred_size (GTK_WIDGET (self->typing), NULL, &size);
  place = (GtkAllocation){ (int)at.x_px + 20, (int)at.y_px + 20, size.width, size.height };
  place.x = CLAMP (place.x, 4, MAX (width - size.width - 4, 4));
  place.y = CLAMP (place.y, 4, MAX (height - size.height - 4, 4));
  gtk_widget_size_allocate (GTK_WIDGET (self->typing), &place, -1);
}

/* Labels cannot be set while the window is laid out. */
static gboolean
say_zoom_cb (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  say_zoom (TW_CANVAS (widget));
  return G_SOURCE_REMOVE;
}

static void
tw_canvas_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  TwCanvas *self = TW_CANVAS (widget);
  TwLens *lens = tw_canvas_lens (self);
  gboolean resized = lens->width_px != width || lens->height_px != height;
  gboolean follows = lens->px_mm <= 0.0 || (resized && self->fitted[tw_session_view (self->session)]);

  if (self->drawing != NULL && follows) {
    tw_canvas_fit_lens (self, FALSE);
    draw_again (self);
    gtk_widget_add_tick_callback (widget, say_zoom_cb, NULL, NULL);
  } else if (resized) {
    *lens = tw_lens_resize (lens, width, height);
  }
  for (guint i = 0; i < self->parts->len; i++)
    allocate_part (self, g_ptr_array_index (self->parts, i));
  if (self->typing != NULL && tw_canvas_typing_is_open (self->typing))
    allocate_typing (self, width, height);
  if (self->menu != NULL)
    gtk_popover_present (self->menu);
}

static void
tw_canvas_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  TwCanvas *self = TW_CANVAS (widget);
  TwLook look = look_now ();
  double rgb[3];
  GdkRGBA paper;

  tw_look_colour (&look, TW_INK_TINT_PAPER, 1.0, rgb);
  paper = (GdkRGBA){ (float)rgb[0], (float)rgb[1], (float)rgb[2], 1.0F };
  gtk_snapshot_append_color (snapshot, &paper,
                             &GRAPHENE_RECT_INIT (0.0F, 0.0F, (float)gtk_widget_get_width (widget),
                                                  (float)gtk_widget_get_height (widget)));
  if (self->drawing == NULL)
    return;
  tw_canvas_layers_set (self->layers, self->drawing->ink, &look, tw_canvas_lens (self));
  tw_canvas_layers_snapshot (self->layers, self->letters, snapshot);
  tw_canvas_snapshot_marks (self, &look, snapshot);
  if (self->typing != NULL)
    gtk_widget_snapshot_child (widget, GTK_WIDGET (self->typing), snapshot);
}

static void
tw_canvas_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  TwCanvas *self = TW_CANVAS (object);

  switch (id) {
  case PROP_POSITION:
    g_value_set_string (value, self->position);
    break;
  case PROP_SNAP:
    g_value_set_string (value, self->snap);
    break;
  case PROP_ZOOM:
    g_value_set_string (value, self->zoom);
    break;
  case PROP_IS_EMPTY:
    g_value_set_boolean (value, self->is_empty);
    break;
  default:
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
  }
}

static void
tw_canvas_dispose (GObject *object)
{
  TwCanvas *self = TW_CANVAS (object);

  g_clear_pointer (&self->hand, tw_hand_free);
  for (guint i = 0; i < self->parts->len; i++)
    gtk_widget_unparent (g_ptr_array_index (self->parts, i));
  g_ptr_array_set_size (self->parts, 0);
  if (self->typing != NULL)
    gtk_widget_unparent (GTK_WIDGET (self->typing));
  self->typing = NULL;
  if (self->menu != NULL)
    gtk_widget_unparent (GTK_WIDGET (self->menu));
  self->menu = NULL;
  g_clear_object (&self->session);
  G_OBJECT_CLASS (tw_canvas_parent_class)->dispose (object);
}

static void
tw_canvas_finalize (GObject *object)
{
  TwCanvas *self = TW_CANVAS (object);

  g_clear_pointer (&self->pick, tw_pick_free);
  g_clear_pointer (&self->grips, tw_grips_free);
  g_clear_pointer (&self->drawing, tw_view_drawing_free);
  tw_canvas_layers_free (self->layers);
  tw_letters_free (self->letters);
  g_ptr_array_unref (self->parts);
  g_free (self->position);
  g_free (self->snap);
  g_free (self->zoom);
  G_OBJECT_CLASS (tw_canvas_parent_class)->finalize (object);
}

static void
tw_canvas_class_init (TwCanvasClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  const GParamFlags readable = G_PARAM_READABLE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS;

  object_class->dispose = tw_canvas_dispose;
  object_class->finalize = tw_canvas_finalize;
  object_class->get_property = tw_canvas_get_property;
  widget_class->measure = tw_canvas_measure;
  widget_class->size_allocate = tw_canvas_size_allocate;
  widget_class->snapshot = tw_canvas_snapshot;

  props[PROP_POSITION] = g_param_spec_string ("position", NULL, NULL, NULL, readable);
  props[PROP_SNAP] = g_param_spec_string ("snap", NULL, NULL, NULL, readable);
  props[PROP_ZOOM] = g_param_spec_string ("zoom", NULL, NULL, NULL, readable);
  props[PROP_IS_EMPTY] = g_param_spec_boolean ("is-empty", NULL, NULL, FALSE, readable);
  g_object_class_install_properties (object_class, N_PROPS, props);
  signals[PART_ACTIVATED]
      = g_signal_new ("part-activated", TW_TYPE_CANVAS, G_SIGNAL_RUN_LAST | G_SIGNAL_ACTION, 0, NULL, NULL,
                      NULL, G_TYPE_NONE, 0);
  signals[LOOKED]
      = g_signal_new ("looked", TW_TYPE_CANVAS, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_css_name (widget_class, "canvas");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

/* Names are placed anew: they are larger. */
static void
text_scaled_cb (TwCanvas *self)
{
  if (self->session != NULL)
    show_job (self);
}

/* Ink has other colours on slate. */
static void
watch_colours (TwCanvas *self)
{
  AdwStyleManager *styles = adw_style_manager_get_default ();

  g_signal_connect_object (styles, "notify::dark", G_CALLBACK (gtk_widget_queue_draw), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (styles, "notify::high-contrast", G_CALLBACK (gtk_widget_queue_draw), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (gtk_settings_get_default (), "notify::gtk-xft-dpi", G_CALLBACK (text_scaled_cb),
                           self, G_CONNECT_SWAPPED);
}

static void
tw_canvas_init (TwCanvas *self)
{
  g_autofree char *family = NULL;
  PangoFontDescription *font
      = pango_context_get_font_description (gtk_widget_get_pango_context (GTK_WIDGET (self)));

  family = g_strdup (pango_font_description_get_family (font));
  self->parts = g_ptr_array_new ();
  self->layers = tw_canvas_layers_new ();
  self->letters = tw_letters_new (family ? family : TW_LETTERS_SHEET_FONT);
  self->hand = tw_hand_new ();
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Drawing"), -1);
  tw_canvas_add_input (self);
  watch_colours (self);
}

void
tw_canvas_set_session (TwCanvas *self, TwSession *session)
{
  g_return_if_fail (self->session == NULL);

  self->session = g_object_ref (session);
  g_signal_connect_object (session, "job-leaves", G_CALLBACK (job_leaves_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "job-replaced", G_CALLBACK (job_replaced_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "job-changed", G_CALLBACK (show_job), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "notify::view", G_CALLBACK (view_changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "selection-changed", G_CALLBACK (selection_changed_cb), self,
                           G_CONNECT_SWAPPED);
  tw_canvas_add_typing (self);
  show_job (self);
}

void
tw_canvas_fit (TwCanvas *self)
{
  tw_canvas_fit_lens (self, self->fitted[tw_session_view (self->session)]);
  show_lens (self);
}

graphene_point_t
tw_canvas_place_of (TwCanvas *self, TwPoint at)
{
  TwPixel place = tw_lens_to_screen (tw_canvas_lens (self), at);

  return GRAPHENE_POINT_INIT ((float)place.x_px, (float)place.y_px);
}

TwPoint
tw_canvas_point_at (TwCanvas *self, double x, double y)
{
  return tw_lens_to_view (tw_canvas_lens (self), (TwPixel){ x, y });
}

const guint *
tw_canvas_moving_fields (TwCanvas *self, guint *n)
{
  *n = 0;
  return tw_hand_is_holding (self->hand) ? tw_hand_fields (self->hand, n) : NULL;
}

const TwInk *
tw_canvas_ink (TwCanvas *self)
{
  return self->drawing ? self->drawing->ink : NULL;
}

guint
tw_canvas_nodes_drawn (TwCanvas *self)
{
  return tw_canvas_layers_drawn (self->layers);
}
