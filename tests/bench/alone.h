/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * alone.h - what a frame of the window is made of, each by itself
 */
#pragma once

#include "app/window.h"

G_BEGIN_DECLS

/* Processor time, ms, for the job as it is. */
typedef struct {
  double answer_ms;
  double cards_ms;
  double drawing_ms; /* of the Face view, as ink */
} AloneTimes;

typedef struct _Alone Alone;

/* @window has a job and is shown. (transfer full) */
Alone *alone_new (TwWindow *window);
void alone_free (Alone *self);

AloneTimes alone_measure (Alone *self);

/* The strokes of the Face view, recorded once and played back by cairo on a picture as large as the canvas:
 * median of @rounds, ms. */
double alone_cairo_ms (Alone *self, guint rounds);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Alone, alone_free)

G_END_DECLS
