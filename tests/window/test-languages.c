/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * test-languages.c - the window in a language of which every word is two fifths longer, in all states, at the
 * sizes and letters that people have, from left and from right, light and dark
 *
 * The language is that of the environment's LANGUAGE; TW_LOCALE names the folder that holds it. In the
 * made-up language qps whatever is not translated is found as well.
 */
#include "app/application.h"
#include "drive.h"
#include "job/change.h"
#include "job/read.h"
#include "look.h"

#include <glib/gi18n-lib.h>
#include <locale.h>
#include <string.h>

#define DOTS_PER_INCH 96

static AdwApplication *program;
static TwWindow *window;
static GPtrArray *names; /* told as they are in any language */

/* --- states -----------------------------------------------------------------------------------------------
 */

static void
settle (GtkWidget *root)
{
  for (guint i = 0; i < 5; i++)
    drive_frame (root);
}

/* The longest first: one may be a part of another. */
static int
by_length (gconstpointer a, gconstpointer b)
{
  return (int)strlen (*(const char *const *)b) - (int)strlen (*(const char *const *)a);
}

static void
judge (GtkWidget *root, LookAspects aspects, const char *circumstance, const char *state)
{
  g_autofree char *when = g_strdup_printf ("%s, %s", circumstance, state);

  settle (root);
  g_ptr_array_sort (names, by_length);
  look_tell (look_judge (root, aspects), when);
  if (g_strcmp0 (g_getenv ("LANGUAGE"), "qps") == 0)
    look_tell (look_foreign (root, names), when);
}

/* Whole, and its first sentence, which may stand by itself. */
static void
take_text (const char *text)
{
  const char *end = strstr (text, ". ");

  g_ptr_array_add (names, g_strdup (text));
  if (end != NULL)
    g_ptr_array_add (names, g_strndup (text, (gsize)(end - text) + 1));
}

/* Everything that a person wrote into the job. */
static void
take_names (const TwPart *part)
{
  const TwKindInfo *info = tw_kind_info (part->kind);

  for (guint i = 0; i < info->n_fields; i++) {
    TwValue value = tw_part_get (part, i);

    if (info->fields[i].store == TW_FIELD_TEXT && value.text != NULL && value.text[0] != '\0')
      take_text (value.text);
    tw_value_clear (&value);
  }
}

/* What stands on the start page: names and notes of all samples. */
static void
take_samples (void)
{
  g_autofree char *folder = g_test_build_filename (G_TEST_DIST, "..", "samples", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL) {
    g_autofree char *path = g_build_filename (folder, name, NULL);
    g_autoptr (TwJob) job = g_str_has_suffix (name, ".twjob") ? tw_job_read_file (path, NULL) : NULL;

    if (job != NULL)
      take_names ((const TwPart *)tw_job_settings (job));
  }
}

static void
open_sample (const char *name)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "..", "samples", name, NULL);
  g_autoptr (GError) error = NULL;
  const TwJob *job;

  tw_session_open (tw_window_session (window), path, &error);
  g_assert_no_error (error);
  job = tw_session_job (tw_window_session (window));
  g_ptr_array_set_size (names, 0);
  g_ptr_array_add (names, g_strdup (name));
  take_names ((const TwPart *)tw_job_settings (job));
  for (guint kind = TW_KIND_SETTINGS + 1; kind < TW_FIRST_ELEMENT; kind++)
    for (guint i = 0; i < tw_job_count (job, kind); i++)
      take_names (tw_job_get (job, kind, i));
}

static void
judge_views (LookAspects aspects, const char *circumstance)
{
  static const char *const views[] = { "Face", "Front", "Side", "Plan" };

  for (TwView view = 0; view < TW_N_VIEWS; view++) {
    tw_session_set_view (tw_window_session (window), view);
    judge (GTK_WIDGET (window), aspects, circumstance, views[view]);
  }
  tw_session_set_view (tw_window_session (window), TW_VIEW_FACE);
}

/* The form of the first part of each kind. */
static void
judge_forms (LookAspects aspects, const char *circumstance)
{
  TwSession *session = tw_window_session (window);
  const TwJob *job = tw_session_job (session);

  for (guint kind = TW_KIND_SETTINGS + 1; kind < TW_FIRST_ELEMENT; kind++) {
    g_autofree char *state = NULL;

    if (tw_job_count (job, kind) == 0)
      continue;
    state = g_strdup_printf ("form of %s", tw_kind_info (kind)->noun);
    tw_session_select (session, tw_job_get (job, kind, 0)->id);
    judge (GTK_WIDGET (window), aspects, circumstance, state);
  }
  tw_session_select (session, TW_ID_NONE);
}

static void
open_all (GtkWidget *widget, gboolean open)
{
  if (GTK_IS_EXPANDER (widget))
    gtk_expander_set_expanded (GTK_EXPANDER (widget), open);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    open_all (child, open);
}

static void
judge_cards (LookAspects aspects, const char *circumstance)
{
  open_all (GTK_WIDGET (window), TRUE);
  judge (GTK_WIDGET (window), aspects, circumstance, "all cards open");
  open_all (GTK_WIDGET (window), FALSE);
}

static void
judge_start (LookAspects aspects, const char *circumstance, int width, int height)
{
  TwWindow *other = tw_window_new (program);

  take_samples ();
  gtk_window_set_default_size (GTK_WINDOW (other), width, height);
  gtk_window_present (GTK_WINDOW (other));
  DRIVE_UNTIL (gtk_widget_get_mapped (GTK_WIDGET (other)));
  judge (GTK_WIDGET (other), aspects, circumstance, "start page");
  gtk_window_destroy (GTK_WINDOW (other));
}

/* --- dialogs ----------------------------------------------------------------------------------------------
 */

static GtkWidget *
newest_other (void)
{
  g_autoptr (GList) all = gtk_window_list_toplevels ();

  for (GList *at = all; at != NULL; at = at->next)
    if (gtk_widget_get_mapped (at->data) && at->data != (gpointer)window)
      return at->data;
  return NULL;
}

static void
judge_dialog (const char *action, LookAspects aspects, const char *circumstance)
{
  GtkWidget *dialog;

  gtk_widget_activate_action (GTK_WIDGET (window), action, NULL);
  DRIVE_UNTIL (newest_other () != NULL);
  dialog = newest_other ();
  judge (dialog, aspects, circumstance, action);
  gtk_window_close (GTK_WINDOW (dialog));
  DRIVE_UNTIL (newest_other () == NULL);
}

static void
judge_dialogs (LookAspects aspects, const char *circumstance)
{
  TwSession *session = tw_window_session (window);
  TwId core = tw_job_get (tw_session_job (session), TW_KIND_CORE, 0)->id;
  TwValue width = tw_value_number (690);

  judge_dialog ("win.new-layout", aspects, circumstance);
  tw_session_do (session, tw_change_set (core, TW_ID_NONE, TW_CORE_face_width_mm, &width), NULL);
  judge_dialog ("win.close", aspects & ~LOOK_OVERLAP, circumstance); /* its buttons exist in two layouts */
  tw_session_undo (session);
}

/* --- circumstances ----------------------------------------------------------------------------------------
 */

typedef struct {
  const char *name;
  int width, height; /* px */
  double letters;    /* dimensionless: of the platform's size */
  GtkTextDirection direction;
  AdwColorScheme scheme;
  LookAspects aspects;
} Circumstance;

#define STRUCTURE (LOOK_ALL & ~LOOK_CONTRAST)
#define LTR GTK_TEXT_DIR_LTR
#define RTL GTK_TEXT_DIR_RTL

static const Circumstance circumstances[] = {
  { "laptop", 1366, 768, 1.0, LTR, ADW_COLOR_SCHEME_FORCE_LIGHT, LOOK_ALL },
  { "laptop-dark", 1366, 768, 1.0, LTR, ADW_COLOR_SCHEME_FORCE_DARK, LOOK_ALL },
  { "laptop-large-letters", 1366, 768, 1.25, LTR, ADW_COLOR_SCHEME_FORCE_LIGHT, STRUCTURE },
  { "laptop-from-right", 1366, 768, 1.0, RTL, ADW_COLOR_SCHEME_FORCE_LIGHT, STRUCTURE },
  { "small", 1000, 640, 1.0, LTR, ADW_COLOR_SCHEME_FORCE_LIGHT, STRUCTURE },
  { "small-from-right", 1000, 640, 1.0, RTL, ADW_COLOR_SCHEME_FORCE_LIGHT, STRUCTURE },
  { "small-large-letters", 1000, 640, 1.25, LTR, ADW_COLOR_SCHEME_FORCE_LIGHT, STRUCTURE },
};

static void
set_up (const Circumstance *c)
{
  g_object_set (gtk_settings_get_default (), "gtk-xft-dpi", (int)(DOTS_PER_INCH * 1024 * c->letters), NULL);
  gtk_widget_set_default_direction (c->direction);
  adw_style_manager_set_color_scheme (adw_style_manager_get_default (), c->scheme);
  gtk_window_set_default_size (GTK_WINDOW (window), c->width, c->height);
  settle (GTK_WIDGET (window));
}

static void
test_circumstance (gconstpointer data)
{
  const Circumstance *c = data;
  const char *language = g_getenv ("LANGUAGE");
  g_autofree char *picture = g_strdup_printf ("language-%s-%s", language ? language : "none", c->name);

  open_sample ("merlin-tail.twjob");
  set_up (c);
  judge_views (c->aspects, c->name);
  judge_forms (c->aspects, c->name);
  drive_picture (GTK_WIDGET (window), picture);
  judge_cards (c->aspects, c->name);
  judge_dialogs (c->aspects, c->name);
  open_sample ("caravan-4.twjob");
  judge_views (c->aspects, c->name);
  judge_start (c->aspects, c->name, c->width, c->height);
}

static int result;

static void
run_cb (AdwApplication *application)
{
  g_application_hold (G_APPLICATION (application));
  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", FALSE, NULL);
  window = drive_window (application, 1366, 768);
  result = g_test_run ();
  gtk_window_destroy (GTK_WINDOW (window));
  g_application_release (G_APPLICATION (application));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  setlocale (LC_ALL, "");
  if (g_getenv ("TW_LOCALE") != NULL)
    bindtextdomain (GETTEXT_PACKAGE, g_getenv ("TW_LOCALE"));
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
  for (guint i = 0; i < G_N_ELEMENTS (circumstances); i++) {
    g_autofree char *path = g_strconcat ("/languages/", circumstances[i].name, NULL);

    g_test_add_data_func (path, &circumstances[i], test_circumstance);
  }
  names = g_ptr_array_new_with_free_func (g_free);
  program = tw_application_new (G_APPLICATION_NON_UNIQUE);
  g_signal_connect (program, "activate", G_CALLBACK (run_cb), NULL);
  g_application_run (G_APPLICATION (program), 1, argv);
  g_ptr_array_unref (names);
  g_clear_object (&program);
  return result;
}
