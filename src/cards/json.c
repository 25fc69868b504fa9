/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cards/json.h"

#include <math.h>

static void
add_number (cJSON *object, const char *key, double value)
{
  cJSON_AddItemToObject (object, key, isfinite (value) ? cJSON_CreateNumber (value) : cJSON_CreateNull ());
}

static void
add_figures (cJSON *object, const GArray *figures)
{
  for (guint i = 0; i < figures->len; i++) {
    const TwCardFigure *figure = &g_array_index (figures, TwCardFigure, i);

    add_number (object, figure->key, figure->figure.value);
  }
}

static void
add_ids (cJSON *object, const char *key, const TwId *ids, guint n)
{
  cJSON *list = cJSON_AddArrayToObject (object, key);

  for (guint i = 0; i < n; i++)
    cJSON_AddItemToArray (list, cJSON_CreateString (ids[i].text));
}

static const char *
kind_name (TwRowKind kind)
{
  switch (kind) {
  case TW_ROW_STOP:
    return "stop";
  case TW_ROW_WARN:
    return "warn";
  case TW_ROW_NOTE:
    return "note";
  case TW_ROW_PENDING:
    return "pending";
  case TW_ROW_HEADING:
    return "heading";
  case TW_ROW_PLAIN:
    break;
  }
  return NULL;
}

static cJSON *
row_json (const TwCardRow *row)
{
  cJSON *object = cJSON_CreateObject ();

  cJSON_AddStringToObject (object, "id", row->id);
  if (kind_name (row->kind) != NULL)
    cJSON_AddStringToObject (object, "kind", kind_name (row->kind));
  add_figures (object, row->figures);
  if (row->is_assumed)
    cJSON_AddTrueToObject (object, "assumed");
  add_ids (object, "parts", (const TwId *)(gpointer)row->parts->data, row->parts->len);
  return object;
}

cJSON *
tw_card_json (const TwCard *card)
{
  cJSON *object = cJSON_CreateObject ();
  cJSON *rows;

  cJSON_AddStringToObject (object, "id", card->id);
  if (kind_name (card->kind) != NULL)
    cJSON_AddStringToObject (object, "kind", kind_name (card->kind));
  add_figures (object, card->figures);
  if (card->is_assumed)
    cJSON_AddTrueToObject (object, "assumed");
  rows = cJSON_AddArrayToObject (object, "rows");
  for (guint i = 0; i < card->rows->len; i++)
    cJSON_AddItemToArray (rows, row_json (g_ptr_array_index (card->rows, i)));
  return object;
}

cJSON *
tw_cards_json (const GPtrArray *cards)
{
  cJSON *object = cJSON_CreateObject ();
  cJSON *list = cJSON_AddArrayToObject (object, "cards");

  for (guint i = 0; i < cards->len; i++)
    cJSON_AddItemToArray (list, tw_card_json (g_ptr_array_index (cards, i)));
  return object;
}

/* How a key ends for figures of a quantity. */
static const char *
unit_key (TwQuantity quantity)
{
  switch ((int)quantity) {
  case TW_QUANTITY_LENGTH:
    return "_mm";
  case TW_QUANTITY_AREA:
    return "_mm2";
  case TW_QUANTITY_ANGLE:
    return "_deg";
  case TW_QUANTITY_SPEED:
    return "_m_s";
  case TW_QUANTITY_SHARE:
    return "_share";
  case TW_QUANTITY_COUNT:
    return "_count";
  default:
    return "";
  }
}

static void
add_measure (cJSON *object, const char *name, TwQuantity quantity, double value)
{
  g_autofree char *key = g_strconcat (name, unit_key (quantity), NULL);

  if (!isnan (value))
    add_number (object, key, value);
}

static cJSON *
finding_json (const TwFinding *finding)
{
  const TwCheck *check = finding->check;
  cJSON *object = cJSON_CreateObject ();

  cJSON_AddStringToObject (object, "check", check->id);
  cJSON_AddStringToObject (object, "severity", tw_severity_id (check->severity));
  add_ids (object, "parts", finding->parts, finding->n_parts);
  add_measure (object, "measured", check->quantity, finding->measured);
  add_measure (object, "limit", check->quantity, finding->limit);
  if (!isnan (finding->limit) && check->source != NULL)
    cJSON_AddStringToObject (object, "limit_source", check->source);
  add_measure (object, "beside", check->beside, finding->beside);
  if (finding->from > 0) {
    add_number (object, "from", finding->from);
    add_number (object, "to", finding->to);
  }
  return object;
}

cJSON *
tw_findings_json (const TwFindings *findings)
{
  cJSON *object = cJSON_CreateObject ();
  cJSON *list = cJSON_AddArrayToObject (object, "findings");
  cJSON *waiting = cJSON_AddArrayToObject (object, "waiting");
  cJSON *unmade = cJSON_AddArrayToObject (object, "could_not_be_made");

  for (guint i = 0; i < tw_findings_count (findings); i++)
    cJSON_AddItemToArray (list, finding_json (tw_findings_get (findings, i)));
  for (guint i = 0; i < tw_check_count (); i++) {
    const char *why;
    TwCheckState state = tw_findings_state (findings, i, &why);

    if (state == TW_CHECK_WAITING)
      cJSON_AddItemToArray (waiting, cJSON_CreateString (tw_check_get (i)->id));
    if (state == TW_CHECK_UNMADE) {
      cJSON *item = cJSON_CreateObject ();

      cJSON_AddStringToObject (item, "check", tw_check_get (i)->id);
      cJSON_AddStringToObject (item, "why", why);
      cJSON_AddItemToArray (unmade, item);
    }
  }
  return object;
}
