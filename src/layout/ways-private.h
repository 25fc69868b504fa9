/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * ways-private.h - which links of a net carry something between held nodes, which way, and in which order
 *
 * Plain numbers, no job: layout/passes makes nodes of chambers and links of tubes. A link lies on a way when
 * some simple path between two held nodes of different pressure runs over it: it is in one block (a part that
 * no single node parts) with an added link between the held nodes. Blocks by the method of Hopcroft and
 * Tarjan (Communications of the ACM 16 (1973) 372). Pressures solve Kirchhoff's laws with linear links.
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Most nodes with a held pressure. */
#define TW_WAYS_MOST_HELD 3

/* A link between two nodes; links between a node and itself carry nothing. */
typedef struct {
  guint a, b;  /* nodes */
  double ease; /* flow for a pressure difference of 1, dimensionless, positive */
} TwWaysLink;

/* A node whose pressure is given. */
typedef struct {
  guint node;
  double pressure; /* dimensionless */
} TwWaysHeld;

/* What a link does. */
typedef struct {
  gboolean on_way; /* some path between the held nodes uses it */
  int runs;        /* 1 from a to b, −1 from b to a, 0 carries nothing */
  double flow;     /* dimensionless, never negative */
  guint
      level; /* place on the longest way from a held node along the flow, from 1; 0 when it carries nothing */
} TwWaysFlow;

/**
 * tw_ways_solve:
 * @n_nodes: nodes, numbered from 0
 * @held: (array length=n_held): different nodes, at most TW_WAYS_MOST_HELD
 * @n_held: with fewer than two nothing flows
 * @links: (array length=n_links): the net
 * @n_links: how many
 *
 * A flow below 1e-9 of the largest one is rounding and counts as nothing: the link is on a way but balanced.
 *
 * Returns: (transfer full): an array of TwWaysFlow, one for each link
 */
GArray *tw_ways_solve (guint n_nodes,
                       const TwWaysHeld *held,
                       guint n_held,
                       const TwWaysLink *links,
                       guint n_links) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
