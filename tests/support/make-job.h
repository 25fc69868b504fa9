/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * make-job.h - jobs for tests: small ones made to measure, and random ones
 *
 * The makers put parts straight into a job, without history. Ids are those that the job gives: the first core
 * is `core-1`, the first tank `tank-1`, and so on in the order in which they are made. Lengths are
 * millimetres, angles degrees.
 */
#pragma once

#include "job/change.h"
#include "job/job.h"

G_BEGIN_DECLS

/* Pitch, outside and width of the tubes that tw_make_job() draws, and the width of their face across. */
#define TW_MAKE_PITCH_MM 10.0
#define TW_MAKE_TUBE_HEIGHT_MM 2.0
#define TW_MAKE_TUBE_WIDTH_MM 40.0
#define TW_MAKE_TUBE_LENGTH_MM 400.0
#define TW_MAKE_THICKNESS_MM 42.0

/**
 * tw_make_job:
 * @tubes: TW_TUBES_LEVEL or TW_TUBES_UPRIGHT
 * @n_tubes: in the one row; the face is n times the pitch, along the header
 *
 * A core `core-1` that is not turned, with the middle of its face at the job's zero, and two tanks over whole
 * sides: `tank-1` left or top, `tank-2` right or bottom; depth 50, wall 2, header plates that reach 5 beyond
 * the face. Every field that the rooms compute from is said, so that nothing of it hangs on the catalogue.
 *
 * Returns: (transfer full)
 */
TwJob *tw_make_job (int tubes, guint n_tubes) G_GNUC_WARN_UNUSED_RESULT;

/* Middle of the gap between tube @after and the next along the header, from the middle of the face; tubes are
 * counted from the top or the left, 1 first. Of the core that tw_make_job() draws. */
double tw_make_gap_mm (const TwJob *job, guint after);

/* A baffle of 2 mm across @tank in the gap after tube @after. */
TwId tw_make_baffle (TwJob *job, const char *tank, guint after);

/* A plain stub, 32 mm outside and 28 mm bore, 40 mm long; in a wall of @tank (TW_WALL_BACK …) at @along_mm
 * from the middle of the face. */
TwId tw_make_port (TwJob *job, const char *tank, int use, int wall, double along_mm);

/* A pulling fan with its centre at u, v and a ring 12 mm wider than what it sweeps, 60 deep, 40 off the core.
 */
TwId tw_make_fan (TwJob *job, double u_mm, double v_mm, double swept_mm, double hub_mm);

/* A sealed box behind the core, plenum 40; flaps are added by the caller. */
TwId tw_make_shroud (TwJob *job, double u_mm, double v_mm, double width_mm, double height_mm);

/* Two opposite corners of a box in the job frame. */
typedef struct {
  double x0_mm, y0_mm, z0_mm, x1_mm, y1_mm, z1_mm;
} TwMakeBox;

/* A volume with its outline in @plane that is that box. @kind is TW_TAKEN_STRUCTURE …, -1 for a free one. */
TwId tw_make_box (TwJob *job, int plane, int kind, const TwMakeBox *box);

/* A round bar along the axis of @plane, as an outline of two corners: middle at across, up. */
TwId tw_make_bar (TwJob *job, int plane, double across_mm, double up_mm, double diameter_mm);

/* A port of the engine at that place, 32 mm outside, 40 mm long; @leaves as TW_LEAVES_AXIS_LEFT …, -1
 * unknown.
 */
TwId tw_make_engine_port (TwJob *job, int use, const double place_mm[3], int leaves);

/* A hose of 28 mm bore and @radius_mm from port to port by @n via-points. */
TwId tw_make_hose (TwJob *job, TwId from, TwId to, guint n, const double (*vias_mm)[3], double radius_mm);

/* A box of a header tank with those sizes and a wall of 2 mm round that middle. */
TwId tw_make_header_tank (TwJob *job, const double middle_mm[3], const double sizes_mm[3]);

/* A rectangle that air comes in by, or goes out by with @kind TW_KIND_EXIT; @place_mm: its middle across and
 * up in @plane (TW_DRAWN_FRONT …), and where it lies along the third axis. */
TwId tw_make_opening (TwJob *job, TwKind kind, int plane, const double place_mm[3], const double sizes_mm[2]);

/* Sets a field of a part by its name, as the command does; an empty text makes it unknown. A text that is
 * refused ends the test. */
void tw_make_set (TwJob *job, const char *part, const char *field, const char *text);
/* The same for a figure, to the last bit. */
void tw_make_set_number (TwJob *job, const char *part, const char *field, double value);

/* Another job with the same settings, parts and unknown members. (transfer full) */
TwJob *tw_make_copy (const TwJob *job) G_GNUC_WARN_UNUSED_RESULT;

/**
 * tw_random_job:
 * @seed: the same seed gives the same job
 *
 * A sensible job of any kind: 1 to 400 tubes of either direction, any turns, no baffle to six of them, one
 * tank or several a side, ports, fans, shrouds, hoses, volumes in all planes, plugged tubes, inches or
 * millimetres, long names, members that no program knows. What the bench would not build (a baffle on a
 * mouth, a fan beyond the face) happens now and then; what a file may not say does not.
 *
 * Returns: (transfer full)
 */
TwJob *tw_random_job (guint32 seed) G_GNUC_WARN_UNUSED_RESULT;

/* A change of any kind that @job accepts. (transfer full) */
TwChange *tw_random_change (const TwJob *job, GRand *rng) G_GNUC_WARN_UNUSED_RESULT;

/* A change of one field that @job accepts, most often to the end of what the field takes, to nought or to
 * nothing; NULL when none was found. (transfer full) */
TwChange *tw_extreme_change (const TwJob *job, GRand *rng) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
