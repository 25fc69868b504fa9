/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/json-private.h"

#include "base/error.h"
#include "base/json.h"

#include <math.h>
#include <string.h>

static gboolean
fail (TwJsonScan *self, const char *expected)
{
  self->expected = expected;
  return FALSE;
}

static void
skip_space (TwJsonScan *self)
{
  while (self->at < self->end && strchr (" \t\r\n", *self->at) != NULL && *self->at != '\0')
    self->at++;
}

static gboolean
scan_escape (TwJsonScan *self)
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
scan_string (TwJsonScan *self)
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
scan_digits (TwJsonScan *self)
{
  const char *from = self->at;

  while (self->at < self->end && g_ascii_isdigit (*self->at))
    self->at++;
  return self->at > from ? TRUE : fail (self, N_ ("a digit"));
}

/* The whole number from @from on is at fault. */
static gboolean
fail_number (TwJsonScan *self, const char *from, const char *expected)
{
  self->at = from;
  return fail (self, expected);
}

static gboolean
scan_number (TwJsonScan *self)
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
    return fail_number (self, from, N_ ("a number without leading zeros"));
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
    return fail_number (self, from, N_ ("a number of at most 60 signs"));
  text = g_strndup (from, (gsize)(self->at - from));
  return isfinite (g_ascii_strtod (text, NULL)) || fail_number (self, from, N_ ("a number that is finite"));
}

static gboolean
scan_word (TwJsonScan *self, const char *word)
{
  gsize n = strlen (word);

  if ((gsize)(self->end - self->at) < n || strncmp (self->at, word, n) != 0)
    return fail (self, N_ ("a value"));
  self->at += n;
  return TRUE;
}

static gboolean
scan_open (TwJsonScan *self)
{
  if (self->depth == self->deepest)
    return fail (self, N_ ("fewer lists and objects within each other"));
  self->opened[self->depth++] = *self->at++;
  return TRUE;
}

/* A value, or the opening sign of one. */
static gboolean
scan_value (TwJsonScan *self)
{
  if (self->at == self->end)
    return fail (self, N_ ("a value"));
  if (++self->values > TW_JSON_MOST_VALUES)
    return fail (self, N_ ("at most 500000 values in a file"));
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
scan_name (TwJsonScan *self)
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
scan_after (TwJsonScan *self)
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

gboolean
tw_json_scan (TwJsonScan *self)
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
