/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sheets/paper.h"

#include <math.h>

#include "draw/place.h"

#define IN 25.4

/* Strip outside the frame that holds the zone marks, and how far centring marks reach inside it; mm. */
#define STRIP_MM 5.0
#define CENTRING_MM 10.0

/* Length of a zone, ISO 5457. */
#define ZONE_MM 50.0

/* clang-format off */

/* Trimmed sizes: ISO 5457, ASME Y14.1. Frames: 20 at the filing side and 10 else, 20 all round on A1 and A0; inch
 * margins from memory, none under 10 mm because office printers leave a blind edge. Zones: even number of fields
 * nearest to side / 50 (ISO 5457); none on A4, Letter and Tabloid; inch sheets from memory. */
static const TwPaper papers[TW_N_PAPERS] = {
  [TW_PAPER_A4]      = { "A4", 210, 297, { 20, 10, 200, 287 }, 0, 0, FALSE },
  [TW_PAPER_A3]      = { "A3", 420, 297, { 20, 10, 410, 287 }, 8, 6, FALSE },
  [TW_PAPER_A2]      = { "A2", 594, 420, { 20, 10, 584, 410 }, 12, 8, FALSE },
  [TW_PAPER_A1]      = { "A1", 841, 594, { 20, 20, 821, 574 }, 16, 12, TRUE },
  [TW_PAPER_A0]      = { "A0", 1189, 841, { 20, 20, 1169, 821 }, 24, 16, TRUE },
  [TW_PAPER_LETTER]  = { "Letter", 8.5 * IN, 11 * IN, { 20, 10, 8.5 * IN - 10, 11 * IN - 10 }, 0, 0, FALSE },
  [TW_PAPER_TABLOID] = { "Tabloid", 17 * IN, 11 * IN, { 0.62 * IN, 10, 17 * IN - 0.62 * IN, 11 * IN - 10 }, 0, 0, FALSE },
  [TW_PAPER_C]       = { "C", 22 * IN, 17 * IN, { 0.75 * IN, 0.5 * IN, 21.25 * IN, 16.5 * IN }, 4, 4, FALSE },
  [TW_PAPER_D]       = { "D", 34 * IN, 22 * IN, { 0.5 * IN, 1 * IN, 33.5 * IN, 21 * IN }, 8, 4, TRUE },
  [TW_PAPER_E]       = { "E", 44 * IN, 34 * IN, { 1 * IN, 0.5 * IN, 43 * IN, 33.5 * IN }, 8, 8, TRUE },
};
/* clang-format on */

const TwPaper *
tw_paper (TwPaperSize size)
{
  g_return_val_if_fail (size < TW_N_PAPERS, NULL);

  return &papers[size];
}

TwPaperSize
tw_paper_next (TwPaperSize size)
{
  return size == TW_PAPER_A0 || size == TW_PAPER_E ? size : size + 1;
}

gboolean
tw_paper_find (const char *name, TwPaperSize *size)
{
  for (guint i = 0; i < TW_N_PAPERS; i++)
    if (g_ascii_strcasecmp (papers[i].name, name) == 0) {
      *size = i;
      return TRUE;
    }
  return FALSE;
}

/* --- frame, zones and marks -------------------------------------------------------------------------------
 */

static const TwInkStyle thin = { TW_INK_PEN_THIN, TW_INK_TINT_INK, TW_PLACE_FRAME_LAYER, { "" } };
static const TwInkStyle wide = { TW_INK_PEN_FRAME, TW_INK_TINT_INK, TW_PLACE_FRAME_LAYER, { "" } };

static void
draw_level (TwInk *ink, const TwInkStyle *style, double x0_mm, double x1_mm, double y_mm)
{
  tw_ink_line (ink, style, (TwPoint){ x0_mm, y_mm }, (TwPoint){ x1_mm, y_mm });
}

static void
draw_upright (TwInk *ink, const TwInkStyle *style, double x_mm, double y0_mm, double y1_mm)
{
  tw_ink_line (ink, style, (TwPoint){ x_mm, y0_mm }, (TwPoint){ x_mm, y1_mm });
}

static void
draw_zone_name (TwInk *ink, double x_mm, double y_mm, const char *name)
{
  TwInkPlace place = { { x_mm, y_mm }, TW_INK_SIZE_FIELD, TW_INK_CENTRE, TW_INK_MIDDLE, FALSE };

  tw_ink_text (ink, &thin, &place, name);
}

/* The end of field @nth of @n along a side that is @side_mm long: fields of 50 outwards from the middle on
 * sheets of ISO 5457, equal ones on inch sheets; the outer ones end at the frame. */
static double
zone_end (const TwPaper *paper, double side_mm, guint nth, guint n, const double frame_mm[2])
{
  gboolean metric = paper->name[0] == 'A';
  double zone_mm = metric ? ZONE_MM : side_mm / n;

  if (nth == 0)
    return frame_mm[0];
  if (nth == n)
    return frame_mm[1];
  return side_mm / 2 + (nth - n / 2.0) * zone_mm;
}

/* Letters down the side without I and O (ISO 5457). */
static char *
zone_letter (guint nth)
{
  static const char letters[] = "ABCDEFGHJKLMNPQRSTUVWXYZ";

  g_assert (nth < sizeof letters - 1);
  return g_strndup (letters + nth, 1);
}

static void
draw_zones (TwInk *ink, const TwPaper *paper)
{
  const TwBox *f = &paper->frame;
  const double across_mm[] = { f->x0_mm, f->x1_mm }, up_mm[] = { f->y0_mm, f->y1_mm };
  TwBox outer = tw_box_grow (*f, STRIP_MM);

  tw_ink_box (ink, &thin, &outer);
  for (guint i = 0; i < paper->zones_across; i++) {
    double from_mm = zone_end (paper, paper->width_mm, i, paper->zones_across, across_mm);
    double to_mm = zone_end (paper, paper->width_mm, i + 1, paper->zones_across, across_mm);
    g_autofree char *name = g_strdup_printf ("%u", i + 1);

    if (i > 0 && i != paper->zones_across / 2) {
      draw_upright (ink, &thin, from_mm, outer.y0_mm, f->y0_mm);
      draw_upright (ink, &thin, from_mm, f->y1_mm, outer.y1_mm);
    }
    draw_zone_name (ink, (from_mm + to_mm) / 2, (f->y1_mm + outer.y1_mm) / 2, name);
    draw_zone_name (ink, (from_mm + to_mm) / 2, (f->y0_mm + outer.y0_mm) / 2, name);
  }
  for (guint i = 0; i < paper->zones_up; i++) {
    double from_mm = zone_end (paper, paper->height_mm, i, paper->zones_up, up_mm);
    double to_mm = zone_end (paper, paper->height_mm, i + 1, paper->zones_up, up_mm);
    g_autofree char *name = zone_letter (paper->zones_up - 1 - i); /* A at the top */

    if (i > 0 && i != paper->zones_up / 2) {
      draw_level (ink, &thin, outer.x0_mm, f->x0_mm, from_mm);
      draw_level (ink, &thin, f->x1_mm, outer.x1_mm, from_mm);
    }
    draw_zone_name (ink, (f->x0_mm + outer.x0_mm) / 2, (from_mm + to_mm) / 2, name);
    draw_zone_name (ink, (f->x1_mm + outer.x1_mm) / 2, (from_mm + to_mm) / 2, name);
  }
}

/* From the outside of the strip to a little inside the frame, in the middle of the trimmed sheet. */
static void
draw_centring (TwInk *ink, const TwPaper *paper)
{
  const TwBox *f = &paper->frame;
  double x_mm = paper->width_mm / 2, y_mm = paper->height_mm / 2;
  double in_mm = paper->zones_across > 0 ? CENTRING_MM : CENTRING_MM / 2;

  draw_level (ink, &wide, f->x0_mm - STRIP_MM, f->x0_mm + in_mm, y_mm);
  draw_level (ink, &wide, f->x1_mm - in_mm, f->x1_mm + STRIP_MM, y_mm);
  draw_upright (ink, &wide, x_mm, f->y1_mm - in_mm, f->y1_mm + STRIP_MM);
  draw_upright (ink, &wide, x_mm, f->y0_mm - STRIP_MM, f->y0_mm);
}

void
tw_paper_draw_frame (TwInk *ink, TwPaperSize size)
{
  const TwPaper *paper = tw_paper (size);

  tw_ink_box (ink, &wide, &paper->frame);
  if (paper->zones_across > 0)
    draw_zones (ink, paper);
  draw_centring (ink, paper);
}
