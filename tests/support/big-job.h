/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * big-job.h - a job as large as a patient person might draw, the same each time
 */
#pragma once

#include "job/job.h"

G_BEGIN_DECLS

/**
 * tw_big_job:
 * @n_tubes: of its one core, 20 to 400
 * @n_parts: of all kinds together, at least 60
 *
 * A core of upright tubes with two tanks, four baffles, sixteen ports, five fans in a shroud, six hoses from
 * ports of an engine; what is left of @n_parts are taken volumes in all planes, one in four before the face.
 * Mostly as a bench would build it: what is large here is the number of things.
 *
 * Returns: (transfer full)
 */
TwJob *tw_big_job (guint n_tubes, guint n_parts) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
