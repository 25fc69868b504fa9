/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/json.h"

#include "base/json-private.h"
#include "base/units.h"

#define LONGEST_WORD 24

/* What stands at @at, for a message. */
static char *
found_at (const char *at, const char *end)
{
  const char *word = at;
  gunichar c;

  if (at >= end)
    return g_strdup (_ ("the end of the file"));
  c = g_utf8_get_char_validated (at, end - at);
  if (c == (gunichar)-1 || c == (gunichar)-2 || c < 0x20)
    return g_strdup_printf (_ ("the byte 0x%02x"), (guint)(guchar)*at);
  if (c == 0xfeff)
    return g_strdup (_ ("a byte order mark"));
  while (word < end && word - at < LONGEST_WORD
         && (g_ascii_isalnum (*word) || (*word != '\0' && strchr ("+-._", *word) != NULL)))
    word++;
  if (word == at)
    word = g_utf8_next_char (at);
  return g_strdup_printf ("\"%.*s%s\"", (int)(word - at), at, word - at == LONGEST_WORD ? "…" : "");
}

static void
trouble_at (TwTroubles *troubles, const char *text, const char *at, const char *end, const char *expected)
{
  guint line = 1;
  const char *start = text;

  for (const char *c = text; c < at; c++)
    if (*c == '\n') {
      line++;
      start = c + 1;
    }
  tw_troubles_add (troubles,
                   g_strdup_printf (_ ("line %u, column %ld"), line, g_utf8_strlen (start, at - start) + 1),
                   found_at (at, end), expected);
}

static void check_twice (const cJSON *item, GString *path, TwTroubles *troubles);

static void
check_members (const cJSON *item, GString *path, TwTroubles *troubles)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  const cJSON *child;
  gsize length = path->len;

  cJSON_ArrayForEach (child, item) {
    g_string_append_printf (path, "%s%s", length > 0 ? "." : "", child->string);
    if (!g_hash_table_add (seen, child->string))
      tw_troubles_add (troubles, g_strdup (path->str), g_strdup (_ ("a second member of this name")),
                       _ ("each member once"));
    check_twice (child, path, troubles);
    g_string_truncate (path, length);
  }
}

static void
check_twice (const cJSON *item, GString *path, TwTroubles *troubles)
{
  const cJSON *child;
  gsize length = path->len;
  guint i = 0;

  if (cJSON_IsObject (item)) {
    check_members (item, path, troubles);
  } else if (cJSON_IsArray (item)) {
    cJSON_ArrayForEach (child, item) {
      g_string_append_printf (path, "[%u]", i++);
      check_twice (child, path, troubles);
      g_string_truncate (path, length);
    }
  }
}

cJSON *
tw_json_parse (const char *text, gsize length, guint deepest, TwTroubles *troubles)
{
  TwJsonScan scan = { .at = text, .end = text + length, .deepest = deepest };
  g_autofree char *opened = g_malloc (deepest);
  g_autoptr (GString) path = g_string_new (NULL);
  const char *bad;
  cJSON *tree;

  g_return_val_if_fail (deepest > 0 && deepest <= 200, NULL);
  scan.opened = opened;
  if (!g_utf8_validate_len (text, length, &bad)) {
    trouble_at (troubles, text, bad, scan.end, _ ("text in UTF-8"));
    return NULL;
  }
  if (!tw_json_scan (&scan)) {
    trouble_at (troubles, text, scan.at, scan.end, _ (scan.expected));
    return NULL;
  }
  tree = cJSON_ParseWithLength (text, length);
  if (tree == NULL) /* what the scan let pass and cJSON does not: a lone half of a surrogate pair */
    tw_troubles_add (troubles, g_strdup (_ ("the file")), g_strdup (_ ("an escape that is no character")),
                     _ ("text in UTF-8"));
  else
    check_twice (tree, path, troubles);
  return tree;
}

static void
print_string (GString *out, const char *text)
{
  g_string_append_c (out, '"');
  for (const char *c = text; *c != '\0'; c++) {
    if (*c == '"' || *c == '\\')
      g_string_append_printf (out, "\\%c", *c);
    else if (*c == '\n')
      g_string_append (out, "\\n");
    else if (*c == '\t')
      g_string_append (out, "\\t");
    else if ((guchar)*c < 0x20)
      g_string_append_printf (out, "\\u%04x", (guint)*c);
    else
      g_string_append_c (out, *c);
  }
  g_string_append_c (out, '"');
}

#define LINE_LENGTH 110

/* On one line, or FALSE and @out as it was when that would be longer than @room. */
static gboolean
print_line (GString *out, const cJSON *item, gsize room)
{
  gsize length = out->len;
  const cJSON *child;
  gboolean object = cJSON_IsObject (item);
  g_autofree char *number = NULL;

  if (object || cJSON_IsArray (item)) {
    g_string_append (out, object && item->child != NULL ? "{ " : object ? "{" : "[");
    cJSON_ArrayForEach (child, item) {
      if (child != item->child)
        g_string_append (out, ", ");
      if (object) {
        print_string (out, child->string);
        g_string_append (out, ": ");
      }
      if (out->len - length > room || !print_line (out, child, room - (out->len - length))) {
        g_string_truncate (out, length);
        return FALSE;
      }
    }
    g_string_append (out, object && item->child != NULL ? " }" : object ? "}" : "]");
  } else if (cJSON_IsString (item)) {
    print_string (out, item->valuestring);
  } else if (cJSON_IsNumber (item)) {
    number = tw_number_text (item->valuedouble);
    g_string_append (out, number);
  } else {
    g_string_append (out, cJSON_IsTrue (item) ? "true" : cJSON_IsFalse (item) ? "false" : "null");
  }
  if (out->len - length <= room || item->child == NULL)
    return TRUE;
  g_string_truncate (out, length);
  return FALSE;
}

static void
print_item (GString *out, const cJSON *item, guint indent, gsize used)
{
  gboolean object = cJSON_IsObject (item);
  const cJSON *child;

  if (indent > 0 && print_line (out, item, used < LINE_LENGTH ? LINE_LENGTH - used : 0))
    return;
  if (item->child == NULL) {
    print_line (out, item, LINE_LENGTH);
    return;
  }
  g_string_append (out, object ? "{\n" : "[\n");
  cJSON_ArrayForEach (child, item) {
    gsize start = out->len;

    g_string_append_printf (out, "%*s", (int)indent + 2, "");
    if (object) {
      print_string (out, child->string);
      g_string_append (out, ": ");
    }
    print_item (out, child, indent + 2, out->len - start + 1);
    g_string_append (out, child->next != NULL ? ",\n" : "\n");
  }
  g_string_append_printf (out, "%*s%c", (int)indent, "", object ? '}' : ']');
}

char *
tw_json_print (const cJSON *tree)
{
  GString *out = g_string_new (NULL);

  print_item (out, tree, 0, 0);
  g_string_append_c (out, '\n');
  return g_string_free (out, FALSE);
}

char *
tw_json_print_line (const cJSON *tree)
{
  GString *out = g_string_new (NULL);

  (void)print_line (out, tree, G_MAXSIZE / 2);
  return g_string_free (out, FALSE);
}

char *
tw_json_found (const cJSON *item)
{
  g_autofree char *start = NULL;
  GString *out;

  if (cJSON_IsObject (item))
    return g_strdup (_ ("an object"));
  if (cJSON_IsArray (item))
    return g_strdup (_ ("a list"));
  if (cJSON_IsBool (item))
    return g_strdup (cJSON_IsTrue (item) ? "true" : "false");
  if (cJSON_IsNull (item))
    return g_strdup ("null");
  if (cJSON_IsNumber (item))
    return tw_number_text (item->valuedouble);
  if (g_utf8_strlen (item->valuestring, -1) > 40) {
    g_autofree char *whole = g_utf8_substring (item->valuestring, 0, 40);

    start = g_strconcat (whole, "…", NULL);
  }
  out = g_string_new (NULL);
  print_string (out, start != NULL ? start : item->valuestring);
  return g_string_free (out, FALSE);
}
