/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * window-private.h - what the window's own files share
 */
#pragma once

#include "app/canvas.h"
#include "app/cards-pane.h"
#include "app/keeper.h"
#include "app/parts-pane.h"
#include "app/part-form.h"
#include "app/ruler.h"
#include "app/window.h"

G_BEGIN_DECLS

struct _TwWindow {
  AdwApplicationWindow parent_instance;

  AdwToastOverlay *toasts;
  AdwToast *toast; /* that is shown, or NULL */
  AdwWindowTitle *title;
  GMenu *recent_menu;
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
  TwRuler *ruler_across;
  TwRuler *ruler_up;
  GtkLabel *position;
  GtkLabel *snap;
  GtkLabel *zoom;
  GtkLabel *findings;
  GMenuModel *context_menu;

  TwSession *session;
  TwKeeper *keeper;
  GSettings *settings; /* NULL where the schema is not installed */
  gboolean may_close;  /* the question about changes has been answered */
};

/* window-actions.c: all actions, and the one function that says which of them can be used now. */
void tw_window_add_actions (TwWindow *self);
void tw_window_update_actions (TwWindow *self);

/* window-edit.c: the actions that change the drawing; called by the two above. */
void tw_window_add_edit_actions (TwWindow *self);
void tw_window_update_edit_actions (TwWindow *self);

/* window-look.c: the actions that only look, and the rulers; likewise. */
void tw_window_add_look_actions (TwWindow *self);
void tw_window_update_look_actions (TwWindow *self);

/* window-files.c: what `win.open`, `win.reopen` and new layouts do, and files dropped on the window. */
void tw_window_ask_open (TwWindow *self);
/* Shows @job (transfer full), which is in no file yet, in this window when it has none, else in another: an
 * empty job and one change, which can be undone and asks to be saved. */
void tw_window_take_new (TwWindow *self, TwJob *job);
/* Asks for the answers of a first layout and takes what comes of them. */
void tw_window_ask_new_layout (TwWindow *self);
/* Asks before changes are lost. */
void tw_window_reopen (TwWindow *self);
/* Does not ask. */
void tw_window_read_again (TwWindow *self);
void tw_window_accept_files (TwWindow *self);

/* window-save.c: what `win.save` and `win.save-as` do, and closing. */
void tw_window_save (TwWindow *self);
void tw_window_save_as (TwWindow *self);
/* Says so. */
void tw_window_disk_changed (TwWindow *self);
/* Whether it may close now; else asks, and closes when the answer allows it. */
gboolean tw_window_try_close (TwWindow *self);

/* A message that stays for a while, with a button that does @action when @button is not NULL. */
void tw_window_say_with (TwWindow *self, const char *message, const char *button, const char *action);

G_END_DECLS
