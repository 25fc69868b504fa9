/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/help-view.h"

#include "app/job-picture.h"
#include "app/passage.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define PICTURE_HEIGHT_PX 200
#define BETWEEN_PX 12
#define IN_LIST_PX 6

struct _TwHelpView {
  GtkWidget parent_instance;

  GtkBox *blocks;
};

enum { LINK_FOLLOWED, N_SIGNALS };

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (TwHelpView, tw_help_view, GTK_TYPE_WIDGET)

static gboolean
link_activated_cb (TwHelpView *self, const char *page)
{
  g_autofree char *kept = g_strdup (page); /* the label goes with the page that it stands on */

  g_signal_emit (self, signals[LINK_FOLLOWED], 0, kept);
  return TRUE;
}

/* Text without links is cheap to set, see app/passage.h: the long pages have hundreds of lines. */
static GtkWidget *
plain_new (const char *markup)
{
  GtkWidget *passage = g_object_new (TW_TYPE_PASSAGE, "hexpand", TRUE, NULL);

  tw_passage_show_markup (TW_PASSAGE (passage), markup);
  return passage;
}

static GtkWidget *
text_new (TwHelpView *self, const char *markup, GtkAccessibleRole role)
{
  GtkWidget *label;

  if (role == GTK_ACCESSIBLE_ROLE_LABEL && strstr (markup, "<a ") == NULL)
    return plain_new (markup);
  label = g_object_new (GTK_TYPE_LABEL, "accessible-role", role, "label", markup, "use-markup", TRUE, "wrap",
                        TRUE, "wrap-mode", PANGO_WRAP_WORD_CHAR, "xalign", 0.0, "yalign", 0.0, "hexpand",
                        TRUE, NULL);

  g_signal_connect_swapped (label, "activate-link", G_CALLBACK (link_activated_cb), self);
  return label;
}

static GtkWidget *
heading_new (TwHelpView *self, const char *markup, const char *style, int level)
{
  GtkWidget *label = text_new (self, markup, GTK_ACCESSIBLE_ROLE_HEADING);

  gtk_accessible_update_property (GTK_ACCESSIBLE (label), GTK_ACCESSIBLE_PROPERTY_LEVEL, level, -1);
  gtk_widget_add_css_class (label, style);
  return label;
}

/* A dot or number, then the text. */
static GtkWidget *
item_new (TwHelpView *self, const TwHelpBlock *block)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, IN_LIST_PX);
  g_autofree char *number = block->step > 0 ? g_strdup_printf ("%u.", block->step) : g_strdup ("•");
  GtkWidget *mark = gtk_label_new (number);

  gtk_label_set_width_chars (GTK_LABEL (mark), 3);
  gtk_label_set_xalign (GTK_LABEL (mark), 1.0F);
  gtk_widget_set_valign (mark, GTK_ALIGN_START);
  gtk_widget_add_css_class (mark, "numeric");
  gtk_widget_add_css_class (mark, "dim-label");
  gtk_box_append (GTK_BOX (box), mark);
  gtk_box_append (GTK_BOX (box), text_new (self, block->markup, GTK_ACCESSIBLE_ROLE_LABEL));
  return box;
}

static GtkWidget *
caution_new (TwHelpView *self, const TwHelpBlock *block)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, BETWEEN_PX);
  GtkWidget *mark = gtk_image_new_from_icon_name ("dialog-warning-symbolic");

  gtk_widget_set_valign (mark, GTK_ALIGN_START);
  gtk_accessible_update_property (GTK_ACCESSIBLE (mark), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Caution"), -1);
  gtk_box_append (GTK_BOX (box), mark);
  gtk_box_append (GTK_BOX (box), text_new (self, block->markup, GTK_ACCESSIBLE_ROLE_LABEL));
  gtk_widget_add_css_class (box, "card");
  gtk_widget_add_css_class (box, "help-caution");
  return box;
}

static TwView
view_named (const char *name)
{
  static const char *const names[TW_N_VIEWS] = { "face", "front", "side", "plan" };

  for (guint i = 0; i < TW_N_VIEWS; i++)
    if (g_str_equal (names[i], name))
      return i;
  return TW_VIEW_FACE;
}

/* NULL when the sample is not there: the text below then says all there is. */
static GtkWidget *
picture_new (TwHelpView *self, const TwHelpBlock *block, TwSamples *samples)
{
  g_auto (GStrv) words = g_strsplit (block->picture, "/", 2);
  const TwSample *sample = tw_samples_find (samples, words[0]);
  g_autofree char *shows = NULL;
  const TwAnswer *answer = sample ? tw_samples_answer (samples, sample) : NULL;
  TwView view = view_named (words[1] ? words[1] : "");
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, IN_LIST_PX);
  GtkWidget *caption = text_new (self, block->markup, GTK_ACCESSIBLE_ROLE_LABEL), *picture;

  pango_parse_markup (block->markup, -1, 0, NULL, &shows, NULL, NULL);
  gtk_widget_add_css_class (caption, "caption");
  gtk_widget_add_css_class (caption, "dim-label");
  if (answer != NULL) {
    picture = tw_job_picture_new ();
    gtk_widget_set_size_request (picture, -1, PICTURE_HEIGHT_PX);
    tw_job_picture_show (TW_JOB_PICTURE (picture), answer, view,
                         view == TW_VIEW_FACE ? TW_VIEW_NO_BAY | TW_VIEW_NO_HOSES | TW_VIEW_NO_OPENINGS : 0);
    gtk_accessible_update_property (GTK_ACCESSIBLE (picture), GTK_ACCESSIBLE_PROPERTY_LABEL, shows, -1);
    gtk_box_append (GTK_BOX (box), picture);
  }
  gtk_box_append (GTK_BOX (box), caption);
  return box;
}

static GtkWidget *
block_new (TwHelpView *self, const TwHelpBlock *block, TwSamples *samples)
{
  switch (block->kind) {
  case TW_HELP_HEADING:
    return heading_new (self, block->markup, "title-3", 2);
  case TW_HELP_ITEM:
  case TW_HELP_STEP:
    return item_new (self, block);
  case TW_HELP_CAUTION:
    return caution_new (self, block);
  case TW_HELP_PICTURE:
    return picture_new (self, block, samples);
  case TW_HELP_PARAGRAPH:
  default:
    return text_new (self, block->markup, GTK_ACCESSIBLE_ROLE_LABEL);
  }
}

static gboolean
in_list (const TwHelpBlock *block)
{
  return block->kind == TW_HELP_ITEM || block->kind == TW_HELP_STEP;
}

void
tw_help_view_show (TwHelpView *self, const TwHelpPage *page, TwSamples *samples)
{
  g_autofree char *title = g_markup_escape_text (page->title, -1);
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->blocks))) != NULL)
    gtk_box_remove (self->blocks, child);
  gtk_box_append (self->blocks, heading_new (self, title, "title-1", 1));
  for (guint i = 0; i < page->blocks->len; i++) {
    const TwHelpBlock *block = g_ptr_array_index (page->blocks, i);
    const TwHelpBlock *before = i > 0 ? g_ptr_array_index (page->blocks, i - 1) : NULL;

    child = block_new (self, block, samples);
    gtk_widget_set_margin_top (child, block->kind == TW_HELP_HEADING                          ? 2 * BETWEEN_PX
                                      : before != NULL && in_list (block) && in_list (before) ? IN_LIST_PX
                                                                                              : BETWEEN_PX);
    gtk_box_append (self->blocks, child);
  }
}

static void
tw_help_view_dispose (GObject *object)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL)
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (tw_help_view_parent_class)->dispose (object);
}

static void
tw_help_view_class_init (TwHelpViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tw_help_view_dispose;
  signals[LINK_FOLLOWED] = g_signal_new ("link-followed", TW_TYPE_HELP_VIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                         NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "help-view");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
tw_help_view_init (TwHelpView *self)
{
  self->blocks = GTK_BOX (gtk_box_new (GTK_ORIENTATION_VERTICAL, 0));
  gtk_widget_set_parent (GTK_WIDGET (self->blocks), GTK_WIDGET (self));
}
