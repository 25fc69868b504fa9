/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/source.h"
#include "base/error.h"

#include <string.h>

#define ENTRY(id, status)                                                                                    \
  "{\"id\":\"" id "\",\"title\":\"t\",\"edition\":\"e\",\"note\":\"n\",\"status\":\"" status "\"}"

/* The program's own file: loading it checks that every entry is complete and every id unique. */
static void
test_own_file (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (TwSources) sources = tw_sources_load (&error);

  g_assert_no_error (error);
  g_assert_cmpuint (tw_sources_count (sources), >, 20);
  for (guint i = 0; i < tw_sources_count (sources); i++) {
    const TwSource *source = tw_sources_get (sources, i);

    g_assert_true (tw_sources_find (sources, source->id) == source);
    /* what this program fixes has no edition; what is published has one, be it unknown */
    if (source->status == TW_SOURCE_DEFINITION || source->status == TW_SOURCE_COMMON_PRACTICE)
      g_assert_cmpstr (source->edition, ==, "-");
    else
      g_assert_cmpstr (source->edition, !=, "-");
    g_assert_true (g_str_has_prefix (source->id, "DEF-") == (source->status == TW_SOURCE_DEFINITION));
  }
  g_assert_null (tw_sources_find (sources, "NO-SUCH-SOURCE"));
}

static void
test_entry (void)
{
  static const char text[] = "{\"sources\":[{\"id\":\"ISO-1\",\"title\":\"Ports\",\"edition\":\"2001\","
                             "\"note\":\"seen\",\"status\":\"second-hand\",\"more\":1}]}";
  g_autoptr (GError) error = NULL;
  g_autoptr (TwSources) sources = tw_sources_parse (text, "a.json", &error);
  const TwSource *source;

  g_assert_no_error (error);
  g_assert_cmpuint (tw_sources_count (sources), ==, 1);
  source = tw_sources_find (sources, "ISO-1");
  g_assert_cmpstr (source->id, ==, "ISO-1");
  g_assert_cmpstr (source->title, ==, "Ports");
  g_assert_cmpstr (source->edition, ==, "2001");
  g_assert_cmpstr (source->note, ==, "seen");
  g_assert_cmpint (source->status, ==, TW_SOURCE_SECOND_HAND);
}

static void
test_statuses (void)
{
  static const struct {
    TwSourceStatus status;
    const char *id, *name;
  } cases[] = {
    { TW_SOURCE_CONFIRMED, "confirmed", "confirmed" },
    { TW_SOURCE_SECOND_HAND, "second-hand", "second-hand" },
    { TW_SOURCE_MEMORY, "memory", "from memory" },
    { TW_SOURCE_COMMON_PRACTICE, "common-practice", "common practice, no source" },
    { TW_SOURCE_DEFINITION, "definition", "definition of this program" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_assert_cmpstr (tw_source_status_id (cases[i].status), ==, cases[i].id);
    g_assert_cmpstr (tw_source_status_name (cases[i].status), ==, cases[i].name);
  }
}

static void
test_refused (void)
{
  static const struct {
    const char *text, *says;
  } cases[] = {
    { "", "a.json: sources: found nothing, expected a list of sources" },
    { "[1, 2", "a.json: sources: found nothing, expected a list of sources" },
    { "{\"sources\":[]} x", "a.json: sources: found nothing, expected a list of sources" },
    { "{\"sources\":{}}", "a.json: sources: found nothing, expected a list of sources" },
    { "{\"sources\":[" ENTRY ("A", "memory") "," ENTRY ("A", "memory") "]}",
      "a.json: sources[1].id: found A, expected an id that no other source has" },
    { "{\"sources\":[" ENTRY ("iso 1", "memory") "]}",
      "a.json: sources[0].id: found iso 1, expected capital letters, digits and -" },
    { "{\"sources\":[" ENTRY ("A", "sure") "]}",
      "a.json: sources[0].status: found sure, expected confirmed, second-hand, memory, common-practice or "
      "definition" },
    { "{\"sources\":[{\"id\":\"A\",\"title\":\"\",\"edition\":2,\"note\":\"n\",\"status\":\"memory\"}]}",
      "a.json: sources[0].title: found \"\", expected a text that is not empty\n"
      "a.json: sources[0].edition: found 2, expected a text that is not empty" },
    { "{\"sources\":[{\"id\":\"A\",\"title\":\"t\",\"edition\":\"e\",\"note\":\"n\"}]}",
      "a.json: sources[0].status: found nothing, expected a text that is not empty" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autoptr (GError) error = NULL;
    g_autoptr (TwSources) sources = tw_sources_parse (cases[i].text, "a.json", &error);

    g_assert_null (sources);
    g_assert_error (error, TW_ERROR, TW_ERROR_FORMAT);
    g_assert_cmpstr (error->message, ==, cases[i].says);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/base/source/own-file", test_own_file);
  g_test_add_func ("/base/source/entry", test_entry);
  g_test_add_func ("/base/source/statuses", test_statuses);
  g_test_add_func ("/base/source/refused", test_refused);
  return g_test_run ();
}
