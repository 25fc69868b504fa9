/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Parts against taken volumes and the walls of the bay. */
#include "findings/findings-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* Room that a cap needs to be turned and lifted. Common practice, no source. */
#define CAP_ROOM_MM 40.0

/* What is nearer than this to the clearance keeps it: distances in space are good to far less, and a part put
 * exactly at the clearance is not too near. */
#define ROUNDING_MM 1e-6

/* What a pair of part and volume can be found as. */
enum { CROSSES, CROSSES_PEOPLE, CROSSES_SERVICE, TOO_NEAR, OUT_OF_BAY, NEAR_BAY, CAP_LOW };

static int
kind_of (const TwFinder *finder, const TwClearancePair *pair)
{
  const TwVolume *volume = (const TwVolume *)tw_drawing_find (finder->known->drawing, pair->other);

  return volume->kind;
}

static gboolean
is_filler (const TwFinder *finder, TwId part)
{
  const TwPart *found = tw_drawing_find (finder->known->drawing, part);

  return found->kind == TW_KIND_PORT && ((const TwPort *)found)->use == TW_PORT_FILLER;
}

static gboolean
is_wanted (const TwFinder *finder, const TwClearancePair *pair)
{
  gboolean out = pair->crosses || pair->is_outside;

  switch (finder->which) {
  case CROSSES:
    return !pair->is_bay && pair->crosses && kind_of (finder, pair) != TW_TAKEN_OCCUPIED
           && kind_of (finder, pair) != TW_TAKEN_SERVICE;
  case CROSSES_PEOPLE:
    return !pair->is_bay && pair->crosses && kind_of (finder, pair) == TW_TAKEN_OCCUPIED;
  case CROSSES_SERVICE:
    return !pair->is_bay && pair->crosses && kind_of (finder, pair) == TW_TAKEN_SERVICE;
  case TOO_NEAR:
    return !pair->is_bay && !pair->crosses && pair->over_mm < -ROUNDING_MM
           && kind_of (finder, pair) != TW_TAKEN_SERVICE;
  case OUT_OF_BAY:
    return pair->is_bay && out;
  case NEAR_BAY:
    return pair->is_bay && !out && pair->over_mm < -ROUNDING_MM;
  case CAP_LOW:
    return pair->is_bay && !out && pair->distance_mm < CAP_ROOM_MM && is_filler (finder, pair->part);
  }
  g_assert_not_reached ();
}

static const char *
reason_of (const TwFinder *finder)
{
  TwClearanceFlags flags = tw_clearance_flags (finder->known->clearance);

  if ((flags & TW_CLEARANCE_TROUBLE) != 0)
    return N_ ("the polygon library refused an outline");
  if (finder->which < OUT_OF_BAY)
    return NULL;
  if ((flags & TW_CLEARANCE_NO_BAY) != 0)
    return N_ ("the job has no free volume");
  if ((flags & TW_CLEARANCE_MIXED_BAY) != 0)
    return N_ ("free volumes are drawn in different planes");
  return NULL;
}

static const char *
find_pairs (TwFinder *finder)
{
  guint n;
  const TwClearancePair *pairs = tw_clearance_pairs (finder->known->clearance, &n);

  for (guint i = 0; i < n; i++) {
    TwFinding *finding;

    if (!is_wanted (finder, &pairs[i]))
      continue;
    finding = tw_finder_add (finder, pairs[i].part);
    tw_finding_also (finding, pairs[i].other);
    if (pairs[i].crosses)
      finding->measured = pairs[i].depth_mm;
    else
      finding->measured = pairs[i].distance_mm;
    if (finder->which == TOO_NEAR || finder->which == NEAR_BAY)
      finding->limit = pairs[i].required_mm;
    if (finder->which == CAP_LOW)
      finding->limit = CAP_ROOM_MM;
  }
  return reason_of (finder);
}

/* clang-format off */
static const TwCheckRow rows[] = {
  { { "part-crosses", TW_SEVERITY_STOP, TW_ROOM_CLEARANCE, TW_QUANTITY_LENGTH }, find_pairs, CROSSES },
  { { "people-crossed", TW_SEVERITY_STOP, TW_ROOM_CLEARANCE, TW_QUANTITY_LENGTH }, find_pairs, CROSSES_PEOPLE },
  { { "out-of-bay", TW_SEVERITY_STOP, TW_ROOM_CLEARANCE, TW_QUANTITY_LENGTH }, find_pairs, OUT_OF_BAY },
  { { "service-crossed", TW_SEVERITY_WARN, TW_ROOM_CLEARANCE, TW_QUANTITY_LENGTH }, find_pairs, CROSSES_SERVICE },
  { { "clearance-small", TW_SEVERITY_WARN, TW_ROOM_CLEARANCE, TW_QUANTITY_LENGTH, .source = TW_COMMON_PRACTICE },
    find_pairs, TOO_NEAR },
  { { "bay-near", TW_SEVERITY_WARN, TW_ROOM_CLEARANCE, TW_QUANTITY_LENGTH, .source = TW_COMMON_PRACTICE },
    find_pairs, NEAR_BAY },
  { { "cap-room-small", TW_SEVERITY_WARN, TW_ROOM_CLEARANCE, TW_QUANTITY_LENGTH, .source = TW_COMMON_PRACTICE },
    find_pairs, CAP_LOW },
};
/* clang-format on */

const TwCheckRows tw_checks_fit = { rows, G_N_ELEMENTS (rows) };
