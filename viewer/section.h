// A cut through the picture: everything on the near side of a plane is taken away.
#pragma once

#include "geometry/base/vec.h"

namespace halfhard {

// Keeps what lies at `at_mm` or further along `towards` (a unit site direction) from the site's origin.
struct Section {
  Vec3 towards = Vec3::UnitY();
  double at_mm = 0;

  bool keeps(const Vec3& place) const { return towards.dot(place) >= at_mm; }
  friend bool operator==(const Section&, const Section&) = default;
};

}  // namespace halfhard
