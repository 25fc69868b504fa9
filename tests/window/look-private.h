/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * look-private.h - what the files of look share
 */
#pragma once

#include "look.h"

G_BEGIN_DECLS

/* A walk over one root. */
typedef struct {
  GtkWidget *root;
  GPtrArray *faults; /* of char *, owned by the caller */
} LookWalk;

/* The first widget below @widget that is shown, and the next one beside it; NULL past the last. Popovers are
 * left out. */
GtkWidget *look_first (GtkWidget *widget);
GtkWidget *look_next (GtkWidget *widget);

/* The text that a widget writes itself, or NULL: labels, passages, entries (their inner text). (transfer
 * full) */
char *look_text (GtkWidget *widget);

/* What a screen reader calls it, or what stands on it; NULL: nothing. (transfer full) */
char *look_name (GtkWidget *widget);

/* Whether a person can press it, type into it or reach it by Tab. */
gboolean look_is_usable (GtkWidget *widget);

/* Part of the window that it stands in, as in look_describe(). (transfer full) */
char *look_where (GtkWidget *widget);

/* What of its box can be seen: cut by all that clips it. FALSE when nothing is left. */
gboolean look_seen (GtkWidget *widget, GtkWidget *root, graphene_rect_t *seen);

/* Takes note of a fault at @widget, `where TypeName "text": words`. */
void look_fault (LookWalk *walk, GtkWidget *widget, const char *format, ...) G_GNUC_PRINTF (3, 4);

/* One judge each; each walks by itself. */
void look_judge_sizes (LookWalk *walk, GtkWidget *widget);
void look_judge_overlap (LookWalk *walk, GtkWidget *widget);
void look_judge_names (LookWalk *walk, GtkWidget *widget);
void look_judge_contrast (LookWalk *walk);
void look_judge_drawing (LookWalk *walk, GtkWidget *widget);

G_END_DECLS
