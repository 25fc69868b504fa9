/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "look-private.h"

#include "app/canvas.h"
#include "app/card-row.h"
#include "app/part-form.h"
#include "app/parts-pane.h"
#include "app/passage.h"

#include <adwaita.h>
#include <string.h>

#define SLACK_PX 1.01F /* edges are rounded to whole pixels */

/* --- texts ------------------------------------------------------------------------------------------------
 */

/* Names and notes that a person gave may be too long for any room, and the line of status in a narrow window.
 */
static gboolean
may_be_shortened (GtkWidget *widget)
{
  for (GtkWidget *at = widget; at != NULL; at = gtk_widget_get_parent (at))
    if (TW_IS_PARTS_PANE (at) || ADW_IS_WINDOW_TITLE (at) || TW_IS_CARD_ROW_WIDGET (at)
        || (TW_IS_PART_FORM (at) && gtk_widget_has_css_class (widget, "heading"))
        || gtk_widget_has_css_class (at, "status") || gtk_widget_has_css_class (at, "recent")
        || gtk_widget_has_css_class (at, "sample-tiles"))
      return TRUE;
  return FALSE;
}

static gboolean
tip_says (GtkWidget *widget, const char *text)
{
  for (GtkWidget *at = widget; at != NULL && !GTK_IS_ROOT (at); at = gtk_widget_get_parent (at)) {
    const char *tip = gtk_widget_get_tooltip_text (at);

    if (tip != NULL && strstr (tip, g_str_has_prefix (text, "• ") ? text + strlen ("• ") : text) != NULL)
      return TRUE;
  }
  return FALSE;
}

static void
judge_layout (LookWalk *walk, GtkWidget *widget, PangoLayout *layout, const char *text)
{
  int width, height;

  if (pango_layout_is_ellipsized (layout)) {
    if (!may_be_shortened (widget))
      look_fault (walk, widget, "is shortened");
    else if (!tip_says (widget, text))
      look_fault (walk, widget, "is shortened and no tip says the whole");
    return;
  }
  pango_layout_get_pixel_size (layout, &width, &height);
  if (width > gtk_widget_get_width (widget) + 1)
    look_fault (walk, widget, "is %d px wide in %d", width, gtk_widget_get_width (widget));
  if (height > gtk_widget_get_height (widget) + 1)
    look_fault (walk, widget, "is %d px high in %d", height, gtk_widget_get_height (widget));
}

static void
judge_text (LookWalk *walk, GtkWidget *widget)
{
  g_autofree char *text = look_text (widget);
  g_autoptr (PangoLayout) layout = NULL;

  if (text == NULL || text[0] == '\0' || gtk_widget_has_focus (widget))
    return;
  if (GTK_IS_TEXT (widget) || GTK_IS_TEXT (gtk_widget_get_parent (widget))
      || gtk_widget_get_ancestor (widget, GTK_TYPE_DROP_DOWN) != NULL)
    return; /* may run on in its entry, and opens whole in its list */
  if (GTK_IS_LABEL (widget))
    layout = g_object_ref (gtk_label_get_layout (GTK_LABEL (widget)));
  else if (TW_IS_PASSAGE (widget))
    layout = g_object_ref (tw_passage_layout (TW_PASSAGE (widget)));
  else
    layout = gtk_widget_create_pango_layout (widget, text);
  judge_layout (walk, widget, layout, text);
}

/* --- boxes ------------------------------------------------------------------------------------------------
 */

/* Holds what is larger than itself, or moves it in and out. */
static gboolean
may_cut (GtkWidget *widget)
{
  static const char *const names[] = { "GtkViewport",  "TwCanvas", "GtkRevealer", "GtkRange",  "GtkScale",
                                       "GtkScrollbar", "GtkGizmo", "GtkText",     "GtkSwitch", "GtkPicture" };

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    if (g_str_equal (G_OBJECT_TYPE_NAME (widget), names[i]))
      return TRUE;
  return GTK_IS_SCROLLABLE (widget);
}

/* Tells when it reaches beyond the edges of @holder. */
static void
judge_edges (LookWalk *walk, GtkWidget *widget, GtkWidget *holder)
{
  graphene_rect_t box;
  float width = (float)gtk_widget_get_width (holder), height = (float)gtk_widget_get_height (holder);

  if (!gtk_widget_compute_bounds (widget, holder, &box))
    return;
  if (box.origin.x < -SLACK_PX || box.origin.x + box.size.width > width + SLACK_PX)
    look_fault (walk, widget, "is cut off: from %.0f to %.0f across in a %s of %.0f", (double)box.origin.x,
                (double)(box.origin.x + box.size.width), G_OBJECT_TYPE_NAME (holder), (double)width);
  if (box.origin.y < -SLACK_PX || box.origin.y + box.size.height > height + SLACK_PX)
    look_fault (walk, widget, "is cut off: from %.0f to %.0f down in a %s of %.0f", (double)box.origin.y,
                (double)(box.origin.y + box.size.height), G_OBJECT_TYPE_NAME (holder), (double)height);
}

/* Against what cuts it off first; what is scrolled may be larger. */
static void
judge_box (LookWalk *walk, GtkWidget *widget)
{
  if (widget == walk->root)
    return;
  for (GtkWidget *at = gtk_widget_get_parent (widget); at != NULL; at = gtk_widget_get_parent (at)) {
    if (may_cut (at))
      return;
    if (at != walk->root && gtk_widget_get_overflow (at) != GTK_OVERFLOW_HIDDEN)
      continue;
    judge_edges (walk, widget, at);
    return;
  }
}

static void
judge_need (LookWalk *walk, GtkWidget *widget)
{
  int least, width = gtk_widget_get_width (widget);

  if (TW_IS_CANVAS (gtk_widget_get_parent (widget)) || GTK_IS_ROOT (widget) || width <= 0)
    return;
  gtk_widget_measure (widget, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  /* what is measured holds margins, borders and padding as well */
  if (least > gtk_widget_get_allocated_width (widget) + gtk_widget_get_margin_start (widget)
                  + gtk_widget_get_margin_end (widget) + 1)
    look_fault (walk, widget, "is %d px wide and needs %d", gtk_widget_get_allocated_width (widget), least);
}

void
look_judge_sizes (LookWalk *walk, GtkWidget *widget)
{
  judge_text (walk, widget);
  judge_box (walk, widget);
  if (gtk_widget_get_parent (widget) != NULL)
    judge_need (walk, widget);
}

/* --- one on the other --------------------------------------------------------------------------------------
 */

/* Lays children over each other on purpose. */
static gboolean
may_stack (GtkWidget *widget)
{
  static const char *const names[]
      = { "GtkOverlay",  "GtkStack",          "AdwFlap",    "AdwToastOverlay",
          "TwCanvas",    "GtkFixed",          "GtkPaned",   "GtkRange",
          "GtkScale",    "GtkScrollbar",      "GtkGizmo",   "GtkText",
          "GtkTextView", "GtkScrolledWindow", "GtkSwitch",  "AdwApplicationWindow",
          "AdwLeaflet",  "AdwSqueezer",       "AdwEntryRow" };

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    if (g_str_equal (G_OBJECT_TYPE_NAME (widget), names[i]))
      return TRUE;
  return GTK_IS_WINDOW (widget);
}

void
look_judge_overlap (LookWalk *walk, GtkWidget *widget)
{
  if (may_stack (widget))
    return;
  for (GtkWidget *a = look_first (widget); a != NULL; a = look_next (a))
    for (GtkWidget *b = look_next (a); b != NULL; b = look_next (b)) {
      graphene_rect_t box_a, box_b, both;

      if (gtk_widget_compute_bounds (a, widget, &box_a) && gtk_widget_compute_bounds (b, widget, &box_b)
          && graphene_rect_intersection (&box_a, &box_b, &both) && both.size.width > SLACK_PX
          && both.size.height > SLACK_PX)
        look_fault (walk, a, "lies on a %s by %.0f by %.0f px", G_OBJECT_TYPE_NAME (b),
                    (double)both.size.width, (double)both.size.height);
    }
}

/* --- names ------------------------------------------------------------------------------------------------
 */

static gboolean
has_text (GtkWidget *widget)
{
  g_autofree char *text = look_text (widget);

  if (text != NULL && text[0] != '\0')
    return TRUE;
  for (GtkWidget *child = look_first (widget); child != NULL; child = look_next (child))
    if (has_text (child))
      return TRUE;
  return FALSE;
}

static gboolean
has_tip (GtkWidget *widget)
{
  GtkWidget *parent = gtk_widget_get_parent (widget);

  return gtk_widget_get_tooltip_text (widget) != NULL
         || (GTK_IS_MENU_BUTTON (parent) && gtk_widget_get_tooltip_text (parent) != NULL);
}

/* Parts of the platform's own frame and lists, which it names or which need none. */
static gboolean
is_the_platforms (GtkWidget *widget)
{
  for (GtkWidget *at = widget; at != NULL; at = gtk_widget_get_parent (at))
    if (g_str_equal (G_OBJECT_TYPE_NAME (at), "AdwToastWidget"))
      return TRUE; /* its button to close it has no name in libadwaita 1.2 */
  return gtk_widget_get_ancestor (widget, GTK_TYPE_WINDOW_CONTROLS) != NULL
         || GTK_IS_DROP_DOWN (gtk_widget_get_parent (widget)) || GTK_IS_WINDOW_HANDLE (widget);
}

void
look_judge_names (LookWalk *walk, GtkWidget *widget)
{
  g_autofree char *name = NULL;

  if (!look_is_usable (widget) || is_the_platforms (widget))
    return;
  name = look_name (widget);
  if (name == NULL)
    look_fault (walk, widget, "has no name");
  if (GTK_IS_BUTTON (widget) && !has_text (widget) && !has_tip (widget))
    look_fault (walk, widget, "(%s) has an icon and no tip", name ? name : "unnamed");
}
