/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * window-private.h - what the window's own files share
 */
#pragma once

#include "app/canvas.h"
#include "app/cards-pane.h"
#include "app/parts-pane.h"
#include "app/part-form.h"
#include "app/window.h"

G_BEGIN_DECLS

struct _TwWindow {
  AdwApplicationWindow parent_instance;

  AdwToastOverlay *toasts;
  AdwWindowTitle *title;
  GtkStack *pages;
  GtkWidget *views;
  GtkWidget *parts_toggle;
  GtkWidget *cards_toggle;
  GtkWidget *undo;
  GtkWidget *redo;
  GtkWidget *save;
  AdwFlap *parts_flap;
  AdwFlap *cards_flap;
  TwPartsPane *parts;
  TwPartForm *form;
  TwCanvas *canvas;
  TwCardsPane *cards;
  GtkLabel *position;
  GtkLabel *snap;
  GtkLabel *zoom;
  GtkLabel *findings;

  TwSession *session;
  GSettings *settings; /* NULL where the schema is not installed */
  gboolean may_close;  /* the question about changes has been answered */
};

/* window-actions.c: all actions, and the one function that says which of them can be used now. */
void tw_window_add_actions (TwWindow *self);
void tw_window_update_actions (TwWindow *self);

/* window-files.c: what `win.open`, `win.save`, `win.save-as` and `win.reopen` do. */
void tw_window_ask_open (TwWindow *self);
/* Shows @job (transfer full), which is in no file yet, in this window when it has none, else in another: an
 * empty job and one change, which can be undone and asks to be saved. */
void tw_window_take_new (TwWindow *self, TwJob *job);
/* Asks for the answers of a first layout and takes what comes of them. */
void tw_window_ask_new_layout (TwWindow *self);
void tw_window_save (TwWindow *self);
void tw_window_save_as (TwWindow *self);
void tw_window_reopen (TwWindow *self);
/* Whether it may close now; else asks, and closes when the answer allows it. */
gboolean tw_window_try_close (TwWindow *self);

/* A short message that goes away by itself. */
void tw_window_say (TwWindow *self, const char *message);

G_END_DECLS
