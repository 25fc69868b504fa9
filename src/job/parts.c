/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/parts.h"

#include <math.h>
#include <string.h>

static void
clear_part (gpointer data)
{
  TwPart *self = data;
  const TwKindInfo *info = tw_kind_info (self->kind);

  for (guint i = 0; i < info->n_fields; i++) {
    if (info->fields[i].store == TW_FIELD_TEXT)
      g_free (G_STRUCT_MEMBER (char *, self, info->fields[i].offset));
    if (self->typed != NULL)
      g_free (self->typed[i]);
  }
  for (guint i = 0; i < info->n_lists; i++)
    g_ptr_array_unref (tw_part_list (self, i));
  g_free (self->typed);
  cJSON_Delete (self->extra);
}

TwPart *
tw_part_new (TwKind kind, TwId id)
{
  const TwKindInfo *info = tw_kind_info (kind);
  TwPart *self = g_atomic_rc_box_alloc0 (info->size);

  self->kind = kind;
  self->id = id;
  for (guint i = 0; i < info->n_fields; i++) {
    gsize at = info->fields[i].offset;

    switch (info->fields[i].store) {
    case TW_FIELD_NUMBER:
      G_STRUCT_MEMBER (double, self, at) = (double)NAN;
      break;
    case TW_FIELD_COUNT:
    case TW_FIELD_CHOICE:
    case TW_FIELD_FLAG:
      G_STRUCT_MEMBER (int, self, at) = -1;
      break;
    case TW_FIELD_TEXT:
    case TW_FIELD_REF:
      break; /* all zero */
    }
  }
  for (guint i = 0; i < info->n_lists; i++)
    G_STRUCT_MEMBER (GPtrArray *, self, info->lists[i].offset)
        = g_ptr_array_new_with_free_func (tw_part_unref);
  return self;
}

TwPart *
tw_part_copy (const TwPart *self)
{
  const TwKindInfo *info = tw_kind_info (self->kind);
  TwPart *copy = tw_part_new (self->kind, self->id);

  for (guint i = 0; i < info->n_lists; i++) {
    GPtrArray *from = tw_part_list (self, i);

    for (guint k = 0; k < from->len; k++)
      g_ptr_array_add (tw_part_list (copy, i), tw_part_ref (g_ptr_array_index (from, k)));
  }
  for (guint i = 0; i < info->n_fields; i++) {
    gsize at = info->fields[i].offset;

    switch (info->fields[i].store) {
    case TW_FIELD_NUMBER:
      G_STRUCT_MEMBER (double, copy, at) = G_STRUCT_MEMBER (double, self, at);
      break;
    case TW_FIELD_COUNT:
    case TW_FIELD_CHOICE:
    case TW_FIELD_FLAG:
      G_STRUCT_MEMBER (int, copy, at) = G_STRUCT_MEMBER (int, self, at);
      break;
    case TW_FIELD_TEXT:
      G_STRUCT_MEMBER (char *, copy, at) = g_strdup (G_STRUCT_MEMBER (char *, self, at));
      break;
    case TW_FIELD_REF:
      G_STRUCT_MEMBER (TwId, copy, at) = G_STRUCT_MEMBER (TwId, self, at);
      break;
    }
  }
  if (self->typed != NULL) {
    copy->typed = g_new0 (char *, info->n_fields);
    for (guint i = 0; i < info->n_fields; i++)
      copy->typed[i] = g_strdup (self->typed[i]);
  }
  if (self->extra != NULL)
    copy->extra = cJSON_Duplicate (self->extra, TRUE);
  return copy;
}

TwPart *
tw_part_ref (const TwPart *self)
{
  return g_atomic_rc_box_acquire ((gpointer)self);
}

void
tw_part_unref (gpointer self)
{
  g_atomic_rc_box_release_full (self, clear_part);
}

static gboolean
same_field (const TwPart *a, const TwPart *b, const TwField *field)
{
  double x, y;

  switch (field->store) {
  case TW_FIELD_NUMBER:
    x = G_STRUCT_MEMBER (double, a, field->offset);
    y = G_STRUCT_MEMBER (double, b, field->offset);
    return x == y || (isnan (x) && isnan (y));
  case TW_FIELD_TEXT:
    return g_strcmp0 (G_STRUCT_MEMBER (char *, a, field->offset), G_STRUCT_MEMBER (char *, b, field->offset))
           == 0;
  case TW_FIELD_REF:
    return tw_id_equal (G_STRUCT_MEMBER (TwId, a, field->offset), G_STRUCT_MEMBER (TwId, b, field->offset));
  case TW_FIELD_COUNT:
  case TW_FIELD_CHOICE:
  case TW_FIELD_FLAG:
    return G_STRUCT_MEMBER (int, a, field->offset) == G_STRUCT_MEMBER (int, b, field->offset);
  }
  g_assert_not_reached ();
}

static gboolean
same_list (GPtrArray *a, GPtrArray *b)
{
  if (a->len != b->len)
    return FALSE;
  for (guint i = 0; i < a->len; i++)
    if (!tw_part_equal (g_ptr_array_index (a, i), g_ptr_array_index (b, i)))
      return FALSE;
  return TRUE;
}

gboolean
tw_part_equal (const TwPart *a, const TwPart *b)
{
  const TwKindInfo *info = tw_kind_info (a->kind);

  if (a == b)
    return TRUE;
  if (a->kind != b->kind || !tw_id_equal (a->id, b->id))
    return FALSE;
  for (guint i = 0; i < info->n_fields; i++) {
    const char *ta = a->typed ? a->typed[i] : NULL, *tb = b->typed ? b->typed[i] : NULL;

    if (g_strcmp0 (ta, tb) != 0 || !same_field (a, b, &info->fields[i]))
      return FALSE;
  }
  for (guint i = 0; i < info->n_lists; i++)
    if (!same_list (tw_part_list (a, i), tw_part_list (b, i)))
      return FALSE;
  return (a->extra == NULL) == (b->extra == NULL)
         && (a->extra == NULL || cJSON_Compare (a->extra, b->extra, TRUE));
}

const char *
tw_part_name (const TwPart *self)
{
  int field = tw_kind_field (self->kind, "name");
  const char *name = NULL;

  if (field >= 0)
    name = G_STRUCT_MEMBER (char *, self, tw_kind_info (self->kind)->fields[field].offset);
  return name != NULL && name[0] != '\0' ? name : self->id.text;
}

static const TwPart *
element_of_list (GPtrArray *elements, TwId id)
{
  for (guint i = 0; i < elements->len; i++) {
    const TwPart *element = g_ptr_array_index (elements, i);

    if (tw_id_equal (element->id, id))
      return element;
  }
  return NULL;
}

const TwPart *
tw_part_element (const TwPart *self, TwId id, guint *list)
{
  const TwKindInfo *info = tw_kind_info (self->kind);

  for (guint i = 0; i < info->n_lists; i++) {
    const TwPart *element = element_of_list (tw_part_list (self, i), id);

    if (element != NULL) {
      if (list != NULL)
        *list = i;
      return element;
    }
  }
  return NULL;
}

GPtrArray *
tw_part_list (const TwPart *self, guint list)
{
  const TwKindInfo *info = tw_kind_info (self->kind);

  g_assert (list < info->n_lists);
  return G_STRUCT_MEMBER (GPtrArray *, self, info->lists[list].offset);
}

gboolean
tw_part_refers_to (const TwPart *part, TwId id)
{
  const TwKindInfo *info = tw_kind_info (part->kind);

  for (guint i = 0; i < info->n_fields; i++)
    if (info->fields[i].store == TW_FIELD_REF
        && tw_id_equal (G_STRUCT_MEMBER (TwId, part, info->fields[i].offset), id))
      return TRUE;
  return FALSE;
}
