/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/passage.h"

#include "app/compat.h"

#include <string.h>

#define THIN_SPACE "\342\200\211"      /* U+2009: between figure and unit; a line may break there */
#define THIN_KEPT_SPACE "\342\200\257" /* U+202F: as narrow, and none does */
#define LEAST_WIDTH_PX 40
#define UNIT_ALPHA 44000 /* of 65535, dimensionless */

struct _TwPassage {
  GtkWidget parent_instance;

  char *text;
  gboolean is_markup; /* the text is Pango markup */
  float xalign;       /* dimensionless */
  gboolean tabular;
  gboolean light_units;
  int most_width;      /* px, 0: as given */
  PangoLayout *layout; /* NULL: to be made */
};

enum { PROP_0, PROP_TEXT, PROP_XALIGN, PROP_TABULAR, PROP_LIGHT_UNITS, PROP_MOST_WIDTH, N_PROPS };

static GParamSpec *props[N_PROPS];

G_DEFINE_FINAL_TYPE (TwPassage, tw_passage, GTK_TYPE_WIDGET)

/* What follows a figure and a thin space, to the next space or comma, is its unit; a figure there are the
 * thousand's next three digits. */
static void
lighten_units (const char *text, PangoAttrList *attributes)
{
  for (const char *thin = text; (thin = strstr (thin, THIN_KEPT_SPACE)) != NULL; thin++) {
    const char *unit = thin + strlen (THIN_KEPT_SPACE);
    gsize length = strcspn (unit, " ,;");
    PangoAttribute *attribute;

    if (thin == text || g_ascii_isdigit (unit[0]))
      continue;
    attribute = pango_attr_foreground_alpha_new (UNIT_ALPHA);
    attribute->start_index = (guint)(unit - text);
    attribute->end_index = attribute->start_index + (guint)length;
    pango_attr_list_insert (attributes, attribute);
    attribute = pango_attr_weight_new (PANGO_WEIGHT_NORMAL);
    attribute->start_index = (guint)(unit - text);
    attribute->end_index = attribute->start_index + (guint)length;
    pango_attr_list_insert (attributes, attribute);
  }
}

static PangoLayout *
layout_of (TwPassage *self)
{
  if (self->layout != NULL)
    return self->layout;
  self->layout = gtk_widget_create_pango_layout (GTK_WIDGET (self), self->is_markup ? NULL : self->text);
  if (self->is_markup)
    pango_layout_set_markup (self->layout, self->text, -1);
  pango_layout_set_wrap (self->layout, PANGO_WRAP_WORD_CHAR);
  if (self->xalign > 0.5F)
    pango_layout_set_alignment (self->layout, PANGO_ALIGN_RIGHT);
  if ((self->tabular || self->light_units) && !self->is_markup) {
    g_autoptr (PangoAttrList) attributes = pango_attr_list_new ();

    if (self->tabular)
      pango_attr_list_insert (attributes, pango_attr_font_features_new ("tnum"));
    if (self->light_units)
      lighten_units (self->text, attributes);
    pango_layout_set_attributes (self->layout, attributes);
  }
  return self->layout;
}

static int
line_width (TwPassage *self)
{
  int width;

  pango_layout_set_width (layout_of (self), -1);
  pango_layout_get_pixel_size (layout_of (self), &width, NULL);
  return width;
}

static GtkSizeRequestMode
tw_passage_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
tw_passage_measure (GtkWidget *widget,
                    GtkOrientation orientation,
                    int for_size,
                    int *min,
                    int *nat,
                    int *min_b,
                    int *nat_b)
{
  TwPassage *self = TW_PASSAGE (widget);

  *min_b = *nat_b = -1;
  if (orientation == GTK_ORIENTATION_HORIZONTAL) {
    *nat = self->most_width > 0 ? MIN (line_width (self), self->most_width) : LEAST_WIDTH_PX;
    *min = MIN (*nat, LEAST_WIDTH_PX);
    return;
  }
  if (for_size < 0)
    for_size = self->most_width > 0 ? MIN (line_width (self), self->most_width) : LEAST_WIDTH_PX;
  pango_layout_set_width (layout_of (self), for_size * PANGO_SCALE);
  pango_layout_get_pixel_size (layout_of (self), NULL, min);
  *nat = *min;
}

static void
tw_passage_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  TwPassage *self = TW_PASSAGE (widget);
  GdkRGBA colour;

  tw_compat_colour (widget, &colour);
  pango_layout_set_width (layout_of (self), gtk_widget_get_width (widget) * PANGO_SCALE);
  gtk_snapshot_append_layout (snapshot, layout_of (self), &colour);
}

/* Another font, another colour. */
static void
tw_passage_css_changed (GtkWidget *widget, GtkCssStyleChange *change)
{
  GTK_WIDGET_CLASS (tw_passage_parent_class)->css_changed (widget, change);
  g_clear_object (&TW_PASSAGE (widget)->layout);
  gtk_widget_queue_resize (widget);
}

static void
tw_passage_finalize (GObject *object)
{
  TwPassage *self = TW_PASSAGE (object);

  g_clear_object (&self->layout);
  g_free (self->text);
  G_OBJECT_CLASS (tw_passage_parent_class)->finalize (object);
}

static void
tw_passage_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  TwPassage *self = TW_PASSAGE (object);

  switch (id) {
  case PROP_TEXT:
    g_value_set_string (value, self->text);
    break;
  case PROP_XALIGN:
    g_value_set_float (value, self->xalign);
    break;
  case PROP_TABULAR:
    g_value_set_boolean (value, self->tabular);
    break;
  case PROP_LIGHT_UNITS:
    g_value_set_boolean (value, self->light_units);
    break;
  case PROP_MOST_WIDTH:
    g_value_set_int (value, self->most_width);
    break;
  default:
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
  }
}

static void
tw_passage_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  TwPassage *self = TW_PASSAGE (object);

  switch (id) {
  case PROP_TEXT:
    tw_passage_show (self, g_value_get_string (value));
    return;
  case PROP_XALIGN:
    self->xalign = g_value_get_float (value);
    break;
  case PROP_TABULAR:
    self->tabular = g_value_get_boolean (value);
    break;
  case PROP_LIGHT_UNITS:
    self->light_units = g_value_get_boolean (value);
    break;
  case PROP_MOST_WIDTH:
    self->most_width = g_value_get_int (value);
    break;
  default:
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    return;
  }
  g_clear_object (&self->layout);
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

static void
tw_passage_class_init (TwPassageClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  const GParamFlags flags = G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS;

  object_class->finalize = tw_passage_finalize;
  object_class->get_property = tw_passage_get_property;
  object_class->set_property = tw_passage_set_property;
  widget_class->get_request_mode = tw_passage_get_request_mode;
  widget_class->measure = tw_passage_measure;
  widget_class->snapshot = tw_passage_snapshot;
  widget_class->css_changed = tw_passage_css_changed;

  props[PROP_TEXT] = g_param_spec_string ("text", NULL, NULL, "", flags);
  props[PROP_XALIGN] = g_param_spec_float ("xalign", NULL, NULL, 0.0F, 1.0F, 0.0F, flags);
  props[PROP_TABULAR] = g_param_spec_boolean ("tabular", NULL, NULL, FALSE, flags);
  props[PROP_LIGHT_UNITS] = g_param_spec_boolean ("light-units", NULL, NULL, FALSE, flags);
  props[PROP_MOST_WIDTH] = g_param_spec_int ("most-width", NULL, NULL, 0, 10000, 0, flags);
  g_object_class_install_properties (object_class, N_PROPS, props);
  gtk_widget_class_set_css_name (widget_class, "label");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_LABEL);
}

static void
tw_passage_init (TwPassage *self)
{
  self->text = g_strdup ("");
}

static gboolean
show (TwPassage *self, const char *text, gboolean is_markup)
{
  GString *kept = g_string_new (text);

  g_string_replace (kept, THIN_SPACE, THIN_KEPT_SPACE, 0);
  if (is_markup == self->is_markup && g_str_equal (self->text, kept->str)) {
    g_string_free (kept, TRUE);
    return FALSE;
  }
  g_free (self->text);
  self->text = g_string_free (kept, FALSE);
  self->is_markup = is_markup;
  g_clear_object (&self->layout);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  pango_layout_get_text (layout_of (self)), -1);
  gtk_widget_queue_resize (GTK_WIDGET (self));
  return TRUE;
}

gboolean
tw_passage_show (TwPassage *self, const char *text)
{
  return show (self, text, FALSE);
}

gboolean
tw_passage_show_markup (TwPassage *self, const char *markup)
{
  return show (self, markup, TRUE);
}

PangoLayout *
tw_passage_layout (TwPassage *self)
{
  pango_layout_set_width (layout_of (self), gtk_widget_get_width (GTK_WIDGET (self)) * PANGO_SCALE);
  return layout_of (self);
}
