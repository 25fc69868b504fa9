/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "times.h"

#include <stdlib.h>
#include <time.h>

double
times_cpu_ms (void)
{
  struct timespec now;

  clock_gettime (CLOCK_PROCESS_CPUTIME_ID, &now);
  return (double)now.tv_sec * 1e3 + (double)now.tv_nsec / 1e6;
}

static int
by_value (const void *a, const void *b)
{
  double x = *(const double *)a, y = *(const double *)b;

  return x < y ? -1 : x > y;
}

double
times_median (double *values, guint n)
{
  qsort (values, n, sizeof *values, by_value);
  return values[n / 2];
}
