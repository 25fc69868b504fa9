/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * test-files.c - files in the real window: others that change them, what is wrong in them, recent ones, parts
 * through the clipboard
 *
 * One window; every test opens the tail sample afresh from a copy of its own.
 */
#include "app/application.h"
#include "app/canvas.h"
#include "app/recent.h"
#include "app/recovery.h"
#include "app/trouble-list.h"
#include "drive.h"
#include "job/pieces.h"
#include "job/read.h"
#include "job/write.h"
#include "look.h"

#include <glib/gstdio.h>
#include <string.h>

static AdwApplication *program;
static TwWindow *window;
static char *sample; /* copy of the sample, opened by every test */

static TwSession *
session (void)
{
  return tw_window_session (window);
}

static const TwJob *
job (void)
{
  return tw_session_job (session ());
}

static GtkWindow *
toplevel (GType type)
{
  g_autoptr (GList) all = gtk_window_list_toplevels ();

  for (GList *at = all; at != NULL; at = at->next)
    if (g_type_is_a (G_OBJECT_TYPE (at->data), type) && gtk_widget_get_mapped (at->data))
      return at->data;
  return NULL;
}

static GtkWindow *
dialog (void)
{
  return toplevel (ADW_TYPE_MESSAGE_DIALOG);
}

static void
copy_sample (const char *to)
{
  g_autofree char *from = g_test_build_filename (G_TEST_DIST, "..", "samples", "merlin-tail.twjob", NULL);
  g_autofree char *text = NULL;
  gsize length;

  g_assert_true (g_file_get_contents (from, &text, &length, NULL));
  g_assert_true (g_file_set_contents (to, text, (gssize)length, NULL));
}

/* As it was read, in the window, with the drawing in focus. */
static void
open_sample (void)
{
  g_autoptr (GError) error = NULL;

  copy_sample (sample);
  g_assert_true (tw_session_open (session (), sample, &error));
  g_assert_no_error (error);
  gtk_widget_grab_focus (drive_find (GTK_WIDGET (window), TW_TYPE_CANVAS, NULL));
  drive_frame (GTK_WIDGET (window));
  drive_frame (GTK_WIDGET (window));
}

static TwId
first_of (TwKind kind)
{
  return tw_job_get (job (), kind, 0)->id;
}

/* Baffle to a place: a change here. */
static void
move_baffle (double place_mm)
{
  TwValue value = tw_value_number (place_mm);

  g_assert_true (tw_session_do (
      session (), tw_change_set (first_of (TW_KIND_BAFFLE), TW_ID_NONE, TW_BAFFLE_place_mm, &value), NULL));
}

/* Another program writes the file: the core has another name. */
static void
change_elsewhere (void)
{
  g_autoptr (TwJob) other = tw_job_read_file (sample, NULL);
  TwValue name = tw_value_text ("Changed elsewhere");
  g_autoptr (TwChange) change
      = tw_change_set (tw_job_get (other, TW_KIND_CORE, 0)->id, TW_ID_NONE, TW_CORE_name, &name);
  g_autoptr (TwChange) inverse = NULL;

  g_assert_true (tw_change_apply (change, other, &inverse, NULL));
  g_assert_true (tw_job_save (other, sample, NULL));
}

static gboolean
file_says (const char *words)
{
  g_autofree char *text = NULL;

  g_assert_true (g_file_get_contents (sample, &text, NULL, NULL));
  return strstr (text, words) != NULL;
}

static gboolean
toast_says (const char *words)
{
  GtkWidget *toasts = drive_find (GTK_WIDGET (window), ADW_TYPE_TOAST_OVERLAY, NULL), *at;

  for (at = gtk_widget_get_last_child (toasts); at != NULL; at = gtk_widget_get_prev_sibling (at)) {
    GtkWidget *label = drive_find (at, GTK_TYPE_LABEL, NULL);

    if (label != NULL && strstr (gtk_label_get_label (GTK_LABEL (label)), words) != NULL)
      return TRUE;
  }
  return FALSE;
}

static void
press_button (GtkWindow *over, const char *name)
{
  GtkWidget *button = drive_find (GTK_WIDGET (over), GTK_TYPE_BUTTON, name);

  if (button == NULL)
    g_error ("there is no button \"%s\"", name);
  drive_click (button);
}

/* --- two on one file ------------------------------------------------------------------------------------ */

static void
ask_conflict (void)
{
  open_sample ();
  move_baffle (-15);
  change_elsewhere ();
  drive_key (GDK_KEY_s, GDK_CONTROL_MASK);
  DRIVE_UNTIL (dialog () != NULL);
  drive_frame (GTK_WIDGET (dialog ()));
}

static void
test_conflict_cancel (void)
{
  ask_conflict ();
  {
    /* The toolkit holds its buttons twice, in a row and in a column; only one of them is seen. */
    g_autoptr (GPtrArray) faults = look_judge (GTK_WIDGET (dialog ()), LOOK_NAMES | LOOK_CONTRAST);

    g_assert_cmpuint (faults->len, ==, 0);
  }
  drive_picture (GTK_WIDGET (dialog ()), "conflict");
  g_assert_nonnull (strstr (adw_message_dialog_get_body (ADW_MESSAGE_DIALOG (dialog ())), "2 parts differ"));
  drive_key (GDK_KEY_Escape, 0);
  DRIVE_UNTIL (dialog () == NULL);
  g_assert_true (file_says ("Changed elsewhere"));
  g_assert_true (tw_session_is_modified (session ()));
}

static void
test_conflict_overwrite (void)
{
  ask_conflict ();
  drive_key (GDK_KEY_o, GDK_ALT_MASK);
  DRIVE_UNTIL (!tw_session_is_modified (session ()));
  g_assert_false (file_says ("Changed elsewhere"));
  g_assert_true (file_says ("-15"));
  /* What it wrote itself is no surprise to it. */
  move_baffle (-25);
  drive_key (GDK_KEY_s, GDK_CONTROL_MASK);
  DRIVE_UNTIL (!tw_session_is_modified (session ()));
  g_assert_null (dialog ());
}

static void
test_conflict_reload (void)
{
  ask_conflict ();
  drive_key (GDK_KEY_r, GDK_ALT_MASK);
  DRIVE_UNTIL (!tw_session_is_modified (session ()));
  g_assert_true (file_says ("Changed elsewhere"));
  g_assert_cmpstr (tw_part_name (tw_job_get (job (), TW_KIND_CORE, 0)), ==, "Changed elsewhere");
}

/* Without changes here it is only said, and one press takes what the file holds. */
static void
test_told_of_change (void)
{
  open_sample ();
  tw_window_say (window, "Nothing");
  DRIVE_UNTIL (!toast_says ("has changed"));
  change_elsewhere ();
  DRIVE_UNTIL (toast_says ("has changed on disk."));
  press_button (GTK_WINDOW (window), "Reload");
  DRIVE_UNTIL (g_str_equal (tw_part_name (tw_job_get (job (), TW_KIND_CORE, 0)), "Changed elsewhere"));
}

/* A file that is gone is written anew without a question. */
static void
test_file_gone (void)
{
  open_sample ();
  move_baffle (-15);
  g_assert_cmpint (g_unlink (sample), ==, 0);
  DRIVE_UNTIL (toast_says ("is not in its folder any more"));
  drive_key (GDK_KEY_s, GDK_CONTROL_MASK);
  DRIVE_UNTIL (!tw_session_is_modified (session ()));
  g_assert_true (file_says ("-15"));
}

/* Opened again it is the same window; also through a link. */
static void
test_same_window (void)
{
  g_autofree char *link = g_strconcat (sample, ".link.twjob", NULL);
  guint n = g_list_length (gtk_application_get_windows (GTK_APPLICATION (program)));

  open_sample ();
  move_baffle (-15);
  g_unlink (link);
  g_assert_cmpint (symlink (sample, link), ==, 0);
  tw_window_open_path (window, sample, FALSE);
  tw_window_open_path (window, link, FALSE);
  g_assert_true (tw_session_is_modified (session ()));
  g_assert_cmpuint (g_list_length (gtk_application_get_windows (GTK_APPLICATION (program))), ==, n);
  g_assert_true (tw_window_with_file (GTK_APPLICATION (program), link) == window);
  g_unlink (link);
}

/* --- what is wrong in a file ---------------------------------------------------------------------------- */

static void
test_trouble_list (void)
{
  static const char text[]
      = "{ \"tankwright-job\": 1, \"cores\": [{ \"id\": \"core-1\", \"face_width_mm\": -7 }, "
        "{ \"id\": \"core-1\", \"face_height_mm\": \"tall\" }], \"tanks\": {} }";
  g_autofree char *bad = g_strconcat (sample, ".bad", NULL), *copied = NULL;
  GtkWidget *list;
  guint n = 0;

  open_sample ();
  g_assert_true (g_file_set_contents (bad, text, -1, NULL));
  gtk_widget_activate_action (GTK_WIDGET (window), "win.open-file", "s", bad);
  DRIVE_UNTIL (toplevel (TW_TYPE_TROUBLE_LIST) != NULL);
  drive_frame (GTK_WIDGET (toplevel (TW_TYPE_TROUBLE_LIST)));
  list = drive_find (GTK_WIDGET (toplevel (TW_TYPE_TROUBLE_LIST)), GTK_TYPE_LIST_BOX, NULL);
  while (gtk_list_box_get_row_at_index (GTK_LIST_BOX (list), (int)n) != NULL)
    n++;
  g_assert_cmpuint (n, ==, 4);
  look_fine (GTK_WIDGET (toplevel (TW_TYPE_TROUBLE_LIST)), "the list of what is wrong in a file");
  drive_picture (GTK_WIDGET (toplevel (TW_TYPE_TROUBLE_LIST)), "troubles");
  press_button (toplevel (TW_TYPE_TROUBLE_LIST), "Copy All");
  DRIVE_UNTIL (drive_find (GTK_WIDGET (toplevel (TW_TYPE_TROUBLE_LIST)), GTK_TYPE_BUTTON, "Copied") != NULL);
  drive_key (GDK_KEY_Escape, 0);
  DRIVE_UNTIL (toplevel (TW_TYPE_TROUBLE_LIST) == NULL);
  g_assert_cmpstr (tw_session_path (session ()), ==, sample);
  g_unlink (bad);
}

/* --- recent files --------------------------------------------------------------------------------------- */

static void
test_recent (void)
{
  g_autofree char *other = g_strconcat (sample, ".recent.twjob", NULL);
  g_autoptr (GPtrArray) list = NULL;
  TwWindow *second;

  open_sample ();
  copy_sample (other);
  tw_window_open_path (window, other, FALSE); /* in another window: this one has a job */
  second = tw_window_with_file (GTK_APPLICATION (program), other);
  g_assert_true (second != NULL && second != window);
  DRIVE_UNTIL (({
    g_clear_pointer (&list, g_ptr_array_unref);
    list = tw_recent_list (3);
    list->len > 0;
  }));
  g_assert_cmpstr (((const TwRecent *)g_ptr_array_index (list, 0))->path, ==, other);
  gtk_window_close (GTK_WINDOW (second));
  DRIVE_UNTIL (tw_window_with_file (GTK_APPLICATION (program), other) == NULL);
  /* A file that is gone is not offered. */
  g_assert_cmpint (g_unlink (other), ==, 0);
  g_clear_pointer (&list, g_ptr_array_unref);
  list = tw_recent_list (3);
  for (guint i = 0; i < list->len; i++)
    g_assert_cmpstr (((const TwRecent *)g_ptr_array_index (list, i))->path, !=, other);
}

/* --- the journal ---------------------------------------------------------------------------------------- */

static guint
count_journals (void)
{
  g_autofree char *folder = tw_journal_folder ();
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  guint n = 0;

  while (dir != NULL && g_dir_read_name (dir) != NULL)
    n++;
  return n;
}

/* There while there are changes in no file; undone ones count as long as they are not saved. */
static void
test_journal_lives (void)
{
  open_sample ();
  g_assert_cmpuint (count_journals (), ==, 0);
  move_baffle (-15);
  g_assert_cmpuint (count_journals (), ==, 1);
  tw_session_undo (session ());
  tw_session_redo (session ());
  g_assert_cmpuint (count_journals (), ==, 1);
  drive_key (GDK_KEY_s, GDK_CONTROL_MASK);
  DRIVE_UNTIL (!tw_session_is_modified (session ()));
  g_assert_cmpuint (count_journals (), ==, 0);
}

/* Where nothing can be kept it is said once, and work goes on. */
static void
test_journal_cannot_be (void)
{
  g_autofree char *folder = tw_journal_folder (), *above = g_path_get_dirname (folder);

  open_sample ();
  g_assert_cmpuint (count_journals (), ==, 0);
  g_rmdir (folder);
  g_rmdir (above);
  g_assert_true (g_file_set_contents (above, "", 0, NULL));
  move_baffle (-15);
  DRIVE_UNTIL (toast_says ("Steps are not kept for a crash"));
  move_baffle (-16);
  g_assert_cmpint (g_unlink (above), ==, 0);
  move_baffle (-17);
  g_assert_cmpuint (count_journals (), ==, 1);
  tw_session_undo (session ());
  open_sample ();
  g_assert_cmpuint (count_journals (), ==, 0);
}

/* A journal that somebody left: the offer, and the job as it was, each step to be undone. */
static void
test_recover (void)
{
  g_autofree char *folder = tw_journal_folder (), *identity = NULL, *before = NULL, *undone = NULL;
  TwJournalAbout about = { sample, NULL };
  g_autoptr (TwJob) left = NULL;
  TwJournal *journal;

  open_sample ();
  before = tw_job_write_text (job ());
  identity = tw_job_identity (job ());
  about.identity = identity;
  left = tw_job_copy (job ());
  journal = tw_journal_start (folder, &about, left, NULL);
  {
    TwValue value = tw_value_number (-33);
    g_autoptr (TwChange) change
        = tw_change_set (first_of (TW_KIND_BAFFLE), TW_ID_NONE, TW_BAFFLE_place_mm, &value),
        inverse = NULL;

    g_assert_true (tw_change_apply (change, left, &inverse, NULL));
  }
  g_assert_true (tw_journal_enter (journal, left, "Move of Baffle", NULL));
  tw_journal_free (journal);

  g_action_group_activate_action (G_ACTION_GROUP (program), "recover", NULL);
  DRIVE_UNTIL (toplevel (TW_TYPE_RECOVERY) != NULL);
  drive_frame (GTK_WIDGET (toplevel (TW_TYPE_RECOVERY)));
  look_fine (GTK_WIDGET (toplevel (TW_TYPE_RECOVERY)), "the offer of unsaved work");
  drive_picture (GTK_WIDGET (toplevel (TW_TYPE_RECOVERY)), "recovery");
  g_assert_nonnull (
      drive_find (GTK_WIDGET (toplevel (TW_TYPE_RECOVERY)), GTK_TYPE_BUTTON, "Recover Merlin, tail"));
  DRIVE_UNTIL (gtk_window_is_active (toplevel (TW_TYPE_RECOVERY)));
  drive_key (GDK_KEY_Return, 0); /* it has the focus */
  DRIVE_UNTIL (toplevel (TW_TYPE_RECOVERY) == NULL);
  g_assert_true (tw_job_equal (job (), left));
  g_assert_true (tw_session_is_modified (session ()));
  g_assert_true (file_says ("-5"));
  tw_session_undo (session ());
  undone = tw_job_write_text (job ());
  g_assert_cmpstr (undone, ==, before);
  g_assert_false (tw_session_is_modified (session ()));
  open_sample ();
  g_assert_cmpuint (count_journals (), ==, 0);
}

/* --- the clipboard -------------------------------------------------------------------------------------- */

static void
test_copy_paste (void)
{
  guint n;

  open_sample ();
  n = tw_job_count (job (), TW_KIND_BAFFLE);
  tw_session_select (session (), first_of (TW_KIND_BAFFLE));
  drive_key (GDK_KEY_c, GDK_CONTROL_MASK);
  drive_key (GDK_KEY_v, GDK_CONTROL_MASK);
  DRIVE_UNTIL (tw_job_count (job (), TW_KIND_BAFFLE) == n + 1);
  g_assert_false (tw_id_equal (tw_session_selection (session ()), first_of (TW_KIND_BAFFLE)));
  g_assert_cmpstr (tw_part_name (tw_job_find (job (), tw_session_selection (session ()))), ==, "Baffle 2");
  tw_session_undo (session ());
  g_assert_cmpuint (tw_job_count (job (), TW_KIND_BAFFLE), ==, n);
}

static void
test_cut_paste (void)
{
  g_autofree char *before = NULL, *after = NULL;
  guint n;

  open_sample ();
  before = tw_job_write_text (job ());
  n = tw_job_count (job (), TW_KIND_BAFFLE);
  tw_session_select (session (), first_of (TW_KIND_BAFFLE));
  drive_key (GDK_KEY_x, GDK_CONTROL_MASK);
  DRIVE_UNTIL (tw_job_count (job (), TW_KIND_BAFFLE) == n - 1);
  gtk_widget_grab_focus (drive_find (GTK_WIDGET (window), TW_TYPE_CANVAS, NULL));
  drive_key (GDK_KEY_v, GDK_CONTROL_MASK);
  DRIVE_UNTIL (tw_job_count (job (), TW_KIND_BAFFLE) == n);
  tw_session_undo (session ());
  tw_session_undo (session ());
  after = tw_job_write_text (job ());
  g_assert_cmpstr (before, ==, after);
}

static void
text_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  char **text = data;

  *text = gdk_clipboard_read_text_finish (GDK_CLIPBOARD (source), result, NULL);
}

/* In an entry the usual keys copy the usual text; as text it is no part, and that is said. */
static void
test_entry_copies_text (void)
{
  GtkWidget *entry;
  g_autofree char *text = NULL;

  open_sample ();
  tw_session_select (session (), first_of (TW_KIND_CORE));
  drive_frame (GTK_WIDGET (window));
  entry = drive_find (GTK_WIDGET (window), GTK_TYPE_ENTRY, "Name");
  gtk_widget_grab_focus (entry);
  drive_key (GDK_KEY_a, GDK_CONTROL_MASK);
  drive_key (GDK_KEY_c, GDK_CONTROL_MASK);
  gdk_clipboard_read_text_async (gtk_widget_get_clipboard (entry), NULL, text_cb, &text);
  DRIVE_UNTIL (text != NULL);
  g_assert_cmpstr (text, ==, gtk_editable_get_text (GTK_EDITABLE (entry)));
  gtk_widget_grab_focus (drive_find (GTK_WIDGET (window), TW_TYPE_CANVAS, NULL));
  drive_key (GDK_KEY_v, GDK_CONTROL_MASK);
  DRIVE_UNTIL (toast_says ("no parts of a job"));
  g_assert_false (tw_session_is_modified (session ()));
}

/* --- several windows ------------------------------------------------------------------------------------ */

/* Lets go of a file over the window, as the desktop does. */
static void
drop (const char *path)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (GSList) files = g_slist_prepend (NULL, file);
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (GTK_WIDGET (window));
  g_auto (GValue) value = G_VALUE_INIT;
  gboolean took = FALSE;

  g_value_init (&value, GDK_TYPE_FILE_LIST);
  g_value_set_boxed (&value, files);
  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++) {
    g_autoptr (GObject) one = g_list_model_get_item (controllers, i);

    if (GTK_IS_DROP_TARGET (one))
      g_signal_emit_by_name (one, "drop", &value, 10.0, 10.0, &took);
  }
  g_assert_true (took);
}

/* In this window while nothing in it is unsaved, else in another. Quitting then asks, and one Escape keeps
 * both. */
static void
test_drop_and_quit (void)
{
  g_autofree char *one = g_strconcat (sample, ".one.twjob", NULL),
                  *other = g_strconcat (sample, ".two.twjob", NULL);
  TwWindow *second;

  open_sample ();
  copy_sample (one);
  copy_sample (other);
  drop (one);
  g_assert_cmpstr (tw_session_path (session ()), ==, one);
  move_baffle (-15);
  drop (other);
  g_assert_cmpstr (tw_session_path (session ()), ==, one);
  second = tw_window_with_file (GTK_APPLICATION (program), other);
  g_assert_true (second != NULL && second != window);

  g_action_group_activate_action (G_ACTION_GROUP (program), "quit", NULL);
  DRIVE_UNTIL (dialog () != NULL);
  adw_message_dialog_response (ADW_MESSAGE_DIALOG (dialog ()), "cancel");
  gtk_window_destroy (dialog ());
  DRIVE_UNTIL (dialog () == NULL);
  g_assert_true (gtk_widget_get_mapped (GTK_WIDGET (window)));
  g_assert_true (gtk_widget_get_mapped (GTK_WIDGET (second)));
  g_assert_true (tw_window_wants_answer (window));
  gtk_window_close (GTK_WINDOW (second));
  tw_session_undo (session ());
  g_unlink (one);
  g_unlink (other);
}

static void
add_tests (void)
{
  g_test_add_func ("/files/conflict-cancel", test_conflict_cancel);
  g_test_add_func ("/files/conflict-overwrite", test_conflict_overwrite);
  g_test_add_func ("/files/conflict-reload", test_conflict_reload);
  g_test_add_func ("/files/told-of-change", test_told_of_change);
  g_test_add_func ("/files/file-gone", test_file_gone);
  g_test_add_func ("/files/same-window", test_same_window);
  g_test_add_func ("/files/trouble-list", test_trouble_list);
  g_test_add_func ("/files/journal-lives", test_journal_lives);
  g_test_add_func ("/files/journal-cannot-be", test_journal_cannot_be);
  g_test_add_func ("/files/recover", test_recover);
  g_test_add_func ("/files/copy-paste", test_copy_paste);
  g_test_add_func ("/files/cut-paste", test_cut_paste);
  g_test_add_func ("/files/entry-copies-text", test_entry_copies_text);
  /* Last: without a window manager no window is active after them. */
  g_test_add_func ("/files/recent", test_recent);
  g_test_add_func ("/files/drop-and-quit", test_drop_and_quit);
}

static int result;

static void
run_cb (AdwApplication *application)
{
  g_application_hold (G_APPLICATION (application));
  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", FALSE, NULL);
  program = application;
  window = drive_window (application, 1000, 640);
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
  sample = g_test_build_filename (G_TEST_BUILT, "window", "files.twjob", NULL);
  application = tw_application_new (G_APPLICATION_NON_UNIQUE);
  g_signal_connect (application, "activate", G_CALLBACK (run_cb), NULL);
  g_application_run (G_APPLICATION (application), 1, argv);
  g_free (sample);
  return result;
}
