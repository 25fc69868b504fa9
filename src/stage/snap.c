/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "stage/snap-private.h"

#define ROUND_MM 10.0
#define ROUND_INCH_MM 12.7
#define SAME_MM 1e-6 /* two places nearer than this are one */

double
tw_snap_value_mm (const TwSnapSearch *self)
{
  return self->target->value_mm + self->target->factor * self->amount_mm;
}

gboolean
tw_snap_moves (const TwSnapSearch *self, TwId part)
{
  return tw_id_equal (part, self->grip->part)
         || (self->bench->moving != NULL
             && g_hash_table_contains ((GHashTable *)self->bench->moving, part.text));
}

static void
add (TwSnapSearch *self, TwSnapKind kind, double amount_mm, TwId other, const TwVec *place)
{
  TwSnap snap = { .kind = kind, .freedom = self->nth, .amount_mm = amount_mm, .other = other };

  snap.has_place = place != NULL;
  if (place != NULL)
    snap.place = *place;
  g_array_append_val (self->list, snap);
}

void
tw_snap_add_amount (TwSnapSearch *self, TwSnapKind kind, double amount_mm, TwId other, TwVec place)
{
  add (self, kind, amount_mm, other, &place);
}

void
tw_snap_add_value (TwSnapSearch *self, TwSnapKind kind, double value_mm, TwId other)
{
  add (self, kind, (value_mm - self->target->value_mm) / self->target->factor, other, NULL);
}

void
tw_snap_add_value_at (TwSnapSearch *self, TwSnapKind kind, double value_mm, TwId other, TwVec place)
{
  add (self, kind, (value_mm - self->target->value_mm) / self->target->factor, other, &place);
}

static void
add_round (TwSnapSearch *self)
{
  double step_mm = self->bench->inches ? ROUND_INCH_MM : ROUND_MM;
  double factor = fabs (self->target->factor);

  if (fabs (factor - 1.0) > 1e-9 && fabs (factor - 2.0) > 1e-9)
    return;
  tw_snap_add_value (self, TW_SNAP_ROUND, round (tw_snap_value_mm (self) / step_mm) * step_mm, TW_ID_NONE);
}

/* Baffles, ports and what stands on the face have places of their trade; a round figure among them would only
 * be in the way. */
static gboolean
wants_round (const TwSnapSearch *self)
{
  const TwPlacement *placement = self->bench->placement;
  TwId part = self->grip->part;

  if (self->grip->kind != TW_GRIP_BODY)
    return TRUE;
  return tw_placement_baffle (placement, part) == NULL && tw_placement_port (placement, part) == NULL
         && tw_placement_fan (placement, part) == NULL && tw_placement_shroud (placement, part) == NULL;
}

GArray *
tw_snap_list (const TwSnapBench *bench, const TwSnapAsk *ask)
{
  TwSnapSearch search = {
    .bench = bench,
    .grip = ask->grip,
    .freedom = &ask->freedoms->list[ask->freedom],
    .target = tw_freedoms_target (ask->freedoms, ask->freedom, 0),
    .amounts_mm = ask->amounts_mm,
    .nth = ask->freedom,
    .amount_mm = ask->amounts_mm[ask->freedom],
    .list = g_array_new (FALSE, FALSE, sizeof (TwSnap)),
  };

  tw_snap_tubes (&search);
  tw_snap_tanks (&search);
  tw_snap_faces (&search);
  tw_snap_bays (&search);
  if (wants_round (&search))
    add_round (&search);
  return search.list;
}

/* Whether @a is to be taken before @b: a round figure last, then the nearer one, then the more telling one.
 */
static gboolean
is_better (const TwSnap *a, double a_off_mm, const TwSnap *b, double b_off_mm)
{
  if ((a->kind == TW_SNAP_ROUND) != (b->kind == TW_SNAP_ROUND))
    return b->kind == TW_SNAP_ROUND;
  if (fabs (a_off_mm - b_off_mm) > SAME_MM)
    return a_off_mm < b_off_mm;
  return a->kind < b->kind;
}

gboolean
tw_snap_find (const TwSnapBench *bench, const TwSnapAsk *ask, double reach_mm, TwSnap *snap)
{
  g_autoptr (GArray) list = tw_snap_list (bench, ask);
  double best_mm = 0.0;
  gboolean found = FALSE;

  for (guint i = 0; i < list->len; i++) {
    const TwSnap *candidate = &g_array_index (list, TwSnap, i);
    double off_mm = fabs (candidate->amount_mm - ask->amounts_mm[ask->freedom]);

    if (off_mm <= reach_mm && (!found || is_better (candidate, off_mm, snap, best_mm))) {
      *snap = *candidate;
      best_mm = off_mm;
      found = TRUE;
    }
  }
  return found;
}

const char *
tw_snap_words (TwSnapKind kind)
{
  static const char *const words[TW_N_SNAPS] = {
    [TW_SNAP_NONE] = "",
    /* Translators: where a baffle sits; %u and the next number are tubes, counted from 1 */
    [TW_SNAP_GAP] = N_ ("between tubes %u and %u"),
    [TW_SNAP_CHAMBER_MIDDLE] = N_ ("middle of its chamber"),
    [TW_SNAP_TANK_MIDDLE] = N_ ("middle of the tank"),
    /* Translators: %s is the name of a port */
    [TW_SNAP_SPACING] = N_ ("equally spaced with %s"),
    [TW_SNAP_FACE_MIDDLE] = N_ ("middle of the face"),
    [TW_SNAP_SHARE_MIDDLE] = N_ ("middle of its share of the mouth"),
    [TW_SNAP_HEADER_END] = N_ ("header plate's end"),
    /* Translators: an end of a tank in the gap that parts it from another tank; %s is its name */
    [TW_SNAP_SPLIT] = N_ ("beside %s, between two tubes"),
    [TW_SNAP_LEVEL_WITH] = N_ ("in line with %s"),
    [TW_SNAP_AS_HIGH] = N_ ("as high as %s"),
    /* Translators: %s is the name of a port or hose */
    [TW_SNAP_IN_LINE] = N_ ("square with %s"),
    [TW_SNAP_TOUCHES] = N_ ("touching %s"),
    /* Translators: as far as the smallest clearance asks; %s is the name of what it is away from */
    [TW_SNAP_CLEARANCE] = N_ ("just clear of %s"),
    [TW_SNAP_EDGE] = N_ ("on an edge of %s"),
    [TW_SNAP_SAME_SIZE] = N_ ("as large as %s"),
    [TW_SNAP_ROUND] = N_ ("a round figure"),
  };

  return words[kind];
}

gboolean
tw_snap_names (TwSnapKind kind)
{
  switch (kind) {
  case TW_SNAP_SPACING:
  case TW_SNAP_SPLIT:
  case TW_SNAP_LEVEL_WITH:
  case TW_SNAP_AS_HIGH:
  case TW_SNAP_IN_LINE:
  case TW_SNAP_TOUCHES:
  case TW_SNAP_CLEARANCE:
  case TW_SNAP_EDGE:
  case TW_SNAP_SAME_SIZE:
    return TRUE;
  default:
    return FALSE;
  }
}
