/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/new-layout.h"

#include "app/answer-row.h"
#include "app/job-picture.h"
#include "propose/first-layout.h"

#include <glib/gi18n-lib.h>
#include <locale.h>
#include <math.h>

struct _TwNewLayout {
  AdwWindow parent_instance;

  TwAnswerRow *width, *height, *depth;
  GtkDropDown *known_as;
  TwAnswerRow *heat, *brake, *share;
  GtkWidget *share_of_row;
  GtkDropDown *share_of;
  TwAnswerRow *ambient;
  GtkDropDown *coolant, *air_from;
  GtkEntry *name;
  GtkDropDown *lengths;
  GtkToggleButton *front;
  TwJobPicture *picture;
  GtkLabel *choices;

  TwCatalogue *catalogue;
  TwUnitStyle style;
  TwFirstLayout *made; /* of what is typed; NULL: an entry cannot be read */
  TwAnswer *answer;    /* of its job; NULL: there is none */
  guint making;        /* idle source that makes it anew; 0: none */
  TwNewLayoutDone done;
  gpointer data;
  GDestroyNotify release;
};

G_DEFINE_FINAL_TYPE (TwNewLayout, tw_new_layout, ADW_TYPE_WINDOW)

enum { BY_HEAT, BY_BRAKE }; /* places of the choice `known as` */

/* --- from the entries to a layout ----------------------------------------------------------------------- */

/* The row of an answer, NULL where it is chosen from a list. */
static TwAnswerRow *
row_of (TwNewLayout *self, TwFirstAnswer answer)
{
  TwAnswerRow *const rows[TW_FIRST_N_ANSWERS] = {
    [TW_FIRST_WIDTH] = self->width,     [TW_FIRST_HEIGHT] = self->height, [TW_FIRST_DEPTH] = self->depth,
    [TW_FIRST_HEAT] = self->heat,       [TW_FIRST_BRAKE] = self->brake,   [TW_FIRST_SHARE] = self->share,
    [TW_FIRST_AMBIENT] = self->ambient,
  };

  return rows[answer];
}

static const char *
chosen_coolant (TwNewLayout *self)
{
  guint chosen = gtk_drop_down_get_selected (self->coolant);

  /* the first row says that nobody knows */
  return chosen > 0 && chosen <= tw_catalogue_count (self->catalogue, TW_CATALOGUE_COOLANTS)
             ? tw_entry_id (tw_catalogue_get (self->catalogue, TW_CATALOGUE_COOLANTS, chosen - 1))
             : NULL;
}

/* FALSE: at least one entry is no figure, and says so. */
static gboolean
read_wish (TwNewLayout *self, TwFirstLayoutWish *wish)
{
  double *const values[TW_FIRST_N_ANSWERS] = {
    [TW_FIRST_WIDTH] = &wish->bay_width_mm, [TW_FIRST_HEIGHT] = &wish->bay_height_mm,
    [TW_FIRST_DEPTH] = &wish->bay_depth_mm, [TW_FIRST_HEAT] = &wish->heat_kw,
    [TW_FIRST_BRAKE] = &wish->brake_kw,     [TW_FIRST_SHARE] = &wish->share,
    [TW_FIRST_AMBIENT] = &wish->ambient_c,
  };
  gboolean by_brake = gtk_drop_down_get_selected (self->known_as) == BY_BRAKE, good = TRUE;
  const char *name = gtk_editable_get_text (GTK_EDITABLE (self->name));

  for (guint i = 0; i < TW_FIRST_N_ANSWERS; i++) {
    gboolean is_asked = i == TW_FIRST_HEAT                           ? !by_brake
                        : i == TW_FIRST_BRAKE || i == TW_FIRST_SHARE ? by_brake
                                                                     : row_of (self, i) != NULL;

    if (is_asked && !tw_answer_row_read (row_of (self, i), &self->style, values[i]))
      good = FALSE;
  }
  wish->share_of = gtk_drop_down_get_selected (self->share_of) == 0 ? TW_FIRST_OF_BRAKE : TW_FIRST_OF_FUEL;
  wish->coolant = chosen_coolant (self);
  wish->air_from = (TwFirstAir)gtk_drop_down_get_selected (self->air_from);
  wish->shown_in = self->style.inches ? TW_SHOWN_IN_INCH : TW_SHOWN_IN_MM;
  wish->name = name[0] != '\0' ? name : NULL;
  return good;
}

/* What is still to be said, in one sentence; refusals of what was said stand beside their entries. */
static gboolean
say_refusals (TwNewLayout *self)
{
  gboolean is_missing = FALSE;

  for (guint i = 0; i < self->made->refusals->len; i++) {
    const TwFirstRefusal *refusal = g_ptr_array_index (self->made->refusals, i);
    TwAnswerRow *row = row_of (self, refusal->answer);

    if (isnan (refusal->found))
      is_missing = TRUE;
    else if (row != NULL)
      tw_answer_row_say (row, refusal->words);
  }
  return is_missing;
}

static void
append_escaped (GString *text, const char *format, const char *words)
{
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wformat-nonliteral"
  g_autofree char *escaped = g_markup_printf_escaped (format, words);
#pragma GCC diagnostic pop

  g_string_append (text, escaped);
}

static void
show_choices (TwNewLayout *self)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < self->made->choices->len; i++) {
    const TwFirstChoice *choice = g_ptr_array_index (self->made->choices, i);

    append_escaped (text, i > 0 ? "\n<span size=\"5pt\">\n</span><b>%s</b>" : "<b>%s</b>", choice->what);
    append_escaped (text, "\n<span size=\"small\">%s</span>", choice->why);
  }
  if (g_strcmp0 (gtk_label_get_label (self->choices), text->str) != 0)
    gtk_label_set_markup (self->choices, text->str);
}

static void
show_picture (TwNewLayout *self)
{
  TwView view = gtk_toggle_button_get_active (self->front) ? TW_VIEW_FRONT : TW_VIEW_SIDE;

  tw_job_picture_show (self->picture, self->answer, view, 0);
}

static void
show_made (TwNewLayout *self)
{
  gboolean is_good = self->made != NULL && self->made->job != NULL;

  if (is_good)
    show_choices (self);
  else if (self->made != NULL && say_refusals (self))
    gtk_label_set_label (self->choices, _ ("Width, height and depth of the bay are wanted; all else may be "
                                           "left open."));
  else
    gtk_label_set_label (self->choices, _ ("An answer cannot be taken: it says itself what would do."));
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "layout.make", is_good);
  show_picture (self);
}

static void
make (TwNewLayout *self)
{
  TwFirstLayoutWish wish = tw_first_layout_wish ();

  g_clear_handle_id (&self->making, g_source_remove);
  g_clear_pointer (&self->made, tw_first_layout_free);
  g_clear_pointer (&self->answer, tw_answer_unref);
  if (read_wish (self, &wish))
    self->made = tw_first_layout_make (&wish, self->catalogue, self->style.decimal);
  if (self->made != NULL && self->made->job != NULL)
    self->answer = tw_answer_new (self->made->job, self->catalogue, NULL);
  show_made (self);
}

static gboolean
make_cb (gpointer data)
{
  TwNewLayout *self = data;

  self->making = 0;
  make (self);
  return G_SOURCE_REMOVE;
}

/* --- what a person does --------------------------------------------------------------------------------- */

static void
answer_changed_cb (TwNewLayout *self)
{
  if (self->making == 0)
    self->making = g_idle_add (make_cb, self);
}

static void
known_as_cb (TwNewLayout *self)
{
  gboolean by_brake = gtk_drop_down_get_selected (self->known_as) == BY_BRAKE;

  gtk_widget_set_visible (GTK_WIDGET (self->heat), !by_brake);
  gtk_widget_set_visible (GTK_WIDGET (self->brake), by_brake);
  gtk_widget_set_visible (GTK_WIDGET (self->share), by_brake);
  gtk_widget_set_visible (self->share_of_row, by_brake);
  answer_changed_cb (self);
}

static TwUnitStyle
style_chosen (TwNewLayout *self)
{
  TwUnitStyle style = gtk_drop_down_get_selected (self->lengths) == 0 ? TW_UNIT_STYLE_MM : TW_UNIT_STYLE_IN;

  style.decimal = localeconv ()->decimal_point[0] == ',' ? ',' : '.';
  return style;
}

/* What was typed keeps its size. */
static void
lengths_cb (TwNewLayout *self)
{
  TwUnitStyle now = style_chosen (self);
  TwAnswerRow *const rows[] = { self->width, self->height, self->depth };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    tw_answer_row_restyle (rows[i], &self->style, &now);
    g_object_set (rows[i], "hint", tw_units_name (TW_QUANTITY_LENGTH, &now), NULL);
  }
  self->style = now;
  answer_changed_cb (self);
}

static void
view_cb (TwNewLayout *self)
{
  show_picture (self);
}

static void
make_action_cb (GtkWidget *widget, const char *action, GVariant *parameter)
{
  TwNewLayout *self = TW_NEW_LAYOUT (widget);

  make (self); /* what was typed last */
  if (self->made == NULL || self->made->job == NULL)
    return;
  self->done (g_steal_pointer (&self->made->job), self->data);
  gtk_window_close (GTK_WINDOW (self));
}

/* --- making --------------------------------------------------------------------------------------------- */

static void
fill_lists (TwNewLayout *self)
{
  GtkStringList *coolants = gtk_string_list_new (NULL), *airs = gtk_string_list_new (NULL);

  gtk_string_list_append (coolants, _ ("not known yet"));
  for (guint i = 0; i < tw_catalogue_count (self->catalogue, TW_CATALOGUE_COOLANTS); i++)
    gtk_string_list_append (coolants,
                            tw_entry_name (tw_catalogue_get (self->catalogue, TW_CATALOGUE_COOLANTS, i)));
  for (guint i = 0; i < TW_FIRST_N_AIRS; i++)
    gtk_string_list_append (airs, _ (tw_first_air_name (i)));
  gtk_drop_down_set_model (self->coolant, G_LIST_MODEL (coolants));
  gtk_drop_down_set_model (self->air_from, G_LIST_MODEL (airs));
  g_object_unref (coolants);
  g_object_unref (airs);
}

static void
tw_new_layout_dispose (GObject *object)
{
  TwNewLayout *self = TW_NEW_LAYOUT (object);

  g_clear_handle_id (&self->making, g_source_remove);
  g_clear_pointer (&self->made, tw_first_layout_free);
  g_clear_pointer (&self->answer, tw_answer_unref);
  if (self->release != NULL)
    self->release (g_steal_pointer (&self->data));
  self->release = NULL;
  G_OBJECT_CLASS (tw_new_layout_parent_class)->dispose (object);
  g_clear_pointer (&self->catalogue, tw_catalogue_free);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, TwNewLayout, width);
  gtk_widget_class_bind_template_child (widget_class, TwNewLayout, height);
  gtk_widget_class_bind_template_child (widget_class, TwNewLayout, depth);
  gtk_widget_class_bind_template_child (widget_class, TwNewLayout, known_as);
  gtk_widget_class_bind_template_child (widget_class, TwNewLayout, heat);
  gtk_widget_class_bind_template_child (widget_class, TwNewLayout, brake);
  gtk_widget_class_bind_template_child (widget_class, TwNewLayout, share);
  gtk_widget_class_bind_template_child (widget_class, TwNewLayout, share_of_row);
  gtk_widget_class_bind_template_child (widget_class, TwNewLayout, share_of);
  gtk_widget_class_bind_template_child (widget_class, TwNewLayout, ambient);
  gtk_widget_class_bind_template_child (widget_class, TwNewLayout, coolant);
  gtk_widget_class_bind_template_child (widget_class, TwNewLayout, air_from);
  gtk_widget_class_bind_template_child (widget_class, TwNewLayout, name);
  gtk_widget_class_bind_template_child (widget_class, TwNewLayout, lengths);
  gtk_widget_class_bind_template_child (widget_class, TwNewLayout, front);
  gtk_widget_class_bind_template_child (widget_class, TwNewLayout, picture);
  gtk_widget_class_bind_template_child (widget_class, TwNewLayout, choices);
  gtk_widget_class_bind_template_callback (widget_class, answer_changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, known_as_cb);
  gtk_widget_class_bind_template_callback (widget_class, lengths_cb);
  gtk_widget_class_bind_template_callback (widget_class, view_cb);
}

static void
tw_new_layout_class_init (TwNewLayoutClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tw_new_layout_dispose;
  g_type_ensure (TW_TYPE_ANSWER_ROW);
  g_type_ensure (TW_TYPE_JOB_PICTURE);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/tankwright/Tankwright/new-layout.ui");
  bind_children (widget_class);
  gtk_widget_class_install_action (widget_class, "layout.make", NULL, make_action_cb);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
}

static void
tw_new_layout_init (TwNewLayout *self)
{
  g_autoptr (GError) error = NULL;

  self->catalogue = tw_catalogue_load (&error);
  if (self->catalogue == NULL) /* the window cannot have been opened without it */
    g_error ("%s", error->message);
  gtk_widget_init_template (GTK_WIDGET (self));
  tw_answer_row_set_quantity (self->heat, TW_QUANTITY_POWER);
  tw_answer_row_set_quantity (self->brake, TW_QUANTITY_POWER);
  tw_answer_row_set_quantity (self->share, TW_QUANTITY_SHARE);
  tw_answer_row_set_quantity (self->ambient, TW_QUANTITY_TEMPERATURE);
  fill_lists (self);
  lengths_cb (self);
  known_as_cb (self);
  make (self);
  tw_answer_row_take_focus (self->width);
}

void
tw_new_layout_ask (GtkWindow *parent, TwNewLayoutDone done, gpointer data, GDestroyNotify release)
{
  TwNewLayout *self = g_object_new (TW_TYPE_NEW_LAYOUT, "transient-for", parent, NULL);

  self->done = done;
  self->data = data;
  self->release = release;
  gtk_window_present (GTK_WINDOW (self));
}
