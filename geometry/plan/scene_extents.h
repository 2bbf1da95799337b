// How much room a job takes, and what of an endless wall is worth showing in it. Site frame, mm.
#pragma once

#include "geometry/plan/plan.h"

namespace halfhard {

struct Extents {
  Vec3 least = Vec3::Constant(0), most = Vec3::Constant(0);
  bool empty = true;

  void add(const Vec3& point, double around_mm = 0);
  Vec3 centre() const { return (least + most) / 2; }
  double diagonal_mm() const { return empty ? 0 : (most - least).norm(); }
};

// Runs (with their lagging) and all bodies at rest; planes are endless and count for nothing.
Extents scene_extents(const Plan& plan);
Extents extents_of(const Run& run);

// A half space cut down to a thin slab behind its face: as wide as `extents` seen square to it, and a little more.
// Its thickness is a fortieth of the extents' diagonal, from 5 to 50 mm.
Box slab_of(const HalfSpace& plane, const Extents& extents);

}  // namespace halfhard
