/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * times.h - clocks and medians of the benchmarks
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Processor time of this process since it began, ms: waiting does not count. */
double times_cpu_ms (void);

/* Median of @n values, of any unit; @n over 0. The values are sorted. */
double times_median (double *values, guint n);

G_END_DECLS
