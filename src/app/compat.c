/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/compat.h"

#include <adwaita.h>

void
tw_compat_accent (GtkWidget *widget, GdkRGBA *colour)
{
  GtkStyleContext *style = gtk_widget_get_style_context (widget);

  if (!gtk_style_context_lookup_color (style, "accent_color", colour))
    *colour = (GdkRGBA){ 0.11F, 0.44F, 0.85F, 1.0F };
}

void
tw_compat_colour (GtkWidget *widget, GdkRGBA *colour)
{
  gtk_style_context_get_color (gtk_widget_get_style_context (widget), colour);
}

gboolean
tw_compat_high_contrast (void)
{
  return adw_style_manager_get_high_contrast (adw_style_manager_get_default ());
}

double
tw_compat_text_scale (void)
{
  int dpi = -1; /* in 1/1024; -1: not said */

  g_object_get (gtk_settings_get_default (), "gtk-xft-dpi", &dpi, NULL);
  return dpi > 0 ? dpi / 1024.0 / 96.0 : 1.0;
}

gboolean
tw_compat_reduced_motion (GtkWidget *widget)
{
  return !adw_get_enable_animations (widget);
}
