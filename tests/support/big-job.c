/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/big-job.h"

#include "support/make-job.h"

#define N_BAFFLES 4
#define N_PORTS 16
#define N_FANS 5
#define N_HOSES 6

/* Two in the top tank, two in the bottom one: five passes. */
static void
add_baffles (TwJob *job, guint n_tubes)
{
  for (guint i = 0; i < N_BAFFLES; i++)
    tw_make_baffle (job, i % 2 ? "tank-2" : "tank-1", n_tubes * (i + 1) / (N_BAFFLES + 1));
}

/* Ports at equal spacing in the front walls; the first is the inlet, the last the outlet. (transfer full) */
static GArray *
add_ports (TwJob *job, double half_mm)
{
  GArray *ports = g_array_new (FALSE, FALSE, sizeof (TwId));

  for (guint i = 0; i < N_PORTS; i++) {
    int use = i == 0 ? TW_PORT_INLET : i == N_PORTS - 1 ? TW_PORT_OUTLET : TW_PORT_BLEED;
    double along_mm = half_mm * (-0.95 + 1.9 * i / (N_PORTS - 1));
    TwId port = tw_make_port (job, i % 2 ? "tank-2" : "tank-1", use, TW_WALL_AIR_IN, along_mm);

    g_array_append_val (ports, port);
  }
  return ports;
}

static void
add_fans (TwJob *job, double half_mm)
{
  double share_mm = 2 * half_mm / N_FANS;

  tw_make_shroud (job, 0, 0, 2 * half_mm - 4, TW_MAKE_TUBE_LENGTH_MM - 4);
  for (guint i = 0; i < N_FANS; i++)
    tw_make_fan (job, -half_mm + share_mm * (i + 0.5), 0, MIN (share_mm - 20, 340), 90);
}

/* From the engine, far before the face, up and over to a port. */
static void
add_hoses (TwJob *job, const GArray *ports, double half_mm)
{
  for (guint i = 0; i < N_HOSES; i++) {
    double x_mm = half_mm * (-0.9 + 1.8 * i / (N_HOSES - 1)), y_mm = -420 - 60.0 * i;
    double z_mm = -900 - 80.0 * i;
    const double at_mm[] = { x_mm, y_mm, z_mm };
    const double vias_mm[][3] = { { x_mm + 120, y_mm, z_mm },
                                  { x_mm + 120, y_mm + 200, z_mm + 100 },
                                  { x_mm + 60, y_mm + 200, -420 - 50.0 * i },
                                  { x_mm + 60, 300 - 40.0 * i, -300 - 50.0 * i } };
    TwId engine = tw_make_engine_port (job, i == N_HOSES - 1 ? TW_ENGINE_RETURN : TW_ENGINE_SUPPLY, at_mm,
                                       TW_LEAVES_AXIS_RIGHT);
    TwId port = g_array_index (ports, TwId, i == N_HOSES - 1 ? N_PORTS - 1 : i * 2);

    tw_make_hose (job, engine, port, G_N_ELEMENTS (vias_mm), vias_mm, 60);
  }
}

/* One in four before the face, the others round about in rows. */
static void
add_volume (TwJob *job, guint nth, double half_mm)
{
  static const int planes[] = { TW_DRAWN_FRONT, TW_DRAWN_SIDE, TW_DRAWN_PLAN };
  static const int kinds[] = { TW_TAKEN_STRUCTURE, TW_TAKEN_HOT, TW_TAKEN_MOVING, TW_TAKEN_SERVICE };
  double x_mm = half_mm * (-1.1 + 2.2 * (nth * 37 % 101) / 100), y_mm = -700 + 14.0 * (nth * 53 % 101);
  double z_mm = nth % 4 == 0 ? -150 - 3.0 * nth : 200 + 6.0 * nth;

  if (nth % 4 == 0)
    y_mm = -150 + 3.0 * (nth * 29 % 101);
  tw_make_box (job, planes[nth % 3], kinds[nth / 3 % 4],
               &(TwMakeBox){ x_mm, y_mm, z_mm, x_mm + 40, y_mm + 30, z_mm + 20 });
}

TwJob *
tw_big_job (guint n_tubes, guint n_parts)
{
  TwJob *job = tw_make_job (TW_TUBES_UPRIGHT, n_tubes);
  double half_mm = n_tubes * TW_MAKE_PITCH_MM / 2;
  guint there = 3 + N_BAFFLES + N_PORTS + 1 + N_FANS + 2 * N_HOSES;
  g_autoptr (GArray) ports = NULL;

  g_assert (n_tubes >= 20 && n_tubes <= 400 && n_parts >= 60);
  add_baffles (job, n_tubes);
  ports = add_ports (job, half_mm);
  add_fans (job, half_mm);
  add_hoses (job, ports, half_mm);
  for (guint i = 0; i + there < n_parts; i++)
    add_volume (job, i, half_mm);
  return job;
}
