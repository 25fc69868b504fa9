/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * test-form.c - work by number in the real window: entries, lists, several parts, units
 *
 * Figures by hand: 1 in = 25.4 mm [NIST SP 811, appendix B.8], 1 ft = 12 in, a dash is 1/16 in.
 */
#include "app/application.h"
#include "app/element-row.h"
#include "app/field-row.h"
#include "app/part-form.h"
#include "app/part-groups.h"
#include "drive.h"
#include "job/read.h"
#include "job/write.h"

#include <math.h>
#include <string.h>

static TwWindow *window;

static TwSession *
session (void)
{
  return tw_window_session (window);
}

static void
settle_frames (void)
{
  for (int i = 0; i < 3; i++)
    drive_frame (GTK_WIDGET (window));
}

static void
take (TwJob *job)
{
  tw_session_take_job (session (), job, NULL);
  tw_session_set_view (session (), TW_VIEW_FRONT);
  settle_frames ();
}

static void
open_sample (void)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "..", "samples", "merlin-tail.twjob", NULL);
  g_autoptr (GError) error = NULL;
  TwJob *job = tw_job_read_file (path, &error);

  g_assert_no_error (error);
  take (job);
}

static void
open_text (const char *text)
{
  g_autoptr (TwTroubles) troubles = tw_troubles_new ();
  TwJob *job = tw_job_read_text (text, strlen (text), troubles);

  g_assert_cmpuint (troubles->n, ==, 0);
  take (job);
}

static char *
job_text (void)
{
  return tw_job_write_text (tw_session_job (session ()));
}

static void
choose (TwKind kind, guint nth)
{
  tw_session_select (session (), tw_job_get (tw_session_job (session ()), kind, nth)->id);
  settle_frames ();
}

static double
figure (TwKind kind, guint nth, guint field)
{
  const TwPart *part = tw_job_get (tw_session_job (session ()), kind, nth);

  return G_STRUCT_MEMBER (double, part, tw_kind_info (kind)->fields[field].offset);
}

static GtkWidget *
form (void)
{
  return drive_find (GTK_WIDGET (window), TW_TYPE_PART_FORM, NULL);
}

static GtkWidget *
entry_of (const char *label)
{
  GtkWidget *entry = drive_find (form (), GTK_TYPE_ENTRY, label);

  if (entry == NULL)
    g_error ("no entry is called %s", label);
  return entry;
}

static const char *
text_of (const char *label)
{
  return gtk_editable_get_text (GTK_EDITABLE (entry_of (label)));
}

static TwFieldEditor *
editor_of (const char *label)
{
  return TW_FIELD_EDITOR (gtk_widget_get_ancestor (entry_of (label), TW_TYPE_FIELD_EDITOR));
}

/* Typed where the keyboard can, else pasted. */
static void
put (GtkWidget *entry, const char *text)
{
  gtk_widget_grab_focus (entry);
  drive_key (GDK_KEY_a, GDK_CONTROL_MASK);
  drive_key (GDK_KEY_Delete, 0);
  if (strspn (text, "0123456789abcdefghijklmnopqrstuvwxyz ./-'") == strlen (text)) {
    drive_type (text);
  } else {
    gdk_clipboard_set_text (gtk_widget_get_clipboard (entry), text);
    drive_key (GDK_KEY_v, GDK_CONTROL_MASK);
  }
  DRIVE_UNTIL (g_str_equal (gtk_editable_get_text (GTK_EDITABLE (entry)), text));
}

static void
fill (const char *label, const char *text)
{
  put (entry_of (label), text);
  drive_key (GDK_KEY_Return, 0);
  settle_frames ();
}

static void
lengths (const char *how)
{
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (window), "win.lengths", "s", how));
  settle_frames ();
}

static void
undo_all (void)
{
  while (tw_history_can_undo (tw_session_history (session ())))
    tw_session_undo (session ());
  settle_frames ();
}

/* --- groups ----------------------------------------------------------------------------------------------
 */

static void
test_every_field_has_a_group (void)
{
  for (guint kind = 0; kind < TW_FIRST_ELEMENT; kind++) {
    const TwKindInfo *info = tw_kind_info (kind);
    g_autofree guint *times = g_new0 (guint, info->n_fields);
    const TwPartGroup *group;

    for (guint i = 0; (group = tw_part_group (kind, i)) != NULL; i++)
      for (guint k = 0; k < group->n_fields; k++)
        times[group->fields[k]]++;
    for (guint i = 0; i < info->n_fields; i++)
      if (times[i] != 1)
        g_error ("field %s of %s stands in %u groups", info->fields[i].name, info->stem, times[i]);
  }
}

/* --- entries ---------------------------------------------------------------------------------------------
 */

/* clang-format off */
static const struct {
  const char *typed;
  double mm;
  const char *shown;  /* in a job in millimetres */
  const char *beside; /* NULL: nothing */
} forms[] = {
  { "610", 610, "610 mm", NULL },
  { "20 3/8", 517.525, "20 3/8", "= 517.525 mm" },
  { "1 1/2\"", 38.1, "1 1/2\"", "= 38.1 mm" },
  { "2 ft 3", 685.8, "2 ft 3", "= 685.8 mm" },
  { "2' 3 1/2\"", 698.5, "2' 3 1/2\"", "= 698.5 mm" },
  { "0.80 in", 20.32, "0.80 in", "= 20.32 mm" },
  { "24,5 mm", 24.5, "24,5 mm", NULL },
  { "\u00bd", 12.7, "\u00bd", "= 12.7 mm" },
  { "1\u00bd", 38.1, "1\u00bd", "= 38.1 mm" },
  { "61 cm", 610, "61 cm", "= 610 mm" },
};
/* clang-format on */

static void
test_forms (void)
{
  g_autofree char *before = NULL, *after = NULL;

  open_sample ();
  before = job_text ();
  choose (TW_KIND_CORE, 0);
  for (guint i = 0; i < G_N_ELEMENTS (forms); i++) {
    g_test_message ("%s", forms[i].typed);
    fill ("Face width", forms[i].typed);
    g_assert_cmpfloat_with_epsilon (figure (TW_KIND_CORE, 0, TW_CORE_face_width_mm), forms[i].mm, 1e-9);
    g_assert_cmpstr (text_of ("Face width"), ==, forms[i].shown);
    g_assert_cmpstr (tw_field_editor_note (editor_of ("Face width")), ==, forms[i].beside);
  }
  undo_all ();
  after = job_text ();
  g_assert_cmpstr (after, ==, before);
}

/* -16 is 16/16 in = 25.4 mm where a hose is meant, and a length below nothing elsewhere. */
static void
test_dash_size (void)
{
  open_sample ();
  choose (TW_KIND_HOSE, 0);
  fill ("Bore", "-16");
  g_assert_cmpfloat (figure (TW_KIND_HOSE, 0, TW_HOSE_bore_mm), ==, 25.4);
  g_assert_cmpstr (text_of ("Bore"), ==, "-16");
  g_assert_cmpstr (tw_field_editor_note (editor_of ("Bore")), ==, "= 25.4 mm");
  fill ("Wall", "-16");
  g_assert_cmpstr (tw_field_editor_trouble (editor_of ("Wall")), ==,
                   "found -16, expected a length of 0.3 to 30 mm");
}

/* A bad text is marked and explained, stays when it is left and when another part is looked at, and changes
 * nothing; Escape puts the old one back. */
static void
test_bad_text (void)
{
  static const char says[]
      = "\"seven\" is not a length; accepted are figures like 610, 24 1/2 in, 2 ft 3, 61 cm";
  g_autofree char *before = NULL, *after = NULL, *told = NULL;
  GtkWidget *entry;

  open_sample ();
  before = job_text ();
  choose (TW_KIND_CORE, 0);
  put (entry_of ("Face width"), "seven");
  drive_key (GDK_KEY_Tab, 0);
  entry = entry_of ("Face width");
  DRIVE_UNTIL (gtk_widget_has_css_class (entry, "error"));
  g_assert_cmpstr (text_of ("Face width"), ==, "seven");
  g_assert_cmpstr (tw_field_editor_trouble (editor_of ("Face width")), ==, says);
  gtk_test_accessible_assert_state (entry, GTK_ACCESSIBLE_STATE_INVALID, GTK_ACCESSIBLE_INVALID_TRUE);
  told = drive_description (entry);
  g_assert_true (g_str_has_prefix (told, says));
  drive_picture (GTK_WIDGET (window), "form-bad");

  choose (TW_KIND_TANK, 0);
  choose (TW_KIND_CORE, 0);
  g_assert_cmpstr (text_of ("Face width"), ==, "seven");
  g_assert_true (gtk_widget_has_css_class (entry_of ("Face width"), "error"));
  after = job_text ();
  g_assert_cmpstr (after, ==, before);

  gtk_widget_grab_focus (entry_of ("Face width"));
  drive_key (GDK_KEY_Escape, 0);
  DRIVE_UNTIL (!gtk_widget_has_css_class (entry_of ("Face width"), "error"));
  g_assert_cmpstr (text_of ("Face width"), ==, "700 mm");
  choose (TW_KIND_TANK, 0);
  choose (TW_KIND_CORE, 0);
  g_assert_cmpstr (text_of ("Face width"), ==, "700 mm");
}

/* What is typed is forgotten by the entry's menu or by emptying it; then it is assumed, and says so. */
static void
test_forget (void)
{
  g_autofree char *before = NULL, *after = NULL;

  open_sample ();
  choose (TW_KIND_BAFFLE, 0);
  before = job_text ();
  fill ("Thickness", "3");
  g_assert_null (tw_field_editor_note (editor_of ("Thickness")));
  g_assert_true (gtk_widget_activate_action (entry_of ("Thickness"), "field.forget", NULL));
  settle_frames ();
  g_assert_true (isnan (figure (TW_KIND_BAFFLE, 0, TW_BAFFLE_thickness_mm)));
  g_assert_cmpstr (text_of ("Thickness"), ==, "");
  g_assert_cmpstr (tw_field_editor_note (editor_of ("Thickness")), ==,
                   "assumed: from the parts that it belongs to");
  g_assert_false (tw_field_editor_can_forget (editor_of ("Thickness")));
  fill ("Thickness", "4");
  put (entry_of ("Thickness"), "");
  drive_key (GDK_KEY_Return, 0);
  settle_frames ();
  g_assert_true (isnan (figure (TW_KIND_BAFFLE, 0, TW_BAFFLE_thickness_mm)));
  undo_all ();
  after = job_text ();
  g_assert_cmpstr (after, ==, before);
}

/* The button beside a catalogue field opens its list; a row puts its name in. */
static void
test_catalogue (void)
{
  GtkWidget *button, *row;
  const TwCore *core;

  open_sample ();
  choose (TW_KIND_CORE, 0);
  button = drive_find (form (), GTK_TYPE_MENU_BUTTON, "What the catalogue has");
  gtk_menu_button_popup (GTK_MENU_BUTTON (button));
  settle_frames ();
  row = drive_find (GTK_WIDGET (gtk_menu_button_get_popover (GTK_MENU_BUTTON (button))),
                    GTK_TYPE_LIST_BOX_ROW, "single-row-coarse");
  gtk_widget_grab_focus (row);
  drive_key (GDK_KEY_Return, 0);
  settle_frames ();
  core = (const TwCore *)tw_job_get (tw_session_job (session ()), TW_KIND_CORE, 0);
  g_assert_cmpstr (core->core_kind, ==, text_of ("Kind of core"));
  g_assert_cmpstr (core->core_kind, ==, "single-row-coarse");
}

/* --- lists ------------------------------------------------------------------------------------------------
 */

static const char square[] = "{\"tankwright-job\": 1, \"volumes\": [{\"id\": \"bay\", \"use\": \"free\", "
                             "\"from_mm\": 0, \"to_mm\": 300,"
                             " \"outline\": [{\"id\": \"a\", \"across_mm\": 0, \"up_mm\": 0}, {\"id\": "
                             "\"b\", \"across_mm\": 400, \"up_mm\": 0},"
                             " {\"id\": \"c\", \"across_mm\": 400, \"up_mm\": 300}, {\"id\": \"d\", "
                             "\"across_mm\": 0, \"up_mm\": 300}]}]}";

static GPtrArray *
outline (void)
{
  return ((const TwVolume *)tw_job_get (tw_session_job (session ()), TW_KIND_VOLUME, 0))->outline;
}

static double
across_mm (guint nth)
{
  return TW_ELEMENT (outline (), TwOutlineCorner, nth)->across_mm;
}

static void
press (const char *button)
{
  GtkWidget *found = drive_find (form (), GTK_TYPE_BUTTON, button);

  g_assert_nonnull (found);
  gtk_widget_grab_focus (found); /* rolls it into sight */
  settle_frames ();
  drive_click (found);
  settle_frames ();
}

static gboolean
has_focus (const char *label)
{
  return (gtk_widget_get_state_flags (entry_of (label)) & GTK_STATE_FLAG_FOCUS_WITHIN) != 0;
}

static void
test_list (void)
{
  g_autofree char *before = NULL, *after = NULL;

  open_text (square);
  before = job_text ();
  choose (TW_KIND_VOLUME, 0);
  fill ("corner 2, Across", "500");
  g_assert_cmpfloat (across_mm (1), ==, 500);
  DRIVE_UNTIL (g_str_equal (tw_session_element (session ()).text, "b"));

  drive_key (GDK_KEY_Tab, 0);
  DRIVE_UNTIL (has_focus ("corner 2, Up"));
  drive_key (GDK_KEY_Down, 0);
  DRIVE_UNTIL (has_focus ("corner 3, Up"));
  DRIVE_UNTIL (g_str_equal (tw_session_element (session ()).text, "c"));

  drive_key (GDK_KEY_Return, GDK_CONTROL_MASK); /* between (400, 300) and (0, 300) */
  DRIVE_UNTIL (outline ()->len == 5 && across_mm (3) == 200);
  DRIVE_UNTIL (has_focus ("corner 4, Across"));
  drive_key (GDK_KEY_Return, GDK_CONTROL_MASK | GDK_SHIFT_MASK); /* between (400, 300) and (200, 300) */
  DRIVE_UNTIL (outline ()->len == 6 && across_mm (3) == 300);
  settle_frames ();
  drive_picture (GTK_WIDGET (window), "form-list");
  drive_key (GDK_KEY_Delete, GDK_CONTROL_MASK);
  DRIVE_UNTIL (outline ()->len == 5 && across_mm (3) == 200);
  DRIVE_UNTIL (has_focus ("corner 4, Across"));
  undo_all ();
  after = job_text ();
  g_assert_cmpstr (after, ==, before);
}

/* Whether a label under @root that is shown has @words. */
static gboolean
form_says (GtkWidget *root, const char *words)
{
  gboolean says = GTK_IS_LABEL (root) && gtk_widget_get_mapped (root)
                  && strstr (gtk_label_get_text (GTK_LABEL (root)), words) != NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL && !says;
       child = gtk_widget_get_next_sibling (child))
    says = form_says (child, words);
  return says;
}

/* What would make the outline cross itself is refused in words; a bad text in a row is marked and kept. */
static void
test_list_refuses (void)
{
  g_autofree char *before = NULL, *after = NULL;
  GtkWidget *entry;

  open_text (square);
  before = job_text ();
  choose (TW_KIND_VOLUME, 0);
  gtk_widget_grab_focus (entry_of ("corner 1, Across"));
  settle_frames ();
  press ("Move down");
  drive_picture (GTK_WIDGET (window), "form-refused");
  g_assert_true (form_says (form (), "crosses"));
  entry = entry_of ("corner 3, Up");
  put (entry, "high");
  drive_key (GDK_KEY_Up, 0);
  DRIVE_UNTIL (gtk_widget_has_css_class (entry, "error"));
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry)), ==, "high");
  after = job_text ();
  g_assert_cmpstr (after, ==, before);
}

/* Corners on a circle of 2 m. (transfer full) */
static char *
many_corners (guint n)
{
  GString *text = g_string_new ("{\"tankwright-job\": 1, \"volumes\": [{\"id\": \"bay\", \"use\": \"free\", "
                                "\"from_mm\": 0, \"to_mm\": 300, \"outline\": [");

  for (guint i = 0; i < n; i++) {
    char across[G_ASCII_DTOSTR_BUF_SIZE], up[G_ASCII_DTOSTR_BUF_SIZE];

    g_ascii_formatd (across, sizeof across, "%.6f", 2000 * cos (2 * G_PI * i / n));
    g_ascii_formatd (up, sizeof up, "%.6f", 2000 * sin (2 * G_PI * i / n));
    g_string_append_printf (text, "%s{\"id\": \"c-%u\", \"across_mm\": %s, \"up_mm\": %s}", i > 0 ? "," : "",
                            i, across, up);
  }
  g_string_append (text, "]}]}");
  return g_string_free (text, FALSE);
}

static guint
count_rows (GtkWidget *root)
{
  guint n = TW_IS_ELEMENT_ROW (root) ? 1 : 0;

  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    n += count_rows (child);
  return n;
}

/* Two thousand corners are pages of a few rows; Tab, the arrows and a chosen corner turn them. */
static void
test_many (void)
{
  g_autofree char *text = many_corners (2000);
  TwId bay, last;
  gint64 start;

  open_text (text);
  start = g_get_monotonic_time ();
  choose (TW_KIND_VOLUME, 0);
  g_test_message ("form of 2000 corners: %.1f ms", (double)(g_get_monotonic_time () - start) / 1e3);
  g_assert_cmpuint (count_rows (form ()), <=, 20);
  gtk_widget_grab_focus (entry_of ("corner 12, Bow of the edge that follows"));
  drive_key (GDK_KEY_Tab, 0);
  DRIVE_UNTIL (has_focus ("corner 13, Across"));
  drive_key (GDK_KEY_Up, 0);
  DRIVE_UNTIL (has_focus ("corner 12, Across"));
  press ("Later rows");
  g_assert_cmpuint (count_rows (form ()), <=, 20);
  g_assert_true (tw_id_from_text ("bay", &bay) && tw_id_from_text ("c-1999", &last));
  tw_session_choose_element (session (), bay, last);
  settle_frames ();
  g_assert_nonnull (entry_of ("corner 2000, Across"));
  drive_picture (GTK_WIDGET (window), "form-many");
}

/* --- several parts ----------------------------------------------------------------------------------------
 */

static void
test_several (void)
{
  g_autofree char *before = NULL, *after = NULL, *undo = NULL;
  TwId fans[2];

  open_sample ();
  before = job_text ();
  for (guint i = 0; i < 2; i++)
    fans[i] = tw_job_get (tw_session_job (session ()), TW_KIND_FAN, i)->id;
  tw_session_choose (session (), fans, 2);
  settle_frames ();
  g_assert_cmpstr (text_of ("Centre, across"), ==, "");
  g_assert_cmpstr (gtk_entry_get_placeholder_text (GTK_ENTRY (entry_of ("Centre, across"))), ==,
                   "several values");
  g_assert_cmpstr (text_of ("Swept diameter"), !=, "");
  drive_picture (GTK_WIDGET (window), "form-several");
  fill ("Swept diameter", "250");
  for (guint i = 0; i < 2; i++)
    g_assert_cmpfloat (figure (TW_KIND_FAN, i, TW_FAN_swept_mm), ==, 250);
  g_object_get (session (), "undo-label", &undo, NULL);
  g_assert_cmpstr (undo, ==, "Swept diameter of 2 parts");
  drive_key (GDK_KEY_z, GDK_CONTROL_MASK);
  DRIVE_UNTIL (!tw_history_can_undo (tw_session_history (session ())));
  after = job_text ();
  g_assert_cmpstr (after, ==, before);

  fans[1] = tw_job_get (tw_session_job (session ()), TW_KIND_CORE, 0)->id;
  tw_session_choose (session (), fans, 2);
  settle_frames ();
  g_assert_null (drive_find (form (), GTK_TYPE_ENTRY, NULL));
  drive_picture (GTK_WIDGET (window), "form-kinds");
}

/* --- units ------------------------------------------------------------------------------------------------
 */

/* The text of the job without the two lines that say how lengths are shown. (transfer full) */
static char *
without_style (const char *text)
{
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);
  GString *rest = g_string_new (NULL);

  for (guint i = 0; lines[i] != NULL; i++)
    if (strstr (lines[i], "\"shown_in\"") == NULL && strstr (lines[i], "\"inch_figures\"") == NULL)
      g_string_append_printf (rest, "%s\n", lines[i]);
  return g_string_free (rest, FALSE);
}

/* 24 1/2 in = 622.3 mm; 318 mm = 12.5197 in, which no ruler has. */
static void
test_units (void)
{
  static const struct {
    const char *how, *typed, *other;
  } cases[] = {
    { "fractions", "24 1/2 in", "12.520 in" },
    { "decimals", "24 1/2 in", "12.520 in" },
    { "mm", "24 1/2", "318 mm" },
    { "fractions", "24 1/2 in", "12.520 in" },
  };
  g_autofree char *before = NULL, *bare = NULL, *after = NULL;

  open_sample ();
  choose (TW_KIND_CORE, 0);
  fill ("Face width", "24 1/2");
  before = job_text ();
  bare = without_style (before);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *now = NULL, *now_bare = NULL;

    lengths (cases[i].how);
    g_test_message ("%s", cases[i].how);
    now = job_text ();
    now_bare = without_style (now);
    g_assert_cmpstr (now_bare, ==, bare);
    g_assert_cmpstr (text_of ("Face width"), ==, cases[i].typed);
    g_assert_cmpstr (text_of ("Face height"), ==, cases[i].other);
    drive_picture (GTK_WIDGET (window), cases[i].how);
  }
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    drive_key (GDK_KEY_z, GDK_CONTROL_MASK);
  settle_frames ();
  after = job_text ();
  g_assert_cmpstr (after, ==, before);
}

static void
add_tests (void)
{
  g_test_add_func ("/window/form/every-field-has-a-group", test_every_field_has_a_group);
  g_test_add_func ("/window/form/forms", test_forms);
  g_test_add_func ("/window/form/dash-size", test_dash_size);
  g_test_add_func ("/window/form/bad-text", test_bad_text);
  g_test_add_func ("/window/form/forget", test_forget);
  g_test_add_func ("/window/form/catalogue", test_catalogue);
  g_test_add_func ("/window/form/list", test_list);
  g_test_add_func ("/window/form/list-refuses", test_list_refuses);
  g_test_add_func ("/window/form/many", test_many);
  g_test_add_func ("/window/form/several", test_several);
  g_test_add_func ("/window/form/units", test_units);
}

static int result;

static void
run_cb (AdwApplication *application)
{
  g_application_hold (G_APPLICATION (application));
  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", FALSE, NULL);
  window = drive_window (application, 1280, 760);
  result = g_test_run ();
  gtk_window_destroy (GTK_WINDOW (window));
  g_application_release (G_APPLICATION (application));
}

int
main (int argc, char **argv)
{
  g_autoptr (AdwApplication) application = NULL;

  g_test_init (&argc, &argv, NULL);
  add_tests ();
  application = tw_application_new (G_APPLICATION_NON_UNIQUE);
  g_signal_connect (application, "activate", G_CALLBACK (run_cb), NULL);
  g_application_run (G_APPLICATION (application), 1, argv);
  return result;
}
