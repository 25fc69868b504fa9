/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "propose/first-layout.h"

#include "base/error.h"
#include "base/geom.h"
#include "job/change.h"

#include <math.h>

/* Choices of this room, all common practice without a source; the note of the job says them. */
#define CLEARANCE_MM 10.0
#define PLENUM_MM 40.0
#define FAN_DEPTH_MM 65.0
#define RING_MM 12.0 /* ring wider than what it sweeps */
#define FAN_MOST_MM 400.0
#define FAN_LEAST_MM 120.0
#define MOUTH_EDGE_MM 5.0 /* face left bare beside the shroud, all round */
#define STUB_MM 40.0      /* stand-out of inlet and outlet */
#define BUNG_MM 12.0      /* stand-out of bleed and drain */
#define STUB_SIZE "32"
#define LEAST_TUBES 4
#define LEAST_TUBE_MM 60.0

typedef struct {
  const TwFirstLayoutWish *wish;
  const TwEntry *kind;
  TwJob *job;
  gboolean level;
  gboolean has_fans;
  double face_along_mm;  /* along the header */
  double face_across_mm; /* along the tubes */
  double thickness_mm, header_width_mm, header_thickness_mm, reach_mm, tank_depth_mm;
} Layout;

TwFirstLayoutWish
tw_first_layout_wish (void)
{
  return (TwFirstLayoutWish){ .bay_width_mm = (double)NAN,
                              .bay_height_mm = (double)NAN,
                              .bay_depth_mm = (double)NAN,
                              .heat_kw = (double)NAN,
                              .tubes = -1,
                              .fans = TRUE,
                              .shown_in = TW_SHOWN_IN_MM };
}

static double
of_kind (const Layout *self, const char *name, double otherwise)
{
  double value = tw_entry_number (self->kind, name);

  return isnan (value) ? otherwise : value;
}

static gboolean
check_wish (const TwFirstLayoutWish *wish, GError **error)
{
  const struct {
    const char *name;
    double value_mm;
  } figures[] = { { N_ ("bay width"), wish->bay_width_mm },
                  { N_ ("bay height"), wish->bay_height_mm },
                  { N_ ("bay depth"), wish->bay_depth_mm } };

  for (guint i = 0; i < G_N_ELEMENTS (figures); i++)
    if (!(figures[i].value_mm >= 60 && figures[i].value_mm <= 5000)) {
      g_set_error (error, TW_ERROR, TW_ERROR_REFUSED, _ ("%s: expected a length of 60 to 5000 mm"),
                   _ (figures[i].name));
      return FALSE;
    }
  if (!isnan (wish->heat_kw) && !(wish->heat_kw >= 0 && wish->heat_kw <= 5000)) {
    g_set_error (error, TW_ERROR, TW_ERROR_REFUSED, _ ("heat: expected a power of 0 to 5000 kW"));
    return FALSE;
  }
  return TRUE;
}

static gboolean
find_kind (Layout *self, const TwCatalogue *catalogue, GError **error)
{
  const char *kind = self->wish->core_kind;
  guint n = tw_catalogue_count (catalogue, TW_CATALOGUE_CORE_KINDS);
  g_autoptr (GString) names = NULL;

  if (kind != NULL)
    self->kind = tw_catalogue_find (catalogue, TW_CATALOGUE_CORE_KINDS, kind);
  else if (n > 0)
    self->kind = tw_catalogue_get (catalogue, TW_CATALOGUE_CORE_KINDS, 0);
  if (self->kind != NULL)
    return TRUE;
  names = g_string_new (NULL);
  for (guint i = 0; i < n; i++)
    g_string_append_printf (names, "%s%s", i > 0 ? ", " : "",
                            tw_entry_id (tw_catalogue_get (catalogue, TW_CATALOGUE_CORE_KINDS, i)));
  g_set_error (error, TW_ERROR, TW_ERROR_MISSING, _ ("there is no kind of core \"%s\"; there are %s"),
               kind ? kind : "", names->str);
  return FALSE;
}

static gboolean
too_small (const char *which, double missing_mm, GError **error)
{
  g_set_error (
      error, TW_ERROR, TW_ERROR_REFUSED,
      _ ("the bay's %s is %d mm too small for the smallest core of this kind with its tanks and ports"),
      which, (int)ceil (missing_mm));
  return FALSE;
}

/* What the stack takes upstream of the face and downstream of it, without clearances. */
static double
stack_before (const Layout *self)
{
  return MAX (0, (self->header_width_mm - self->thickness_mm) / 2) + STUB_MM;
}

static double
stack_behind (const Layout *self)
{
  double plate = self->thickness_mm + MAX (0, (self->header_width_mm - self->thickness_mm) / 2);

  return self->has_fans ? MAX (plate, self->thickness_mm + PLENUM_MM + FAN_DEPTH_MM) : plate;
}

static gboolean
size_depth (Layout *self, GError **error)
{
  double room = self->wish->bay_depth_mm - 2 * CLEARANCE_MM, missing;

  self->has_fans = self->wish->fans;
  if (stack_before (self) + stack_behind (self) > room)
    self->has_fans = FALSE;
  missing = stack_before (self) + stack_behind (self) - room;
  return missing <= 0 || too_small (_ ("depth"), missing, error);
}

/* Bleed and drain stand out of the tanks' ends of level tubes, and of the backs of upright ones. */
static gboolean
size_core (Layout *self, GError **error)
{
  const TwFirstLayoutWish *wish = self->wish;
  double along
      = (self->level ? wish->bay_height_mm : wish->bay_width_mm) - 2 * (CLEARANCE_MM + self->reach_mm);
  double across = (self->level ? wish->bay_width_mm : wish->bay_height_mm)
                  - 2 * (CLEARANCE_MM + self->header_thickness_mm + self->tank_depth_mm);
  double pitch = of_kind (self, "tube_pitch_mm", 10), n;

  if (self->level)
    along -= 2 * BUNG_MM;
  else
    across -= 2 * BUNG_MM;
  n = MIN (1000, floor (along / pitch + 1e-9));
  if (n < LEAST_TUBES)
    return too_small (self->level ? _ ("height") : _ ("width"), LEAST_TUBES * pitch - along, error);
  if (across < LEAST_TUBE_MM)
    return too_small (self->level ? _ ("width") : _ ("height"), LEAST_TUBE_MM - across, error);
  self->face_along_mm = n * pitch;
  self->face_across_mm = floor (across);
  return size_depth (self, error);
}

static TwPart *
new_part (TwKind kind, const char *id, const char *name)
{
  TwId made;
  TwPart *part;
  TwValue text = tw_value_text (name);

  if (!tw_id_from_text (id, &made))
    g_assert_not_reached ();
  part = tw_part_new (kind, made);
  tw_part_put (part, (guint)tw_kind_field (kind, "name"), &text);
  return part;
}

static TwId
insert (Layout *self, TwPart *part)
{
  tw_job_insert (self->job, part, -1);
  return part->id;
}

static void
add_corner (TwVolume *volume, const char *id, double across_mm, double up_mm)
{
  TwId made;
  TwOutlineCorner *corner;

  if (!tw_id_from_text (id, &made))
    g_assert_not_reached ();
  corner = (TwOutlineCorner *)tw_part_new (TW_KIND_CORNER, made);
  corner->across_mm = across_mm;
  corner->up_mm = up_mm;
  g_ptr_array_add (volume->outline, corner);
}

/* Zero lies in the middle of the bay's floor; the face of the core at z 0. */
static void
add_bay (Layout *self)
{
  TwVolume *bay = (TwVolume *)new_part (TW_KIND_VOLUME, "bay", _ ("Bay"));
  double half = self->wish->bay_width_mm / 2, top = self->wish->bay_height_mm;

  bay->use = TW_USE_FREE;
  bay->plane = TW_DRAWN_FRONT;
  bay->to_mm = stack_behind (self) + CLEARANCE_MM;
  bay->from_mm = bay->to_mm - self->wish->bay_depth_mm;
  add_corner (bay, "corner-1", -half, 0);
  add_corner (bay, "corner-2", half, 0);
  add_corner (bay, "corner-3", half, top);
  add_corner (bay, "corner-4", -half, top);
  insert (self, (TwPart *)bay);
}

static TwId
add_core (Layout *self)
{
  TwCore *core = (TwCore *)new_part (TW_KIND_CORE, "core", _ ("Core"));

  core->core_kind = g_strdup (tw_entry_id (self->kind));
  core->x_mm = 0;
  core->y_mm = self->wish->bay_height_mm / 2;
  core->z_mm = 0;
  core->tubes = self->level ? TW_TUBES_LEVEL : TW_TUBES_UPRIGHT;
  core->face_width_mm = self->level ? self->face_across_mm : self->face_along_mm;
  core->face_height_mm = self->level ? self->face_along_mm : self->face_across_mm;
  return insert (self, (TwPart *)core);
}

static TwId
add_tank (Layout *self, TwId core, const char *id, const char *name, int side)
{
  TwTank *tank = (TwTank *)new_part (TW_KIND_TANK, id, name);

  tank->core = core;
  tank->side = side;
  return insert (self, (TwPart *)tank);
}

static void
add_stub (Layout *self, TwId tank, const char *id, int use, double along_mm)
{
  TwPort *port = (TwPort *)new_part (TW_KIND_PORT, id, use == TW_PORT_INLET ? _ ("Inlet") : _ ("Outlet"));

  port->tank = tank;
  port->use = use;
  port->wall = TW_WALL_AIR_IN;
  port->along_mm = along_mm;
  port->standard = g_strdup ("stub");
  port->size = g_strdup (STUB_SIZE);
  port->stand_out_mm = STUB_MM;
  insert (self, (TwPart *)port);
}

static void
add_bung (Layout *self, TwId tank, const char *id, int use, int wall)
{
  TwPort *port = (TwPort *)new_part (TW_KIND_PORT, id, use == TW_PORT_BLEED ? _ ("Bleed") : _ ("Drain"));

  port->tank = tank;
  port->use = use;
  port->wall = wall;
  port->standard = g_strdup ("iso-6149");
  port->size = g_strdup ("M12x1.5");
  port->stand_out_mm = BUNG_MM;
  insert (self, (TwPart *)port);
}

/* Water in at the top of one tank, out at the bottom of the other; air out of every highest place. */
static void
add_water (Layout *self, TwId core)
{
  double end = self->face_along_mm / 2 - MIN (40, self->face_along_mm / 4);
  TwId first, second;

  if (self->level) {
    first = add_tank (self, core, "left-tank", _ ("Left tank"), TW_SIDE_LEFT);
    second = add_tank (self, core, "right-tank", _ ("Right tank"), TW_SIDE_RIGHT);
    add_stub (self, first, "inlet", TW_PORT_INLET, end);
    add_stub (self, second, "outlet", TW_PORT_OUTLET, -end);
    add_bung (self, first, "left-bleed", TW_PORT_BLEED, TW_WALL_END);
    add_bung (self, second, "right-bleed", TW_PORT_BLEED, TW_WALL_END);
    add_bung (self, first, "left-drain", TW_PORT_DRAIN, TW_WALL_START);
    add_bung (self, second, "right-drain", TW_PORT_DRAIN, TW_WALL_START);
  } else {
    first = add_tank (self, core, "top-tank", _ ("Top tank"), TW_SIDE_TOP);
    second = add_tank (self, core, "bottom-tank", _ ("Bottom tank"), TW_SIDE_BOTTOM);
    add_stub (self, first, "inlet", TW_PORT_INLET, -end);
    add_stub (self, second, "outlet", TW_PORT_OUTLET, end);
    add_bung (self, first, "bleed", TW_PORT_BLEED, TW_WALL_BACK);
    add_bung (self, second, "drain", TW_PORT_DRAIN, TW_WALL_BACK);
  }
}

static void
add_fan (Layout *self, TwId core, guint nth, double swept_mm, TwPoint at)
{
  g_autofree char *id = g_strdup_printf ("fan-%u", nth + 1);
  g_autofree char *name = g_strdup_printf (_ ("Fan %u"), nth + 1);
  TwFan *fan = (TwFan *)new_part (TW_KIND_FAN, id, name);

  fan->core = core;
  fan->u_mm = at.x_mm;
  fan->v_mm = at.y_mm;
  fan->swept_mm = swept_mm;
  fan->ring_mm = swept_mm + RING_MM;
  fan->depth_mm = FAN_DEPTH_MM;
  insert (self, (TwPart *)fan);
}

/* As many fans side by side as the mouth takes, each in the middle of its share. */
static void
add_fans (Layout *self, TwId core)
{
  double width = (self->level ? self->face_across_mm : self->face_along_mm) - 2 * MOUTH_EDGE_MM;
  double height = (self->level ? self->face_along_mm : self->face_across_mm) - 2 * MOUTH_EDGE_MM;
  double longer = MAX (width, height);
  double swept = floor (MIN (FAN_MOST_MM, MIN (width, height) - RING_MM - 2));
  guint n = (guint)MAX (1, floor (longer / (swept + RING_MM + 2)));
  TwShroud *shroud;

  if (swept < FAN_LEAST_MM) {
    self->has_fans = FALSE;
    return;
  }
  shroud = (TwShroud *)new_part (TW_KIND_SHROUD, "shroud", _ ("Shroud"));
  shroud->core = core;
  shroud->width_mm = width;
  shroud->height_mm = height;
  shroud->plenum_mm = PLENUM_MM;
  insert (self, (TwPart *)shroud);
  for (guint i = 0; i < n; i++) {
    double place = longer * ((i + 0.5) / n - 0.5);

    add_fan (self, core, i, swept, width >= height ? (TwPoint){ place, 0 } : (TwPoint){ 0, -place });
  }
}

static void
add_settings (Layout *self)
{
  TwSettings *settings = (TwSettings *)tw_part_copy ((const TwPart *)tw_job_settings (self->job));

  settings->name = g_strdup (self->wish->name);
  settings->shown_in = self->wish->shown_in;
  settings->clearance_mm = CLEARANCE_MM;
  settings->heat_kw = self->wish->heat_kw;
  settings->note = g_strdup_printf (
      _ ("First layout: the largest core of the kind \"%s\" that fits with its tanks, one pass, %s. Ports, "
         "clearances, "
         "plenum and fans are common practice; put in what you have. Whether it cools is not yet computed."),
      tw_entry_name (self->kind), self->has_fans ? _ ("fans behind it") : _ ("no fans"));
  tw_job_replace (self->job, (TwPart *)settings);
}

TwJob *
tw_first_layout (const TwFirstLayoutWish *wish, const TwCatalogue *catalogue, GError **error)
{
  Layout self = { .wish = wish };
  TwId core;

  if (!check_wish (wish, error) || !find_kind (&self, catalogue, error))
    return NULL;
  self.level
      = wish->tubes == TW_TUBES_LEVEL || (wish->tubes < 0 && wish->bay_width_mm >= wish->bay_height_mm);
  self.thickness_mm = of_kind (&self, "thickness_mm", 42);
  self.header_width_mm = of_kind (&self, "header_width_mm", self.thickness_mm + 12);
  self.header_thickness_mm = of_kind (&self, "header_thickness_mm", 2);
  self.reach_mm = of_kind (&self, "header_reach_mm", 6);
  self.tank_depth_mm = of_kind (&self, "tank_depth_mm", 50);
  if (!size_core (&self, error))
    return NULL;

  self.job = tw_job_new ();
  add_bay (&self);
  core = add_core (&self);
  add_water (&self, core);
  if (self.has_fans)
    add_fans (&self, core);
  add_settings (&self);
  return self.job;
}
