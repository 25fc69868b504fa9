/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drive.h"

#include <X11/extensions/XTest.h>
#include <gdk/x11/gdkx.h>

#define STILL_FRAMES 6

static Display *
display (void)
{
  return gdk_x11_display_get_xdisplay (gdk_display_get_default ());
}

static gboolean
woken_cb (gpointer data)
{
  return G_SOURCE_CONTINUE;
}

void
drive_step (void)
{
  guint waker = g_timeout_add (4, woken_cb, NULL);

  g_main_context_iteration (NULL, TRUE);
  g_source_remove (waker);
}

static void
painted_cb (GdkFrameClock *clock, gpointer data)
{
  *(gboolean *)data = TRUE;
}

void
drive_frame (GtkWidget *widget)
{
  GdkFrameClock *clock = gtk_widget_get_frame_clock (widget);
  gboolean painted = FALSE;
  gulong handler = g_signal_connect (clock, "after-paint", G_CALLBACK (painted_cb), &painted);

  gtk_widget_queue_draw (widget);
  DRIVE_UNTIL (painted);
  g_signal_handler_disconnect (clock, handler);
}

TwWindow *
drive_window (AdwApplication *application, int width, int height)
{
  TwWindow *window = TW_WINDOW (gtk_application_get_active_window (GTK_APPLICATION (application)));

  gtk_window_set_default_size (GTK_WINDOW (window), width, height);
  DRIVE_UNTIL (gtk_widget_get_mapped (GTK_WIDGET (window)));
  DRIVE_UNTIL (gtk_window_is_active (GTK_WINDOW (window)));
  drive_frame (GTK_WIDGET (window));
  return window;
}

void
drive_pointer_send (GtkWidget *widget, double x, double y)
{
  GtkNative *native = gtk_widget_get_native (widget);
  GdkSurface *surface = gtk_native_get_surface (native);
  int scale = gdk_surface_get_scale_factor (surface), root_x, root_y;
  double inside_x, inside_y, frame_x, frame_y;
  Window child;

  gtk_widget_translate_coordinates (widget, GTK_WIDGET (native), x, y, &inside_x, &inside_y);
  gtk_native_get_surface_transform (native, &frame_x, &frame_y);
  XTranslateCoordinates (display (), gdk_x11_surface_get_xid (surface), DefaultRootWindow (display ()),
                         (int)((inside_x + frame_x) * scale), (int)((inside_y + frame_y) * scale), &root_x,
                         &root_y, &child);
  XTestFakeMotionEvent (display (), -1, root_x, root_y, CurrentTime);
  XFlush (display ());
}

void
drive_pointer_to (GtkWidget *widget, double x, double y)
{
  drive_pointer_send (widget, x, y);
  drive_frame (GTK_WIDGET (gtk_widget_get_native (widget)));
}

void
drive_press (void)
{
  XTestFakeButtonEvent (display (), 1, True, CurrentTime);
  XFlush (display ());
  for (int i = 0; i < 4; i++)
    drive_step ();
}

void
drive_release (void)
{
  XTestFakeButtonEvent (display (), 1, False, CurrentTime);
  XFlush (display ());
  for (int i = 0; i < 4; i++)
    drive_step ();
}

/* Until it has stood at one place for some frames: what is being laid out moves away from under the pointer.
 */
static void
settle (GtkWidget *widget)
{
  graphene_rect_t last = GRAPHENE_RECT_INIT (0, 0, 0, 0), now;
  GtkWidget *root = GTK_WIDGET (gtk_widget_get_root (widget));
  guint still = 0;

  while (still < STILL_FRAMES) {
    drive_frame (root);
    if (!gtk_widget_compute_bounds (widget, root, &now))
      continue;
    still = graphene_rect_equal (&last, &now) && now.size.height > 1.0F ? still + 1 : 0;
    last = now;
  }
}

void
drive_click (GtkWidget *widget)
{
  settle (widget);
  drive_pointer_to (widget, gtk_widget_get_width (widget) / 2.0, gtk_widget_get_height (widget) / 2.0);
  drive_frame (widget);
  /* at once: held for longer than a double click takes, a list no longer counts it as one */
  XTestFakeButtonEvent (display (), 1, True, CurrentTime);
  XTestFakeButtonEvent (display (), 1, False, CurrentTime);
  XFlush (display ());
  for (int i = 0; i < 8; i++)
    drive_step ();
  drive_frame (widget);
}

static void
fake_key (guint keyval, gboolean down)
{
  XTestFakeKeyEvent (display (), XKeysymToKeycode (display (), keyval), down, CurrentTime);
}

void
drive_wheel (int notches, GdkModifierType held)
{
  guint button = notches < 0 ? 4 : 5; /* X: up and down */

  if (held & GDK_CONTROL_MASK)
    fake_key (GDK_KEY_Control_L, TRUE);
  for (int i = 0; i < ABS (notches); i++) {
    XTestFakeButtonEvent (display (), button, True, CurrentTime);
    XTestFakeButtonEvent (display (), button, False, CurrentTime);
  }
  if (held & GDK_CONTROL_MASK)
    fake_key (GDK_KEY_Control_L, FALSE);
  XFlush (display ());
  for (int i = 0; i < 6; i++)
    drive_step ();
}

void
drive_key (guint keyval, GdkModifierType held)
{
  if (held & GDK_CONTROL_MASK)
    fake_key (GDK_KEY_Control_L, TRUE);
  if (held & GDK_SHIFT_MASK)
    fake_key (GDK_KEY_Shift_L, TRUE);
  if (held & GDK_ALT_MASK)
    fake_key (GDK_KEY_Alt_L, TRUE);
  fake_key (keyval, TRUE);
  fake_key (keyval, FALSE);
  if (held & GDK_ALT_MASK)
    fake_key (GDK_KEY_Alt_L, FALSE);
  if (held & GDK_SHIFT_MASK)
    fake_key (GDK_KEY_Shift_L, FALSE);
  if (held & GDK_CONTROL_MASK)
    fake_key (GDK_KEY_Control_L, FALSE);
  XFlush (display ());
  for (int i = 0; i < 6; i++)
    drive_step ();
}

void
drive_type (const char *text)
{
  for (const char *at = text; *at != '\0'; at++)
    drive_key (gdk_unicode_to_keyval ((guint32)*at), 0);
}

/* --- accessibility --------------------------------------------------------------------------------------
 *
 * The toolkit compares and, where they differ, says what is there: compared with what nothing is called. */

static char *
told (GtkWidget *widget, GtkAccessibleProperty property)
{
  return gtk_test_accessible_check_property (GTK_ACCESSIBLE (widget), property, "\x01");
}

char *
drive_name (GtkWidget *widget)
{
  return told (widget, GTK_ACCESSIBLE_PROPERTY_LABEL);
}

char *
drive_description (GtkWidget *widget)
{
  return told (widget, GTK_ACCESSIBLE_PROPERTY_DESCRIPTION);
}

static gboolean
is_named (GtkWidget *widget, const char *name)
{
  g_autofree char *there = NULL;

  if (name == NULL)
    return TRUE;
  if (!gtk_test_accessible_has_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL))
    return FALSE;
  there = drive_name (widget);
  return g_strcmp0 (there, name) == 0;
}

GtkWidget *
drive_find (GtkWidget *root, GType type, const char *name)
{
  if (g_type_is_a (G_OBJECT_TYPE (root), type) && is_named (root, name))
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child)) {
    GtkWidget *found = drive_find (child, type, name);

    if (found != NULL)
      return found;
  }
  return NULL;
}

/* --- pictures ------------------------------------------------------------------------------------------- */

/* What the widget shows, larger by @scale; NULL while it waits to be laid out. */
static GskRenderNode *
node_of (GtkWidget *widget, float scale, graphene_rect_t *bounds)
{
  g_autoptr (GdkPaintable) paintable = gtk_widget_paintable_new (widget);
  int width = gdk_paintable_get_intrinsic_width (paintable);
  int height = gdk_paintable_get_intrinsic_height (paintable);
  GtkSnapshot *snapshot = gtk_snapshot_new ();

  gtk_snapshot_scale (snapshot, scale, scale);
  gdk_paintable_snapshot (paintable, GDK_SNAPSHOT (snapshot), width, height);
  graphene_rect_init (bounds, 0.0F, 0.0F, (float)width * scale, (float)height * scale);
  return gtk_snapshot_free_to_node (snapshot);
}

GdkTexture *
drive_texture (GtkWidget *widget, guint scale)
{
  g_autoptr (GskRenderNode) node = NULL;
  graphene_rect_t bounds;

  drive_frame (widget);
  DRIVE_UNTIL ((node = node_of (widget, (float)scale, &bounds)) != NULL);
  return gsk_renderer_render_texture (gtk_native_get_renderer (gtk_widget_get_native (widget)), node,
                                      &bounds);
}

void
drive_picture (GtkWidget *widget, const char *name)
{
  g_autofree char *file = g_strconcat (name, ".png", NULL);
  g_autofree char *path = g_test_build_filename (G_TEST_BUILT, "window", "pictures", file, NULL);
  g_autofree char *folder = g_path_get_dirname (path);
  g_autoptr (GdkTexture) texture = drive_texture (widget, 1);

  g_assert_cmpint (g_mkdir_with_parents (folder, 0755), ==, 0);
  g_assert_true (gdk_texture_save_to_png (texture, path));
}
