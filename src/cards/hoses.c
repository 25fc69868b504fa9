/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cards/maker-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define LENGTH TW_QUANTITY_LENGTH
#define SOURCE "DEF-HOSE-LENGTH"

static double
in_deg (double angle_rad)
{
  return angle_rad * 180.0 / G_PI;
}

/* Half a turn is the same either way round. */
static double
shown_turn_deg (const TwRoutePiece *piece)
{
  double turn_deg = in_deg (piece->turn_rad);

  return turn_deg < -179.95 ? -turn_deg : turn_deg;
}

static TwCardRow *
figure_row (TwCardMaker *maker, const char *id, TwId hose, const char *label, double value_mm)
{
  TwCardRow *row = tw_maker_row (maker, id, hose, label, tw_maker_text (maker, LENGTH, value_mm));

  row->indent = 1;
  tw_row_figure (row, "length_mm", LENGTH, value_mm, SOURCE);
  return row;
}

static void
add_bend (TwCardMaker *maker, TwId hose, const TwRoutePiece *piece)
{
  g_autofree char *id = g_strdup_printf ("bend-%u", piece->bend);
  g_autofree char *label = g_strdup_printf (_ ("Bend %u"), piece->bend);
  g_autofree char *angle = tw_maker_text (maker, TW_QUANTITY_ANGLE, in_deg (piece->angle_rad));
  g_autofree char *radius = tw_maker_text (maker, LENGTH, piece->radius_mm);
  g_autofree char *turn = tw_maker_text (maker, TW_QUANTITY_ANGLE, shown_turn_deg (piece));
  TwCardRow *row = tw_maker_row (maker, id, hose, label, g_strdup_printf (_ ("%s at R %s"), angle, radius));

  row->indent = 2;
  if (!isnan (piece->over_least_mm)) {
    g_autofree char *least = tw_maker_text (maker, LENGTH, piece->radius_mm - piece->over_least_mm);

    row->detail = g_strdup_printf (_ ("smallest allowed R %s"), least);
  } else if (piece->bend > 1) {
    row->detail = g_strdup_printf (_ ("turned %s against the one before"), turn);
  }
  tw_row_figure (row, "angle_deg", TW_QUANTITY_ANGLE, in_deg (piece->angle_rad), SOURCE);
  tw_row_figure (row, "radius_mm", LENGTH, piece->radius_mm, SOURCE);
  tw_row_figure (row, "turn_deg", TW_QUANTITY_ANGLE, in_deg (piece->turn_rad), SOURCE);
  tw_row_figure (row, "over_least_mm", LENGTH, piece->over_least_mm, SOURCE);
}

static void
add_turns (TwCardMaker *maker, const TwRoute *route)
{
  for (guint i = 0; i < route->n_turns; i++) {
    const TwRouteTurn *turn = &route->turns[i];
    g_autofree char *id = g_strdup_printf (turn->is_high ? "high-%u" : "low-%u", i + 1);
    g_autofree char *rise = tw_maker_text (maker, LENGTH, turn->rise_mm);
    TwCardRow *row
        = figure_row (maker, id, route->hose,
                      turn->is_high ? _ ("High point, height") : _ ("Low point, height"), turn->at.y);

    row->detail = g_strdup_printf (turn->is_high ? _ ("%s over its neighbours: air stays")
                                                 : _ ("%s under its neighbours: water stays"),
                                   rise);
    tw_row_figure (row, "rise_mm", LENGTH, turn->rise_mm, SOURCE);
  }
}

static TwCardWhere *
where_centreline (TwCardMaker *maker, TwId hose)
{
  TwCardWhere *where = tw_maker_where (
      maker, "centreline", hose,
      _ ("straights and bends from wall to wall; a bend takes R × tan(angle ÷ 2) off each leg "
         "and is R × angle long"),
      SOURCE);

  tw_maker_input (maker, where, hose, TW_HOSE_bend_radius_mm);
  return where;
}

static TwCardWhere *
where_volume (TwCardMaker *maker, TwId hose)
{
  TwCardWhere *where = tw_maker_where (maker, "volume", hose, _ ("π × bore² ÷ 4 × centreline"), SOURCE);

  tw_maker_input (maker, where, hose, TW_HOSE_bore_mm);
  tw_maker_input (maker, where, hose, TW_HOSE_bend_radius_mm);
  return where;
}

/* What layout/routes takes for a push-on length that the job does not say. */
static void
assume_push_on (TwCardInput *input)
{
  g_free (input->text);
  input->text = g_strdup (_ ("the usual one, or the stand-out where that is shorter"));
  input->why = _ ("common practice");
}

static TwCardWhere *
where_cut (TwCardMaker *maker, TwId hose)
{
  TwCardWhere *where = tw_maker_where (maker, "cut", hose, _ ("centreline − stand-outs + push-ons"), SOURCE);
  const TwHose *drawn = (const TwHose *)tw_drawing_find (maker->drawing, hose);
  const TwId ends[] = { drawn->from, drawn->to };

  for (guint i = 0; i < G_N_ELEMENTS (ends); i++)
    tw_maker_input (maker, where, ends[i],
                    tw_drawing_find (maker->drawing, ends[i])->kind == TW_KIND_PORT
                        ? (guint)TW_PORT_stand_out_mm
                        : (guint)TW_ENGINE_PORT_stand_out_mm);
  tw_maker_input (maker, where, hose, TW_HOSE_push_on_mm);
  if (isnan (drawn->push_on_mm))
    assume_push_on (g_ptr_array_index (where->inputs, where->inputs->len - 1));
  return where;
}

static void
add_bends (TwCardMaker *maker, const TwRoute *route)
{
  TwCardRow *row
      = tw_maker_row (maker, "bends", route->hose, _ ("Bends"), g_strdup_printf ("%u", route->n_bends));

  row->indent = 1;
  tw_row_figure (row, "bends", TW_QUANTITY_COUNT, route->n_bends, SOURCE);
  for (guint i = 0; i < route->n_pieces; i++)
    if (route->pieces[i].kind == TW_ROUTE_BEND)
      add_bend (maker, route->hose, &route->pieces[i]);
}

static void
add_run (TwCardMaker *maker, const TwRoute *route)
{
  TwCardRow *row = tw_maker_heading (maker, "hose", route->hose, tw_maker_name (maker, route->hose));

  if ((route->flags & TW_ROUTE_NO_END) != 0) {
    g_free (row->text);
    row->text = g_strdup (_ ("an end has no place yet"));
    return;
  }
  tw_row_where (figure_row (maker, "centreline", route->hose, _ ("Centreline"), route->centreline_mm),
                where_centreline (maker, route->hose));
  tw_row_where (figure_row (maker, "cut", route->hose, _ ("Cut length"), route->cut_mm),
                where_cut (maker, route->hose));
  add_bends (maker, route);
  if (!isnan (route->shortest_mm))
    figure_row (maker, "shortest", route->hose, _ ("Shortest straight"), route->shortest_mm);
  figure_row (maker, "fall", route->hose, route->fall_mm < 0 ? _ ("Climbs by") : _ ("Falls by"),
              fabs (route->fall_mm));
  add_turns (maker, route);
  row = tw_maker_row (maker, "volume", route->hose, _ ("Water inside"),
                      tw_maker_text (maker, TW_QUANTITY_VOLUME, route->volume_l));
  row->indent = 1;
  tw_row_figure (row, "volume_l", TW_QUANTITY_VOLUME, route->volume_l, SOURCE);
  tw_row_where (row, where_volume (maker, route->hose));
  tw_maker_pending (maker, "loss", route->hose, _ ("Pressure loss"))->indent = 1;
}

/* `Return: 200 mm, bend of 90°, 300 mm`; negative straights have no length to be seen. */
static void
picture_run (TwCardMaker *maker, const TwRoute *route)
{
  GString *text = g_string_new (tw_maker_name (maker, route->hose));

  for (guint i = 0; i < route->n_pieces; i++) {
    const TwRoutePiece *piece = &route->pieces[i];
    g_autofree char *length = tw_maker_text (maker, LENGTH, MAX (piece->length_mm, 0));
    g_autofree char *angle = tw_maker_text (maker, TW_QUANTITY_ANGLE, in_deg (piece->angle_rad));

    g_string_append (text, i == 0 ? ": " : ", ");
    if (piece->kind == TW_ROUTE_STRAIGHT)
      g_string_append (text, length);
    else if (piece->over_least_mm < 0)
      g_string_append_printf (text, _ ("bend of %s, too tight"), angle);
    else
      g_string_append_printf (text, _ ("bend of %s"), angle);
  }
  tw_maker_picture (maker, g_string_free (text, FALSE));
}

static void
add_headline (TwCardMaker *maker, const TwRoutes *routes)
{
  double centreline_mm = 0, volume_l = 0;
  guint n = tw_routes_count (routes), bends = 0;
  g_autofree char *length = NULL, *volume = NULL, *runs = NULL, *bent = NULL;

  for (guint i = 0; i < n; i++) {
    centreline_mm += tw_routes_get (routes, i)->centreline_mm;
    volume_l += tw_routes_get (routes, i)->volume_l;
    bends += tw_routes_get (routes, i)->n_bends;
  }
  length = tw_maker_text (maker, LENGTH, centreline_mm);
  volume = tw_maker_text (maker, TW_QUANTITY_VOLUME, volume_l);
  runs = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u run", "%u runs", n), n);
  bent = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u bend", "%u bends", bends), bends);
  tw_maker_headline (maker, g_strdup_printf ("%s, %s", runs, length));
  tw_maker_headline_figure (maker, "runs", TW_QUANTITY_COUNT, n, SOURCE);
  tw_maker_headline_figure (maker, "centreline_mm", LENGTH, centreline_mm, SOURCE);
  tw_maker_headline_figure (maker, "volume_l", TW_QUANTITY_VOLUME, volume_l, SOURCE);
  g_free (maker->card->meaning);
  maker->card->meaning = g_strdup_printf (_ ("%s; %s inside"), bent, volume);
}

TwCard *
tw_card_hoses (TwCardMaker *maker)
{
  const TwRoutes *routes = tw_answer_routes (maker->answer);

  tw_maker_begin (maker, "hoses", _ ("Hose routing"));
  tw_maker_note (maker, _ ("Centreline: from wall to wall, stand-outs included. Cut length: centreline less "
                           "stand-outs plus push-ons."));
  if (tw_routes_count (routes) == 0)
    tw_maker_missing (maker, _ ("No hose run is drawn."), TW_KIND_HOSE);
  else
    add_headline (maker, routes);
  for (guint i = 0; i < tw_routes_count (routes); i++) {
    add_run (maker, tw_routes_get (routes, i));
    picture_run (maker, tw_routes_get (routes, i));
  }
  return tw_maker_end (maker);
}
