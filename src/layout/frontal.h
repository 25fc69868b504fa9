/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * frontal.h - the part of a core's face that outside air can reach
 *
 * Face: the block of fins and tubes, without header and side plates. An obstruction is the portion, inside
 * the bay's free volumes and upstream of the face, of a solid part (hoses at their outside diameter, ports,
 * hubs of fans, headers and tanks of other cores) or of a taken volume of kind structure, hot or moving; it
 * is projected along the air's way on the face, whatever its distance. Blocks and shrouds of other cores are
 * losses, not obstructions; the core's own headers and tanks shade nothing. Without a free volume in the job
 * everything upstream counts, and a flag says so.
 */
#pragma once

#include "layout/placement.h"

G_BEGIN_DECLS

typedef enum {
  TW_FRONTAL_NO_BAY = 1 << 0,  /* the job has no free volume: everything upstream counted */
  TW_FRONTAL_TURNED = 1 << 1,  /* the air does not meet the face: nothing is shaded */
  TW_FRONTAL_TROUBLE = 1 << 2, /* the polygon library refused something: figures are not to be trusted */
} TwFrontalFlags;

/* What one part takes of the face. */
typedef struct {
  TwId part;          /* of other cores' header plates: that core */
  double alone_mm2;   /* covered by nothing else */
  double alone_share; /* of the face, dimensionless */
  double shadow_mm2;  /* all that it covers */
  double distance_mm; /* from the face to its nearest covering place, along the air's way */
  TwArea *shadow;     /* in (u, v), on the face; owned by the result */
} TwShade;

/* One core's face. */
typedef struct {
  TwId core;
  TwFrontalFlags flags;
  double face_mm2;
  double projected_mm2; /* the face seen along the job's z */
  double free_mm2;
  double free_share;   /* of the face, dimensionless */
  double shared_mm2;   /* covered by two obstructions or more; free + all alone + shared = face */
  double shared_share; /* of the face, dimensionless */
  guint n_shades;
  TwShade *shades; /* most alone first; owned by the result */
  TwArea *free;    /* in (u, v); owned by the result */
  TwArea *shared;  /* in (u, v); owned by the result */
} TwFaceShade;

typedef struct _TwFrontal TwFrontal; /* never changes once found; share it between threads */

/**
 * tw_frontal_find:
 * @placement: not kept
 * @geos: a handle, used during the call
 * @hoses: (array length=n_hoses) (nullable): solids of the hose runs, in the order of each run; capsules of
 *   one part whose ends meet are one tube
 * @n_hoses: how many
 *
 * Returns: (transfer full): one face for each core that has a place; free with tw_frontal_unref()
 */
TwFrontal *tw_frontal_find (const TwPlacement *placement,
                            TwGeos *geos,
                            const TwPlacedSolid *hoses,
                            guint n_hoses) G_GNUC_WARN_UNUSED_RESULT;
TwFrontal *tw_frontal_ref (const TwFrontal *self);
void tw_frontal_unref (TwFrontal *self);

/* Faces in the order of the cores. (transfer none) (array length=n) */
const TwFaceShade *tw_frontal_faces (const TwFrontal *self, guint *n);
/* By core; NULL when it has no place. (transfer none) */
const TwFaceShade *tw_frontal_face (const TwFrontal *self, TwId core);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwFrontal, tw_frontal_unref)

G_END_DECLS
