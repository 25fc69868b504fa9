/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "layout/passes-private.h"

#include "layout/tank-inside-private.h"

#include <math.h>
#include <string.h>

#define ROUNDING_MM 1e-6

/* From a place to a farther one. */
typedef struct {
  double from_mm, to_mm;
} Span;

/* A chamber and the part of it in which mouths are open. */
typedef struct {
  TwChamber chamber;
  TwBox open;
  gboolean level; /* counted from the top */
} Room;

static Span
span_of_baffle (const TwPlacedBaffle *baffle, const TwPlacedTank *tank)
{
  double a = tw_vec_dot (baffle->from, tank->side.along), b = tw_vec_dot (baffle->to, tank->side.along);

  return baffle->runs_along ? (Span){ baffle->from.z, baffle->to.z } : (Span){ a, b };
}

static int
by_start (gconstpointer a, gconstpointer b)
{
  const Span *x = a, *y = b;

  if (x->from_mm != y->from_mm)
    return x->from_mm < y->from_mm ? -1 : 1;
  return (x->to_mm > y->to_mm) - (x->to_mm < y->to_mm);
}

/* What baffles that run one way leave of @whole. Those that leave room on one side only are strays. */
static GArray *
part (TwPasses *self, const TwPlacement *placement, const TwPlacedTank *tank, gboolean runs_along, Span whole)
{
  g_autoptr (GArray) cuts = g_array_new (FALSE, FALSE, sizeof (Span));
  GArray *left = g_array_new (FALSE, FALSE, sizeof (Span));
  guint n;
  const TwPlacedBaffle *baffles = tw_placement_baffles (placement, &n);

  for (guint i = 0; i < n; i++) {
    Span cut;

    if (!tw_id_equal (baffles[i].tank, tank->id) || baffles[i].runs_along != runs_along)
      continue;
    cut = span_of_baffle (&baffles[i], tank);
    if (cut.from_mm <= whole.from_mm || cut.to_mm >= whole.to_mm)
      tw_passes_concern (self, TW_PASSES_STRAY_BAFFLE, baffles[i].id);
    g_array_append_val (cuts, cut);
  }
  g_array_sort (cuts, by_start);
  for (guint i = 0; i <= cuts->len; i++) {
    Span cut = i < cuts->len ? g_array_index (cuts, Span, i) : (Span){ whole.to_mm, whole.to_mm };
    Span room = { whole.from_mm, MIN (cut.from_mm, whole.to_mm) };

    if (room.to_mm > room.from_mm)
      g_array_append_val (left, room);
    whole.from_mm = MAX (whole.from_mm, cut.to_mm);
  }
  return left;
}

static void
add_rooms (TwPasses *self, const TwPlacement *placement, const TwPlacedTank *tank, GArray *rooms)
{
  const TwTank *typed = (const TwTank *)tw_drawing_find (tw_placement_drawing (placement), tank->id);
  TwBox inside = tw_tank_inside_box (tank);
  TwBox outside = { tank->w_from_mm, tank->start_mm, tank->w_to_mm, tank->end_mm };
  TwBox bare = tw_box_grow (outside, -fmax (typed->lip_mm, tw_tank_inside_wall_mm (tank)));
  g_autoptr (GArray) ups = NULL, acrosses = NULL;
  gboolean level = tank->side.side == TW_SIDE_LEFT || tank->side.side == TW_SIDE_RIGHT;
  gboolean second = tank->side.side == TW_SIDE_RIGHT || tank->side.side == TW_SIDE_BOTTOM;

  if (tw_box_is_empty (inside))
    return;
  ups = part (self, placement, tank, FALSE, (Span){ inside.y0_mm, inside.y1_mm });
  acrosses = part (self, placement, tank, TRUE, (Span){ inside.x0_mm, inside.x1_mm });
  for (guint i = 0; i < ups->len; i++)
    for (guint k = 0; k < acrosses->len; k++) {
      Span up = g_array_index (ups, Span, i), across = g_array_index (acrosses, Span, k);
      TwBox box = { across.from_mm, up.from_mm, across.to_mm, up.to_mm };
      Room room = {
        .chamber = {
          .core = tank->core,
          .tank = tank->id,
          .header = second ? TW_HEADER_SECOND : TW_HEADER_FIRST,
          .from_mm = up.from_mm,
          .to_mm = up.to_mm,
          .across_from_mm = across.from_mm,
          .across_to_mm = across.to_mm,
          .volume_l = tw_tank_inside_volume_l (tank, box),
        },
        .open = { MAX (box.x0_mm, bare.x0_mm), MAX (box.y0_mm, bare.y0_mm), MIN (box.x1_mm, bare.x1_mm),
                  MIN (box.y1_mm, bare.y1_mm) },
        .level = level,
      };

      g_array_append_val (rooms, room);
    }
}

/* By core, side, place as tubes are counted, place across. */
static int
by_place (gconstpointer a, gconstpointer b)
{
  const Room *x = a, *y = b;
  int order = strcmp (x->chamber.core.text, y->chamber.core.text);
  double along = x->level ? y->chamber.to_mm - x->chamber.to_mm : x->chamber.from_mm - y->chamber.from_mm;
  double across = x->chamber.across_from_mm - y->chamber.across_from_mm;

  if (order != 0)
    return order;
  if (x->chamber.header != y->chamber.header)
    return x->chamber.header < y->chamber.header ? -1 : 1;
  if (along != 0.0)
    return along < 0.0 ? -1 : 1;
  if (across != 0.0)
    return across < 0.0 ? -1 : 1;
  return strcmp (x->chamber.tank.text, y->chamber.tank.text);
}

static double
off_span_mm (double at, double from, double to)
{
  return MAX (MAX (from - at, at - to), 0.0);
}

/* The chamber of its tank that the middle of a port lies in or is nearest to. */
static void
find_chamber (const TwPasses *self, const TwPlacedPort *placed, TwChamberPort *port)
{
  double nearest = (double)INFINITY;

  for (guint i = 0; i < self->chambers->len; i++) {
    const TwChamber *chamber = &g_array_index (self->chambers, TwChamber, i);
    double off;

    if (!tw_id_equal (chamber->tank, placed->tank))
      continue;
    off = hypot (off_span_mm (port->along_mm, chamber->from_mm, chamber->to_mm),
                 off_span_mm (port->across_mm, chamber->across_from_mm, chamber->across_to_mm));
    if (off < nearest) {
      nearest = off;
      port->has_chamber = TRUE;
      port->chamber = i;
    }
  }
}

/* Whether the bore of a port reaches over a baffle of its tank. */
static gboolean
is_on_baffle (const TwPlacement *placement, const TwPlacedPort *placed, const TwChamberPort *port)
{
  const TwPlacedTank *tank = tw_placement_tank (placement, placed->tank);
  gboolean in_end = placed->wall == TW_WALL_START || placed->wall == TW_WALL_END;
  gboolean in_side = placed->wall == TW_WALL_AIR_IN || placed->wall == TW_WALL_AIR_OUT;
  double radius = fmax (placed->bore_mm / 2.0, 0.0);
  guint n;
  const TwPlacedBaffle *baffles = tw_placement_baffles (placement, &n);

  for (guint i = 0; i < n; i++) {
    Span span;

    if (!tw_id_equal (baffles[i].tank, placed->tank) || (baffles[i].runs_along ? in_side : in_end))
      continue;
    span = span_of_baffle (&baffles[i], tank);
    if (off_span_mm (baffles[i].runs_along ? port->across_mm : port->along_mm, span.from_mm, span.to_mm)
        < radius - ROUNDING_MM)
      return TRUE;
  }
  return FALSE;
}

static int
by_chamber (gconstpointer a, gconstpointer b)
{
  const TwChamberPort *x = a, *y = b;

  if (x->has_chamber != y->has_chamber)
    return x->has_chamber ? -1 : 1;
  if (x->has_chamber && x->chamber != y->chamber)
    return x->chamber < y->chamber ? -1 : 1;
  return strcmp (x->port.text, y->port.text);
}

static void
collect_ports (TwPasses *self, const TwPlacement *placement)
{
  guint n = tw_drawing_count (tw_placement_drawing (placement), TW_KIND_PORT);

  for (guint i = 0; i < n; i++) {
    const TwPort *typed = TW_DRAWING_PORT (tw_placement_drawing (placement), i);
    const TwPlacedPort *placed = tw_placement_port (placement, typed->head.id);
    TwChamberPort port = { .port = typed->head.id,
                           .use = typed->use < 0 ? TW_PORT_SPARE : typed->use,
                           .along_mm = (double)NAN,
                           .across_mm = (double)NAN };
    const TwPlacedTank *tank = placed == NULL ? NULL : tw_placement_tank (placement, placed->tank);

    if (tank != NULL) {
      port.along_mm = tw_vec_dot (placed->at_core, tank->side.along);
      port.across_mm = placed->at_core.z;
      find_chamber (self, placed, &port);
      if (off_span_mm (port.along_mm, tank->start_mm, tank->end_mm) > ROUNDING_MM
          || off_span_mm (port.across_mm, tank->w_from_mm, tank->w_to_mm) > ROUNDING_MM)
        tw_passes_concern (self, TW_PASSES_PORT_OFF_TANK, port.port);
      if (is_on_baffle (placement, placed, &port))
        tw_passes_concern (self, TW_PASSES_PORT_ON_BAFFLE, port.port);
    }
    g_array_append_val (self->ports, port);
  }
  g_array_sort (self->ports, by_chamber);
  for (guint i = 0; i < self->ports->len; i++) {
    const TwChamberPort *port = &g_array_index (self->ports, TwChamberPort, i);
    TwChamber *chamber = port->has_chamber ? &g_array_index (self->chambers, TwChamber, port->chamber) : NULL;

    if (chamber != NULL && chamber->n_ports++ == 0)
      chamber->first_port = i;
  }
}

void
tw_chambers_collect (TwPasses *self, const TwPlacement *placement)
{
  g_autoptr (GArray) rooms = g_array_new (FALSE, FALSE, sizeof (Room));
  guint n;
  const TwPlacedTank *tanks = tw_placement_tanks (placement, &n);

  for (guint i = 0; i < n; i++)
    add_rooms (self, placement, &tanks[i], rooms);
  g_array_sort (rooms, by_place);
  for (guint i = 0; i < rooms->len; i++) {
    const Room *room = &g_array_index (rooms, Room, i);

    g_array_append_val (self->chambers, room->chamber);
    g_array_append_val (self->open, room->open);
  }
  collect_ports (self, placement);
}
