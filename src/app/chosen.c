/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/chosen.h"

struct _TwChosen {
  GArray *parts; /* of TwId, each once */
  TwId element;  /* of the last one */
};

TwChosen *
tw_chosen_new (void)
{
  TwChosen *self = g_new0 (TwChosen, 1);

  self->parts = g_array_new (FALSE, FALSE, sizeof (TwId));
  return self;
}

void
tw_chosen_free (TwChosen *self)
{
  g_array_unref (self->parts);
  g_free (self);
}

const TwId *
tw_chosen_parts (const TwChosen *self, guint *n)
{
  *n = self->parts->len;
  return (const TwId *)(gpointer)self->parts->data;
}

TwId
tw_chosen_lead (const TwChosen *self)
{
  return self->parts->len > 0 ? g_array_index (self->parts, TwId, self->parts->len - 1) : TW_ID_NONE;
}

TwId
tw_chosen_element (const TwChosen *self)
{
  return self->element;
}

static int
place_of (const GArray *parts, TwId part)
{
  for (guint i = 0; i < parts->len; i++)
    if (tw_id_equal (g_array_index (parts, TwId, i), part))
      return (int)i;
  return -1;
}

gboolean
tw_chosen_has (const TwChosen *self, TwId part)
{
  return place_of (self->parts, part) >= 0;
}

static gboolean
is_job (TwId id)
{
  return g_str_equal (id.text, "job");
}

static gboolean
same (const GArray *a, const GArray *b)
{
  if (a->len != b->len)
    return FALSE;
  for (guint i = 0; i < a->len; i++)
    if (!tw_id_equal (g_array_index (a, TwId, i), g_array_index (b, TwId, i)))
      return FALSE;
  return TRUE;
}

/* Takes @parts (transfer full). An element stays chosen only with its part alone in the lead. */
static gboolean
take (TwChosen *self, GArray *parts, TwId element)
{
  gboolean changed = !same (self->parts, parts) || !tw_id_equal (self->element, element);

  g_array_unref (self->parts);
  self->parts = parts;
  self->element = element;
  return changed;
}

gboolean
tw_chosen_set (TwChosen *self, const TwId *parts, guint n)
{
  GArray *now = g_array_new (FALSE, FALSE, sizeof (TwId));
  TwId lead = tw_chosen_lead (self);

  for (guint i = 0; i < n; i++)
    if (!tw_id_is_none (parts[i]) && place_of (now, parts[i]) < 0 && (n == 1 || !is_job (parts[i])))
      g_array_append_val (now, parts[i]);
  if (now->len == 1 && tw_id_equal (g_array_index (now, TwId, 0), lead))
    return take (self, now, self->element);
  return take (self, now, TW_ID_NONE);
}

gboolean
tw_chosen_toggle (TwChosen *self, TwId part)
{
  GArray *now;
  int place = place_of (self->parts, part);

  if (tw_id_is_none (part))
    return FALSE;
  if (is_job (part) || is_job (tw_chosen_lead (self)))
    return tw_chosen_set (self, &part, 1);
  now = g_array_copy (self->parts);
  if (place >= 0)
    g_array_remove_index (now, (guint)place);
  else
    g_array_append_val (now, part);
  return take (self, now, TW_ID_NONE);
}

gboolean
tw_chosen_set_element (TwChosen *self, TwId part, TwId element)
{
  int place = place_of (self->parts, part);
  GArray *now;

  if (tw_id_is_none (part))
    return FALSE;
  now = place >= 0 ? g_array_copy (self->parts) : g_array_new (FALSE, FALSE, sizeof (TwId));
  if (place >= 0)
    g_array_remove_index (now, (guint)place);
  g_array_append_val (now, part);
  return take (self, now, element);
}

gboolean
tw_chosen_check (TwChosen *self, const TwJob *job)
{
  GArray *now = g_array_new (FALSE, FALSE, sizeof (TwId));
  TwId lead = tw_chosen_lead (self), element = self->element;
  const TwPart *part = tw_id_is_none (lead) ? NULL : tw_job_find (job, lead);

  for (guint i = 0; i < self->parts->len; i++)
    if (tw_job_find (job, g_array_index (self->parts, TwId, i)) != NULL)
      g_array_append_val (now, g_array_index (self->parts, TwId, i));
  if (part == NULL || tw_id_is_none (element) || tw_part_element (part, element, NULL) == NULL)
    element = TW_ID_NONE;
  return take (self, now, element);
}
