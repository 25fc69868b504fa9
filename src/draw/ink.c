/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "draw/ink.h"

#include <math.h>
#include <string.h>

struct _TwInk {
  gatomicrefcount refs;
  GArray *items;     /* of TwInkItem, which own their corners and text */
  GPtrArray *layers; /* interned names in the order of their first item */
  TwBox bounds;
  gboolean finished;
};

static void
item_clear (gpointer data)
{
  TwInkItem *item = data;

  g_free ((gpointer)item->corners);
  g_free ((gpointer)item->text);
}

TwInk *
tw_ink_new (void)
{
  TwInk *self = g_new0 (TwInk, 1);

  g_atomic_ref_count_init (&self->refs);
  self->items = g_array_new (FALSE, FALSE, sizeof (TwInkItem));
  g_array_set_clear_func (self->items, item_clear);
  self->layers = g_ptr_array_new ();
  self->bounds = TW_BOX_EMPTY;
  return self;
}

TwInk *
tw_ink_finish (TwInk *self)
{
  g_return_val_if_fail (self != NULL, NULL);

  self->finished = TRUE;
  return self;
}

gboolean
tw_ink_is_finished (const TwInk *self)
{
  return self->finished;
}

TwInk *
tw_ink_ref (TwInk *self)
{
  g_atomic_ref_count_inc (&self->refs);
  return self;
}

void
tw_ink_unref (TwInk *self)
{
  if (!g_atomic_ref_count_dec (&self->refs))
    return;
  g_array_unref (self->items);
  g_ptr_array_unref (self->layers);
  g_free (self);
}

/* --- reading ----------------------------------------------------------------------------------------------
 */

guint
tw_ink_count (const TwInk *self)
{
  return self->items->len;
}

const TwInkItem *
tw_ink_get (const TwInk *self, guint nth)
{
  g_return_val_if_fail (nth < self->items->len, NULL);

  return &g_array_index (self->items, TwInkItem, nth);
}

const char *
tw_ink_layer (const TwInk *self, guint nth)
{
  return nth < self->layers->len ? g_ptr_array_index (self->layers, nth) : NULL;
}

guint
tw_ink_ring_end (const TwInkItem *item, guint first)
{
  guint end = first + 1;

  while (end < item->n_corners && !item->corners[end].start)
    end++;
  return end;
}

static TwBox
ring_bounds (const TwInkItem *item, guint first, guint end)
{
  TwBox box = TW_BOX_EMPTY;

  for (guint i = first; i < end; i++) {
    guint next = i + 1 < end ? i + 1 : first;

    box = tw_box_add_point (box, item->corners[i].at);
    if ((i + 1 < end || item->closed) && item->corners[i].bow_mm != 0)
      box = tw_box_add (
          box, tw_edge_bounds (item->corners[i].at, item->corners[next].at, item->corners[i].bow_mm));
  }
  return box;
}

void
tw_ink_item_bounds (const TwInkItem *item, TwBox *box)
{
  *box = TW_BOX_EMPTY;
  if (item->kind == TW_INK_TEXT)
    *box = tw_box_add_point (*box, item->place.at);
  for (guint first = 0, end; first < item->n_corners; first = end) {
    end = tw_ink_ring_end (item, first);
    *box = tw_box_add (*box, ring_bounds (item, first, end));
  }
}

gboolean
tw_ink_bounds (const TwInk *self, TwBox *box)
{
  if (self->items->len == 0)
    return FALSE;
  *box = self->bounds;
  return TRUE;
}

/* --- writing ----------------------------------------------------------------------------------------------
 */

static void
note_layer (TwInk *self, const char *layer)
{
  for (guint i = 0; i < self->layers->len; i++)
    if (g_ptr_array_index (self->layers, i) == layer)
      return;
  g_ptr_array_add (self->layers, (gpointer)layer);
}

/* Takes over @item, whose corners and text are the list's own already. */
static void
add_item (TwInk *self, TwInkItem *item)
{
  TwBox box;

  g_assert (!self->finished);
  for (guint i = 0; i < item->n_corners; i++)
    g_assert (tw_point_is_sane (item->corners[i].at) && isfinite (item->corners[i].bow_mm));
  g_assert (item->kind != TW_INK_TEXT || tw_point_is_sane (item->place.at));
  g_assert (isfinite (item->angle_rad) && isfinite (item->spacing) && item->style.layer != NULL);

  item->style.layer = g_intern_string (item->style.layer);
  note_layer (self, item->style.layer);
  tw_ink_item_bounds (item, &box);
  self->bounds = tw_box_add (self->bounds, box);
  g_array_append_vals (self->items, item, 1);
}

static void
add_path (TwInk *self, TwInkItem *item, const TwInkCorner *corners, guint n)
{
  TwInkCorner *copy = g_memdup2 (corners, n * sizeof (TwInkCorner));

  copy[0].start = TRUE;
  item->corners = copy;
  item->n_corners = n;
  add_item (self, item);
}

void
tw_ink_line (TwInk *self, const TwInkStyle *style, TwPoint from, TwPoint to)
{
  const TwInkCorner corners[] = { { .at = from }, { .at = to } };

  tw_ink_path (self, style, corners, G_N_ELEMENTS (corners), FALSE);
}

void
tw_ink_path (TwInk *self, const TwInkStyle *style, const TwInkCorner *corners, guint n, gboolean closed)
{
  TwInkItem item = { .kind = TW_INK_LINE, .style = *style, .closed = closed };

  g_return_if_fail (n >= 2);

  add_path (self, &item, corners, n);
}

void
tw_ink_box (TwInk *self, const TwInkStyle *style, const TwBox *box)
{
  TwInkCorner corners[4];

  tw_ink_box_corners (box, corners);
  tw_ink_path (self, style, corners, G_N_ELEMENTS (corners), TRUE);
}

void
tw_ink_circle (TwInk *self, const TwInkStyle *style, TwPoint centre, double radius_mm)
{
  TwInkCorner corners[2];

  g_return_if_fail (radius_mm > 0);

  tw_ink_circle_corners (centre, radius_mm, corners);
  tw_ink_path (self, style, corners, G_N_ELEMENTS (corners), TRUE);
}

void
tw_ink_circle_corners (TwPoint centre, double radius_mm, TwInkCorner corners[2])
{
  corners[0] = (TwInkCorner){ { centre.x_mm + radius_mm, centre.y_mm }, radius_mm, TRUE };
  corners[1] = (TwInkCorner){ { centre.x_mm - radius_mm, centre.y_mm }, radius_mm, FALSE };
}

void
tw_ink_box_corners (const TwBox *box, TwInkCorner corners[4])
{
  corners[0] = (TwInkCorner){ { box->x0_mm, box->y0_mm }, 0, TRUE };
  corners[1] = (TwInkCorner){ { box->x1_mm, box->y0_mm }, 0, FALSE };
  corners[2] = (TwInkCorner){ { box->x1_mm, box->y1_mm }, 0, FALSE };
  corners[3] = (TwInkCorner){ { box->x0_mm, box->y1_mm }, 0, FALSE };
}

void
tw_ink_arc (TwInk *self,
            const TwInkStyle *style,
            TwPoint centre,
            double radius_mm,
            const double angles_rad[2])
{
  double sweep_rad = CLAMP (angles_rad[1] - angles_rad[0], -2 * G_PI, 2 * G_PI);
  guint n = fabs (sweep_rad) > G_PI ? 3 : 2; /* an edge's bow is limited: no piece over half a circle */
  TwInkCorner corners[3] = { 0 };

  g_return_if_fail (radius_mm > 0 && sweep_rad != 0);

  for (guint i = 0; i < n; i++) {
    double angle_rad = angles_rad[0] + sweep_rad * i / (n - 1);

    corners[i].at.x_mm = centre.x_mm + radius_mm * cos (angle_rad);
    corners[i].at.y_mm = centre.y_mm + radius_mm * sin (angle_rad);
    corners[i].bow_mm = copysign (radius_mm * (1 - cos (sweep_rad / (n - 1) / 2)), sweep_rad);
  }
  tw_ink_path (self, style, corners, n, FALSE);
}

void
tw_ink_fill (TwInk *self, const TwInkStyle *style, const TwInkCorner *corners, guint n)
{
  TwInkItem item = { .kind = TW_INK_FILL, .style = *style, .closed = TRUE };

  g_return_if_fail (n >= 2);

  add_path (self, &item, corners, n);
}

void
tw_ink_tone (TwInk *self, const TwInkStyle *style, const TwInkCorner *corners, guint n, double share)
{
  TwInkItem item = { .kind = TW_INK_TONE, .style = *style, .closed = TRUE, .spacing = share };

  g_return_if_fail (n >= 2 && share >= 0 && share <= 1);

  add_path (self, &item, corners, n);
}

void
tw_ink_hatch (TwInk *self,
              const TwInkStyle *style,
              const TwInkCorner *corners,
              guint n,
              double angle_rad,
              double spacing)
{
  TwInkItem item
      = { .kind = TW_INK_HATCH, .style = *style, .closed = TRUE, .angle_rad = angle_rad, .spacing = spacing };

  g_return_if_fail (n >= 2 && spacing >= 1);

  add_path (self, &item, corners, n);
}

void
tw_ink_text (TwInk *self, const TwInkStyle *style, const TwInkPlace *place, const char *text)
{
  TwInkItem item = { .kind = TW_INK_TEXT, .style = *style, .place = *place };

  g_return_if_fail (text != NULL && strchr (text, '\n') == NULL && g_utf8_validate (text, -1, NULL));

  if (text[0] == '\0')
    return;
  item.text = g_strdup (text);
  add_item (self, &item);
}

static void
add_mark (TwInk *self, TwInkItem *item, TwPoint at)
{
  const TwInkCorner corner = { .at = at };

  add_path (self, item, &corner, 1);
}

void
tw_ink_arrow (TwInk *self, const TwInkStyle *style, TwPoint at, double angle_rad)
{
  TwInkItem item = { .kind = TW_INK_ARROW, .style = *style, .angle_rad = angle_rad };

  add_mark (self, &item, at);
}

void
tw_ink_dot (TwInk *self, const TwInkStyle *style, TwPoint at)
{
  TwInkItem item = { .kind = TW_INK_DOT, .style = *style };

  add_mark (self, &item, at);
}

void
tw_ink_ring (TwInk *self, const TwInkStyle *style, TwPoint at, double radius)
{
  TwInkItem item = { .kind = TW_INK_RING, .style = *style, .spacing = radius };

  g_return_if_fail (radius > 0);

  add_mark (self, &item, at);
}

static TwPoint
scaled (TwPoint point, double scale, TwPoint shift)
{
  return (TwPoint){ point.x_mm * scale + shift.x_mm, point.y_mm * scale + shift.y_mm };
}

void
tw_ink_append_scaled (TwInk *self, const TwInk *from, double scale, TwPoint shift)
{
  g_return_if_fail (from != self && scale > 0);

  for (guint i = 0; i < from->items->len; i++) {
    TwInkItem item = g_array_index (from->items, TwInkItem, i);
    TwInkCorner *corners = g_memdup2 (item.corners, item.n_corners * sizeof (TwInkCorner));

    for (guint k = 0; k < item.n_corners; k++) {
      corners[k].at = scaled (corners[k].at, scale, shift);
      corners[k].bow_mm *= scale;
    }
    item.corners = corners;
    item.place.at = scaled (item.place.at, scale, shift);
    item.text = g_strdup (item.text);
    add_item (self, &item);
  }
}

void
tw_ink_append_items (TwInk *self, const TwInk *from, guint first, guint n)
{
  g_return_if_fail (from != self && first + n <= from->items->len);

  for (guint i = first; i < first + n; i++) {
    TwInkItem item = g_array_index (from->items, TwInkItem, i);

    item.corners = g_memdup2 (item.corners, item.n_corners * sizeof (TwInkCorner));
    item.text = g_strdup (item.text);
    add_item (self, &item);
  }
}
