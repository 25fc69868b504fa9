/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/samples.h"

#include "base/data.h"
#include "job/read.h"

#include <string.h>

#define ENDING ".twjob"

struct _TwSamples {
  GPtrArray *list;        /* of TwSample */
  TwCatalogue *catalogue; /* NULL until an answer is asked for */
};

static void
free_sample (gpointer data)
{
  TwSample *self = data;

  g_free (self->path);
  g_free (self->stem);
  g_free (self->name);
  g_free (self->note);
  g_clear_pointer (&self->answer, tw_answer_unref);
  g_free (self);
}

static void
free_samples (gpointer data)
{
  TwSamples *self = data;

  g_ptr_array_unref (self->list);
  g_clear_pointer (&self->catalogue, tw_catalogue_free);
  g_free (self);
}

/* Installed they lie in the data folder, in the source tree beside it. */
static char *
find_folder (void)
{
  g_autofree char *inside = tw_data_find_shipped ("samples/README.md", NULL);
  g_autofree char *beside = inside ? NULL : tw_data_find_shipped ("../samples/README.md", NULL);

  if (inside == NULL && beside == NULL)
    return NULL;
  return g_path_get_dirname (inside ? inside : beside);
}

/* Up to the first full stop that ends a sentence, else the first line. */
static char *
first_sentence (const char *text)
{
  gsize line;
  const char *stop;

  if (text == NULL || text[0] == '\0')
    return NULL;
  line = strcspn (text, "\n");
  stop = g_strstr_len (text, (gssize)line, ". ");
  return g_strndup (text, stop ? (gsize)(stop + 1 - text) : line);
}

static TwSample *
read_sample (const char *folder, const char *file)
{
  g_autofree char *path = g_build_filename (folder, file, NULL);
  g_autoptr (TwJob) job = tw_job_read_file (path, NULL);
  const TwSettings *settings;
  TwSample *self;

  if (job == NULL)
    return NULL;
  settings = tw_job_settings (job);
  self = g_new0 (TwSample, 1);
  self->name = g_strdup (settings->name && settings->name[0] ? settings->name : file);
  self->note = first_sentence (settings->note);
  self->stem = g_strndup (file, strlen (file) - strlen (ENDING));
  self->path = g_steal_pointer (&path);
  return self;
}

static int
by_path (gconstpointer a, gconstpointer b)
{
  const TwSample *x = *(TwSample *const *)a, *y = *(TwSample *const *)b;

  return strcmp (x->path, y->path);
}

static GPtrArray *
read_all (void)
{
  GPtrArray *list = g_ptr_array_new_with_free_func (free_sample);
  g_autofree char *folder = find_folder ();
  g_autoptr (GDir) dir = folder ? g_dir_open (folder, 0, NULL) : NULL;
  const char *file;

  while (dir != NULL && (file = g_dir_read_name (dir)) != NULL) {
    TwSample *sample = g_str_has_suffix (file, ENDING) ? read_sample (folder, file) : NULL;

    if (sample != NULL)
      g_ptr_array_add (list, sample);
  }
  g_ptr_array_sort (list, by_path);
  return list;
}

TwSamples *
tw_samples_of (GApplication *application)
{
  TwSamples *self = g_object_get_data (G_OBJECT (application), "tw-samples");

  if (self != NULL)
    return self;
  self = g_new0 (TwSamples, 1);
  self->list = read_all ();
  g_object_set_data_full (G_OBJECT (application), "tw-samples", self, free_samples);
  return self;
}

guint
tw_samples_count (const TwSamples *self)
{
  return self->list->len;
}

const TwSample *
tw_samples_get (const TwSamples *self, guint nth)
{
  g_assert (nth < self->list->len);
  return g_ptr_array_index (self->list, nth);
}

const TwSample *
tw_samples_find (const TwSamples *self, const char *stem)
{
  for (guint i = 0; i < self->list->len; i++) {
    const TwSample *sample = g_ptr_array_index (self->list, i);

    if (g_str_equal (sample->stem, stem))
      return sample;
  }
  return NULL;
}

const TwAnswer *
tw_samples_answer (TwSamples *self, const TwSample *sample)
{
  guint nth;
  g_autoptr (TwJob) job = NULL;
  TwSample *own;

  if (!g_ptr_array_find (self->list, sample, &nth))
    g_assert_not_reached ();
  own = g_ptr_array_index (self->list, nth);
  if (own->answer != NULL)
    return own->answer;
  if (self->catalogue == NULL)
    self->catalogue = tw_catalogue_load (NULL);
  job = self->catalogue ? tw_job_read_file (own->path, NULL) : NULL;
  if (job != NULL)
    own->answer = tw_answer_new (job, self->catalogue, NULL);
  return own->answer;
}
