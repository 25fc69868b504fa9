/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/json.h"

#include "base/units.h"

#include <math.h>
#include <string.h>

/* Walks the text by the grammar of RFC 8259 without building anything and without recursion. */
typedef struct {
  const char *at, *end;
  guint depth, deepest;
  char *opened; /* '[' or '{' by depth */
  const char *expected;
} Scan;

static gboolean
fail (Scan *self, const char *expected)
{
  self->expected = expected;
  return FALSE;
}

static void
skip_space (Scan *self)
{
  while (self->at < self->end && strchr (" \t\r\n", *self->at) != NULL && *self->at != '\0')
    self->at++;
}

static gboolean
scan_escape (Scan *self)
{
  guint code = 0;

  self->at++;
  if (self->at == self->end)
    return fail (self, N_ ("the end of a text"));
  if (*self->at != 'u')
    return strchr ("\"\\/bfnrt", *self->at) != NULL && *self->at++ != '\0'
               ? TRUE
               : fail (self, N_ ("an escape of JSON"));
  for (int i = 0; i < 4; i++) {
    if (++self->at == self->end || !g_ascii_isxdigit (*self->at))
      return fail (self, N_ ("four hexadecimal digits"));
    code = code * 16 + (guint)g_ascii_xdigit_value (*self->at);
  }
  self->at++;
  return code != 0 ? TRUE : fail (self, N_ ("a text without the character zero"));
}

static gboolean
scan_string (Scan *self)
{
  self->at++;
  while (self->at < self->end && *self->at != '"') {
    if ((guchar)*self->at < 0x20)
      return fail (self, N_ ("a text without control characters"));
    if (*self->at != '\\')
      self->at++;
    else if (!scan_escape (self))
      return FALSE;
  }
  if (self->at == self->end)
    return fail (self, N_ ("the end of a text"));
  self->at++;
  return TRUE;
}

static gboolean
scan_digits (Scan *self)
{
  const char *from = self->at;

  while (self->at < self->end && g_ascii_isdigit (*self->at))
    self->at++;
  return self->at > from ? TRUE : fail (self, N_ ("a digit"));
}

static gboolean
scan_number (Scan *self)
{
  const char *from = self->at;
  g_autofree char *text = NULL;

  if (*self->at == '-')
    self->at++;
  if (self->at < self->end && *self->at == '0')
    self->at++;
  else if (!scan_digits (self))
    return FALSE;
  if (self->at < self->end && g_ascii_isdigit (*self->at))
    return fail (self, N_ ("a number without leading zeros"));
  if (self->at < self->end && *self->at == '.') {
    self->at++;
    if (!scan_digits (self))
      return FALSE;
  }
  if (self->at < self->end && (*self->at == 'e' || *self->at == 'E')) {
    self->at++;
    if (self->at < self->end && (*self->at == '+' || *self->at == '-'))
      self->at++;
    if (!scan_digits (self))
      return FALSE;
  }
  if (self->at - from > 60)
    return fail (self, N_ ("a number of at most 60 signs"));
  text = g_strndup (from, (gsize)(self->at - from));
  return isfinite (g_ascii_strtod (text, NULL)) ? TRUE : fail (self, N_ ("a number that is finite"));
}

static gboolean
scan_word (Scan *self, const char *word)
{
  gsize n = strlen (word);

  if ((gsize)(self->end - self->at) < n || strncmp (self->at, word, n) != 0)
    return fail (self, N_ ("a value"));
  self->at += n;
  return TRUE;
}

static gboolean
scan_open (Scan *self)
{
  if (self->depth == self->deepest)
    return fail (self, N_ ("fewer lists and objects within each other"));
  self->opened[self->depth++] = *self->at++;
  return TRUE;
}

/* A value, or the opening sign of one. */
static gboolean
scan_value (Scan *self)
{
  if (self->at == self->end)
    return fail (self, N_ ("a value"));
  switch (*self->at) {
  case '{':
  case '[':
    return scan_open (self);
  case '"':
    return scan_string (self);
  case 't':
    return scan_word (self, "true");
  case 'f':
    return scan_word (self, "false");
  case 'n':
    return scan_word (self, "null");
  default:
    if (*self->at == '-' || g_ascii_isdigit (*self->at))
      return scan_number (self);
    return fail (self, N_ ("a value"));
  }
}

static gboolean
scan_name (Scan *self)
{
  if (self->at == self->end || *self->at != '"')
    return fail (self, N_ ("a member's name in quotes"));
  if (!scan_string (self))
    return FALSE;
  skip_space (self);
  if (self->at == self->end || *self->at != ':')
    return fail (self, N_ ("a colon"));
  self->at++;
  skip_space (self);
  return TRUE;
}

/* After a value: closes what is closed, up to the next value's place. */
static gboolean
scan_after (Scan *self)
{
  while (self->depth > 0) {
    char opened = self->opened[self->depth - 1];

    skip_space (self);
    if (self->at < self->end && *self->at == (opened == '{' ? '}' : ']')) {
      self->at++;
      self->depth--;
      continue;
    }
    if (self->at == self->end || *self->at != ',')
      return fail (self, opened == '{' ? N_ ("a comma or }") : N_ ("a comma or ]"));
    self->at++;
    skip_space (self);
    return opened == '{' ? scan_name (self) : TRUE;
  }
  return TRUE;
}

static gboolean
scan_all (Scan *self)
{
  skip_space (self);
  do {
    guint depth = self->depth;

    if (!scan_value (self))
      return FALSE;
    if (self->depth > depth) { /* something was opened: is it empty? */
      char opened = self->opened[self->depth - 1];

      skip_space (self);
      if (self->at < self->end && *self->at == (opened == '{' ? '}' : ']')) {
        self->at++;
        self->depth--;
      } else if (opened == '{' && !scan_name (self)) {
        return FALSE;
      } else {
        continue;
      }
    }
    if (!scan_after (self))
      return FALSE;
  } while (self->depth > 0);
  skip_space (self);
  return self->at == self->end ? TRUE : fail (self, N_ ("the end of the file"));
}

/* What stands at @at, for a message. */
static char *
found_at (const char *at, const char *end)
{
  gunichar c;

  if (at >= end)
    return g_strdup (_ ("the end of the file"));
  c = g_utf8_get_char_validated (at, end - at);
  if (c == (gunichar)-1 || c == (gunichar)-2 || c < 0x20)
    return g_strdup_printf (_ ("the byte 0x%02x"), (guint)(guchar)*at);
  return g_strdup_printf ("\"%.*s\"", (int)(g_utf8_next_char (at) - at), at);
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
  tw_troubles_add (troubles, g_strdup_printf (_ ("line %u, column %u"), line, (guint)(at - start) + 1),
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
  Scan scan = { .at = text, .end = text + length, .deepest = deepest };
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
  if (!scan_all (&scan)) {
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
    g_string_append (out, object ? "{ " : "[");
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
    g_string_append (out, object ? " }" : "]");
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
tw_json_found (const cJSON *item)
{
  g_autofree char *start = NULL;

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
  start = g_utf8_strlen (item->valuestring, -1) > 40 ? g_utf8_substring (item->valuestring, 0, 40) : NULL;
  return start != NULL ? g_strdup_printf ("\"%s…\"", start) : g_strdup_printf ("\"%s\"", item->valuestring);
}
