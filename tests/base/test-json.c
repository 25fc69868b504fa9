/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * JSON as RFC 8259 draws its line: what is a text of it, what is not, and where it stops being one.
 */
#include "base/json.h"

#include <string.h>

/* @where is the start of the trouble's place, NULL for text that is right. */
typedef struct {
  const char *text, *where, *expected;
} Case;

static const Case cases[] = {
  { "{}", NULL, NULL },
  { " [ ] ", NULL, NULL },
  { "[1, -0.5e+3, 0, \"\\u00e9\\n\", true, false, null, {\"a\": [[]]}]", NULL, NULL },
  { "\"text alone\"", NULL, NULL },
  { "", "line 1, column 1", "a value" },
  { "{", "line 1, column 2", "a member's name" },
  { "[1,]", "line 1, column 4", "a value" },
  { "[1 2]", "line 1, column 4", "a comma or ]" },
  { "{\"a\" 1}", "line 1, column 6", "a colon" },
  { "{\"a\": 1,}", "line 1, column 9", "a member's name" },
  { "{\"a\": 1 ]", "line 1, column 9", "a comma or }" },
  { "[01]", "line 1, column 2", "without leading zeros" },
  { "[1.]", "line 1, column 4", "a digit" },
  { "[.5]", "line 1, column 2", "a value" },
  { "[+1]", "line 1, column 2", "a value" },
  { "[1e999]", "line 1, column 2", "finite" },
  { "[-]", "line 1, column 3", "a digit" },
  { "[NaN]", "line 1, column 2", "a value" },
  { "[Infinity]", "line 1, column 2", "a value" },
  { "[tru]", "line 1, column 2", "a value" },
  { "[\"a\tb\"]", "line 1, column 4", "control characters" },
  { "[\"\\x\"]", "line 1, column 4", "an escape" },
  { "[\"\\u12g4\"]", "line 1, column 7", "hexadecimal" },
  { "[\"\\u0000\"]", "line 1, column 9", "zero" },
  { "[\"\\ud800\"]", "the file", "UTF-8" },
  { "[\"open]", "line 1, column 8", "the end of a text" },
  { "{}\n{}", "line 2, column 1", "the end of the file" },
  { "\xef\xbb\xbf{}", "line 1, column 1", "a value" },
  { "[\"\xff\"]", "line 1, column 3", "UTF-8" },
  { "{\"a\": 1, \"b\": {\"c\": 1, \"c\": 2}}", "b.c", "each member once" },
  { "{\"a\": [{\"x\": 1}, {\"x\": 1, \"x\": 1}]}", "a[1].x", "each member once" },
  { "[[[[[[[[[[[]]]]]]]]]]]", "line 1, column 11", "fewer lists" },
};

static void
test_case (gconstpointer data)
{
  const Case *c = data;
  g_autoptr (TwTroubles) troubles = tw_troubles_new ();
  cJSON *tree = tw_json_parse (c->text, strlen (c->text), 10, troubles);
  const TwTrouble *first = troubles->n > 0 ? g_ptr_array_index (troubles->list, 0) : NULL;

  cJSON_Delete (tree);
  if (c->where == NULL) {
    g_assert_cmpuint (troubles->n, ==, 0);
    return;
  }
  g_assert_cmpuint (troubles->n, ==, 1);
  g_test_message ("%s: found %s, expected %s", first->where, first->found, first->expected);
  g_assert_true (g_str_has_prefix (first->where, c->where));
  g_assert_nonnull (strstr (first->expected, c->expected));
}

/* A zero byte inside is not the end. */
static void
test_zero_byte (void)
{
  static const char text[] = "{}\0{}";
  g_autoptr (TwTroubles) troubles = tw_troubles_new ();

  g_assert_null (tw_json_parse (text, sizeof text - 1, 10, troubles));
  g_assert_cmpuint (troubles->n, ==, 1);
}

/* What is written reads back to the same bits, and twice written is the same text. */
static void
test_print (void)
{
  static const char text[]
      = "{\n"
        "  \"figures\": [0.1, 622.3, 1e+300, -0.3333333333333333, 123456789],\n"
        "  \"words\": { \"quote\": \"\\\"\\\\\\n\\t\\u0001\", \"ü\": \"⌀\", \"none\": null },\n"
        "  \"empty\": [[], {}]\n"
        "}\n";
  g_autoptr (TwTroubles) troubles = tw_troubles_new ();
  cJSON *tree = tw_json_parse (text, strlen (text), 10, troubles);
  g_autofree char *printed = tw_json_print (tree);

  g_assert_cmpstr (printed, ==, text);
  cJSON_Delete (tree);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *path = g_strdup_printf ("/base/json/%02u", i);

    g_test_add_data_func (path, &cases[i], test_case);
  }
  g_test_add_func ("/base/json/zero-byte", test_zero_byte);
  g_test_add_func ("/base/json/print", test_print);
  return g_test_run ();
}
