/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * dimension-notes.c - leaders, notes and balloons
 */
#include "draw/dimension-private.h"

#include <math.h>

#include "draw/place.h"

/* Level end of a leader, and from there to the text; mm on paper. */
#define SHOULDER_MM 2.5
#define TEXT_GAP_MM 1.0

static void
draw_leader (TwInk *ink, const TwDimensionNote *note, TwPoint tip, TwPoint to)
{
  TwInkStyle style = tw_dimension_style (TW_INK_PEN_LEADER, note->part);
  TwInkStyle letters = tw_dimension_text_style (note->part);
  double sign = to.x_mm >= tip.x_mm ? 1 : -1;
  TwPoint end = { to.x_mm - sign * TEXT_GAP_MM, to.y_mm };
  TwPoint knee = { end.x_mm - sign * SHOULDER_MM, to.y_mm };
  const TwInkCorner corners[] = { { .at = tip }, { .at = knee }, { .at = end } };
  TwInkPlace place = { to, TW_INK_SIZE_NOTE, sign > 0 ? TW_INK_LEFT : TW_INK_RIGHT, TW_INK_MIDDLE, FALSE };

  tw_ink_path (ink, &style, corners, G_N_ELEMENTS (corners), FALSE);
  if (note->on_face)
    tw_ink_dot (ink, &style, tip);
  else
    tw_ink_arrow (ink, &style, tip, atan2 (tip.y_mm - knee.y_mm, tip.x_mm - knee.x_mm));
  tw_ink_text (ink, &letters, &place, note->text);
}

void
tw_dimension_leader (TwInk *ink, const TwDimensionManner *manner, const TwDimensionNote *note, TwPoint to)
{
  draw_leader (ink, note, note->at, to);
}

void
tw_dimension_radius (TwInk *ink,
                     const TwDimensionManner *manner,
                     double radius_mm,
                     const TwDimensionNote *note,
                     TwPoint to)
{
  double sign = to.x_mm >= note->at.x_mm ? 1 : -1;
  TwPoint knee = { to.x_mm - sign * (TEXT_GAP_MM + SHOULDER_MM), to.y_mm };
  double angle_rad = atan2 (knee.y_mm - note->at.y_mm, knee.x_mm - note->at.x_mm);
  TwPoint tip = { note->at.x_mm + radius_mm * cos (angle_rad), note->at.y_mm + radius_mm * sin (angle_rad) };

  draw_leader (ink, note, tip, to);
}

double
tw_dimension_note_pitch (const TwDimensionManner *manner)
{
  return 1.9 * tw_dimension_height (manner);
}

static void
draw_notes (TwInk *ink,
            const TwDimensionColumns *columns,
            const TwDimensionNote *notes,
            const TwPlaceLabel *labels,
            guint n)
{
  for (guint i = 0; i < n; i++) {
    TwPoint to = { labels[i].right ? columns->right_mm : columns->left_mm, labels[i].y_mm };

    draw_leader (ink, &notes[i], notes[i].at, to);
  }
}

gboolean
tw_dimension_notes (TwInk *ink,
                    const TwDimensionManner *manner,
                    const TwDimensionColumns *columns,
                    const TwDimensionNote *notes,
                    guint n,
                    double reach_mm[2])
{
  g_autofree TwPlaceLabel *labels = g_new0 (TwPlaceLabel, MAX (n, 1));
  TwBox knees = columns->view;

  /* leaders are straight up to their knees: there they must not cross */
  knees.x0_mm = columns->left_mm + TEXT_GAP_MM + SHOULDER_MM;
  knees.x1_mm = columns->right_mm - TEXT_GAP_MM - SHOULDER_MM;
  for (guint i = 0; i < n; i++)
    labels[i] = (TwPlaceLabel){ .anchor = notes[i].at, .height_mm = tw_dimension_note_pitch (manner) };
  if (!tw_place_columns (labels, n, &knees, columns->low_mm, columns->high_mm))
    return FALSE;
  if (reach_mm != NULL) {
    reach_mm[0] = columns->left_mm;
    reach_mm[1] = columns->right_mm;
    for (guint i = 0; i < n; i++) {
      double length_mm = tw_dimension_length (manner, notes[i].text);

      if (labels[i].right)
        reach_mm[1] = MAX (reach_mm[1], columns->right_mm + length_mm);
      else
        reach_mm[0] = MIN (reach_mm[0], columns->left_mm - length_mm);
    }
  }
  if (ink != NULL)
    draw_notes (ink, columns, notes, labels, n);
  return TRUE;
}

double
tw_dimension_balloon_radius (const TwDimensionManner *manner, const char *text)
{
  double height_mm = tw_dimension_height (manner);

  return hypot (tw_dimension_length (manner, text) / 2, height_mm / 2) + TW_PLACE_PAD_MM + 0.25 * height_mm;
}

void
tw_dimension_balloon (TwInk *ink,
                      const TwDimensionManner *manner,
                      const TwInkStyle *style,
                      TwPoint at,
                      const char *text)
{
  TwInkPlace place = { at, TW_INK_SIZE_NOTE, TW_INK_CENTRE, TW_INK_MIDDLE, FALSE };

  tw_ink_ring (ink, style, at, tw_dimension_balloon_radius (manner, text) / tw_dimension_height (manner));
  tw_ink_text (ink, style, &place, text);
}
