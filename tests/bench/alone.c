/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "alone.h"

#include "app/canvas.h"
#include "base/source.h"
#include "cards/cards.h"
#include "drive.h"
#include "sheets/to-cairo.h"
#include "times.h"

struct _Alone {
  TwSession *session;
  TwCanvas *canvas;
  TwCatalogue *catalogue;
  TwSources *sources;
  TwLetters *letters;
  TwLook look;
};

Alone *
alone_new (TwWindow *window)
{
  Alone *self = g_new0 (Alone, 1);

  self->session = tw_window_session (window);
  self->canvas = TW_CANVAS (drive_find (GTK_WIDGET (window), TW_TYPE_CANVAS, NULL));
  self->catalogue = tw_catalogue_load (NULL);
  self->sources = tw_sources_load (NULL);
  self->letters = tw_letters_new (TW_LETTERS_SHEET_FONT);
  self->look = tw_look_screen (TW_LOOK_LIGHT, FALSE);
  return self;
}

void
alone_free (Alone *self)
{
  tw_letters_free (self->letters);
  tw_sources_free (self->sources);
  tw_catalogue_free (self->catalogue);
  g_free (self);
}

/* Where the job lies on the canvas. */
static TwCairoLens
lens_of (const Alone *self)
{
  graphene_point_t zero = tw_canvas_place_of (self->canvas, (TwPoint){ 0, 0 });
  graphene_point_t far = tw_canvas_place_of (self->canvas, (TwPoint){ 1000, 0 });

  return (TwCairoLens){ (double)(far.x - zero.x) / 1000, (double)zero.x, (double)zero.y, TRUE };
}

/* As the canvas makes it. (transfer full) */
static TwViewDrawing *
draw (const Alone *self, const TwAnswer *answer)
{
  TwMeasure measure = tw_letters_measure (self->letters);
  const TwViewSource source = { tw_answer_placement (answer), tw_answer_routes (answer),
                                tw_answer_passes (answer), tw_session_geos (self->session) };
  const TwViewManner manner
      = { .view = TW_VIEW_FACE, .scale = lens_of (self).scale, .look = &self->look, .measure = &measure };

  return tw_view_draw (&source, &manner);
}

AloneTimes
alone_measure (Alone *self)
{
  TwUnitStyle style = tw_session_style (self->session);
  double t0 = times_cpu_ms (), t1, t2;
  g_autoptr (TwAnswer) answer = NULL;
  g_autoptr (GPtrArray) cards = NULL;
  g_autoptr (TwViewDrawing) drawing = NULL;

  answer = tw_answer_new (tw_session_job (self->session), self->catalogue, tw_session_geos (self->session));
  t1 = times_cpu_ms ();
  cards = tw_cards_new (answer, self->sources, &style);
  t2 = times_cpu_ms ();
  drawing = draw (self, answer);
  return (AloneTimes){ t1 - t0, t2 - t1, times_cpu_ms () - t2 };
}

double
alone_cairo_ms (Alone *self, guint rounds)
{
  int width = gtk_widget_get_width (GTK_WIDGET (self->canvas));
  int height = gtk_widget_get_height (GTK_WIDGET (self->canvas));
  TwCairoLens lens = lens_of (self);
  g_autoptr (TwViewDrawing) drawing = draw (self, tw_session_answer (self->session));
  g_autofree double *times = g_new (double, rounds);
  cairo_surface_t *strokes
      = cairo_recording_surface_create (CAIRO_CONTENT_COLOR, &(cairo_rectangle_t){ 0, 0, width, height });
  cairo_surface_t *picture = cairo_image_surface_create (CAIRO_FORMAT_RGB24, width, height);
  cairo_t *recorder = cairo_create (strokes), *cr = cairo_create (picture);

  tw_cairo_draw (recorder, drawing->ink, &self->look, self->letters, &lens);
  cairo_set_source_surface (cr, strokes, 0, 0);
  for (guint i = 0; i < rounds; i++) {
    double start = times_cpu_ms ();

    cairo_paint (cr);
    times[i] = times_cpu_ms () - start;
  }
  cairo_destroy (recorder);
  cairo_destroy (cr);
  cairo_surface_destroy (strokes);
  cairo_surface_destroy (picture);
  return times_median (times, rounds);
}
