/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * drive.h - a real window under real pointer and keys
 *
 * Events go through the X server's test extension and come back as any person's do; nothing sleeps: every
 * wait runs the main loop until what is waited for is there.
 */
#pragma once

#include "app/window.h"

G_BEGIN_DECLS

#define DRIVE_PATIENCE_MS 8000

/* Runs the main loop until @condition holds; fails the test with the condition's text after
 * DRIVE_PATIENCE_MS. */
#define DRIVE_UNTIL(condition)                                                                               \
  G_STMT_START                                                                                               \
  {                                                                                                          \
    gint64 end_us_ = g_get_monotonic_time () + DRIVE_PATIENCE_MS * 1000;                                     \
    while (!(condition) && g_get_monotonic_time () < end_us_)                                                \
      drive_step ();                                                                                         \
    if (!(condition))                                                                                        \
      g_error ("%s:%d: never came true: %s", __FILE__, __LINE__, #condition);                                \
  }                                                                                                          \
  G_STMT_END

/* One turn of the main loop; returns after a few milliseconds though nothing happens. */
void drive_step (void);
/* Lets the window draw at least one more frame. */
void drive_frame (GtkWidget *widget);

/* The window that the program opens by itself, at another size, drawn and active. */
TwWindow *drive_window (AdwApplication *application, int width, int height);

/* To a place of @widget, without waiting for what it does. */
void drive_pointer_send (GtkWidget *widget, double x, double y);
/* The same, and a frame drawn. */
void drive_pointer_to (GtkWidget *widget, double x, double y);
void drive_press (void);
void drive_release (void);
/* In the middle of @widget. */
void drive_click (GtkWidget *widget);
/* Key with modifiers held, as `gdk_keyval_from_name()` calls them. */
void drive_key (guint keyval, GdkModifierType held);
/* Turns the wheel by so many notches, + down, under the pointer. */
void drive_wheel (int notches, GdkModifierType held);
/* Text that needs no Shift. */
void drive_type (const char *text);

/* The first widget under @root of @type whose accessible name is @name (NULL: any). */
GtkWidget *drive_find (GtkWidget *root, GType type, const char *name);
/* What a screen reader is told. (transfer full) */
char *drive_name (GtkWidget *widget);
char *drive_description (GtkWidget *widget);

/* What the widget shows now, @scale times as large. (transfer full) */
GdkTexture *drive_texture (GtkWidget *widget, guint scale);
/* Picture of the window in the build folder: `<name>.png`. */
void drive_picture (GtkWidget *widget, const char *name);

G_END_DECLS
