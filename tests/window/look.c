/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "look-private.h"

#include "app/canvas-part.h"
#include "app/canvas.h"
#include "app/card-view.h"
#include "app/cards-pane.h"
#include "app/part-form.h"
#include "app/parts-pane.h"
#include "app/passage.h"
#include "app/start-page.h"
#include "drive.h"

#include <string.h>

static GtkWidget *
shown_from (GtkWidget *widget)
{
  while (widget != NULL && (!gtk_widget_get_mapped (widget) || GTK_IS_POPOVER (widget)))
    widget = gtk_widget_get_next_sibling (widget);
  return widget;
}

GtkWidget *
look_first (GtkWidget *widget)
{
  return shown_from (gtk_widget_get_first_child (widget));
}

GtkWidget *
look_next (GtkWidget *widget)
{
  return shown_from (gtk_widget_get_next_sibling (widget));
}

/* --- words ------------------------------------------------------------------------------------------------
 */

char *
look_text (GtkWidget *widget)
{
  char *text = NULL;

  if (GTK_IS_LABEL (widget))
    return g_strdup (gtk_label_get_text (GTK_LABEL (widget)));
  if (GTK_IS_TEXT (widget))
    return g_strdup (gtk_editable_get_text (GTK_EDITABLE (widget)));
  if (GTK_IS_INSCRIPTION (widget))
    return g_strdup (gtk_inscription_get_text (GTK_INSCRIPTION (widget)));
  if (TW_IS_PASSAGE (widget))
    g_object_get (widget, "text", &text, NULL);
  return text;
}

/* The first text that stands on it. */
static char *
text_on (GtkWidget *widget)
{
  char *text = look_text (widget);

  if (text != NULL && text[0] != '\0')
    return text;
  g_free (text);
  for (GtkWidget *child = look_first (widget); child != NULL; child = look_next (child)) {
    text = text_on (child);
    if (text != NULL)
      return text;
  }
  return NULL;
}

/* What the program itself calls it. */
static char *
said_name (GtkWidget *widget)
{
  char *name = NULL;

  if (gtk_test_accessible_has_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL))
    name = drive_name (widget);
  if (name != NULL && name[0] != '\0')
    return name;
  g_free (name);
  /* an icon's button says that its icon names it */
  if (!GTK_IS_BUTTON (widget)
      && gtk_test_accessible_has_relation (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_RELATION_LABELLED_BY))
    return g_strdup ("(by another)");
  return NULL;
}

/* Inner parts of what has a name as a whole. */
static gboolean
is_named_as_a_whole (GtkWidget *widget)
{
  return GTK_IS_ENTRY (widget) || GTK_IS_MENU_BUTTON (widget) || GTK_IS_DROP_DOWN (widget)
         || GTK_IS_SPIN_BUTTON (widget) || GTK_IS_EXPANDER (widget) || ADW_IS_PREFERENCES_ROW (widget)
         || ADW_IS_SPLIT_BUTTON (widget) || GTK_IS_SEARCH_ENTRY (widget) || GTK_IS_PASSWORD_ENTRY (widget);
}

char *
look_name (GtkWidget *widget)
{
  GtkWidget *parent = gtk_widget_get_parent (widget);
  char *name = said_name (widget);

  if (name == NULL && !GTK_IS_EDITABLE (widget) && !GTK_IS_DROP_DOWN (widget))
    name = text_on (widget);
  while (name == NULL && parent != NULL && !GTK_IS_ROOT (parent)) {
    if (is_named_as_a_whole (parent))
      name = said_name (parent);
    if (name == NULL && ADW_IS_PREFERENCES_ROW (parent))
      name = text_on (parent);
    parent = gtk_widget_get_parent (parent);
  }
  return name;
}

gboolean
look_is_usable (GtkWidget *widget)
{
  if (GTK_IS_BUTTON (widget) || GTK_IS_TEXT (widget) || GTK_IS_SWITCH (widget) || GTK_IS_CHECK_BUTTON (widget)
      || GTK_IS_DROP_DOWN (widget) || GTK_IS_EXPANDER (widget) || GTK_IS_TEXT_VIEW (widget)
      || TW_IS_CANVAS_PART (widget) || TW_IS_CANVAS (widget))
    return TRUE;
  if (GTK_IS_LIST_BOX_ROW (widget))
    return gtk_list_box_row_get_activatable (GTK_LIST_BOX_ROW (widget));
  return gtk_widget_get_focusable (widget) && !GTK_IS_LABEL (widget) && !GTK_IS_ROOT (widget)
         && !GTK_IS_SCROLLED_WINDOW (widget) && !GTK_IS_LIST_BOX_ROW (widget);
}

/* --- places -----------------------------------------------------------------------------------------------
 */

char *
look_where (GtkWidget *widget)
{
  for (GtkWidget *at = widget; at != NULL; at = gtk_widget_get_parent (at)) {
    if (TW_IS_CARD_VIEW (at)) {
      g_autofree char *name = said_name (at);

      return g_strconcat ("card ", name ? name : "?", NULL);
    }
    if (GTK_IS_POPOVER (at))
      return g_strdup ("popover");
    if (ADW_IS_HEADER_BAR (at))
      return g_strdup ("header");
    if (TW_IS_START_PAGE (at))
      return g_strdup ("start");
    if (TW_IS_PARTS_PANE (at))
      return g_strdup ("parts");
    if (TW_IS_PART_FORM (at))
      return g_strdup ("form");
    if (TW_IS_CANVAS (at))
      return g_strdup ("drawing");
    if (gtk_widget_has_css_class (at, "status"))
      return g_strdup ("status");
    if (GTK_IS_WINDOW (at) && !GTK_IS_APPLICATION_WINDOW (at))
      return g_strdup ("dialog");
  }
  return g_strdup ("window");
}

/* What lies beyond its edges is not seen. */
static gboolean
clips (GtkWidget *widget)
{
  return gtk_widget_get_overflow (widget) == GTK_OVERFLOW_HIDDEN || GTK_IS_SCROLLED_WINDOW (widget)
         || GTK_IS_VIEWPORT (widget);
}

gboolean
look_seen (GtkWidget *widget, GtkWidget *root, graphene_rect_t *seen)
{
  if (!gtk_widget_compute_bounds (widget, root, seen))
    return FALSE;
  for (GtkWidget *at = widget; at != NULL; at = gtk_widget_get_parent (at)) {
    graphene_rect_t box;

    if ((clips (at) || at == root) && gtk_widget_compute_bounds (at, root, &box)
        && !graphene_rect_intersection (seen, &box, seen))
      return FALSE;
    if (at == root)
      break;
  }
  return seen->size.width > 0.0F && seen->size.height > 0.0F;
}

void
look_fault (LookWalk *walk, GtkWidget *widget, const char *format, ...)
{
  g_autofree char *where = look_where (widget), *text = look_text (widget), *words = NULL;
  g_autofree char *name = text ? NULL : said_name (widget);
  va_list arguments;

  va_start (arguments, format);
  words = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  g_ptr_array_add (walk->faults, g_strdup_printf ("%s: %s \"%s\" %s", where, G_OBJECT_TYPE_NAME (widget),
                                                  text   ? text
                                                  : name ? name
                                                         : "",
                                                  words));
}

/* --- all of it --------------------------------------------------------------------------------------------
 */

static void
judge (LookWalk *walk, GtkWidget *widget, LookAspects aspects)
{
  if (aspects & LOOK_SIZES)
    look_judge_sizes (walk, widget);
  if (aspects & LOOK_OVERLAP)
    look_judge_overlap (walk, widget);
  if (aspects & LOOK_NAMES)
    look_judge_names (walk, widget);
  if (aspects & LOOK_DRAWING)
    look_judge_drawing (walk, widget);
  for (GtkWidget *child = look_first (widget); child != NULL; child = look_next (child))
    judge (walk, child, aspects);
}

GPtrArray *
look_judge (GtkWidget *root, LookAspects aspects)
{
  LookWalk walk = { root, g_ptr_array_new_with_free_func (g_free) };

  judge (&walk, root, aspects);
  if (aspects & LOOK_CONTRAST)
    look_judge_contrast (&walk);
  return walk.faults;
}

void
look_tell (GPtrArray *faults, const char *when)
{
  for (guint i = 0; i < faults->len; i++)
    g_test_message ("%s: %s", when, (const char *)g_ptr_array_index (faults, i));
  if (faults->len > 0)
    g_test_fail_printf ("%s: %u faults on the screen, the first: %s", when, faults->len,
                        (const char *)g_ptr_array_index (faults, 0));
  g_ptr_array_unref (faults);
}

void
look_fine (GtkWidget *root, const char *when)
{
  look_tell (look_judge (root, LOOK_ALL), when);
}
