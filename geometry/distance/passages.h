// Where a centre line runs inside a body: for holes to drill. Site frame, mm.
#pragma once

#include <vector>

#include "geometry/curve/centreline.h"
#include "geometry/distance/obstacle.h"

namespace halfhard {

// One stretch of the line inside the body.
struct Passage {
  double in_mm = 0, out_mm = 0;  // along the line
  Vec3 in = Vec3::Zero(), out = Vec3::Zero();
  Vec3 direction = Vec3::UnitX();  // unit, from where it goes in to where it comes out
  double bow_mm = 0;               // how far the line strays from the straight between the two, to 1 %
  bool begins_inside = false;      // the line's own start is inside or on the face: it does not go in
  bool ends_inside = false;        // the line's own end is inside or on the face: it does not come out

  // In through one place and out through another: what drilling can make.
  bool in_and_out() const { return !begins_inside && !ends_inside; }
};

// In order along the line; none where the line stays outside. Bodies meet without a passage: they graze. Places are
// good to 1e-9 mm; stretches, and gaps between them, shorter than 0.01 mm may be missed. Requires nothing.
std::vector<Passage> passages(const CentreLine& line, const Obstacle& body);

// What a hole does not excuse: the stretches of the line outside all passages, each from where it has left the hole, in
// order. It has left it where its distance from the body has reached `clear_mm`, or no longer grows; to 0.25 mm.
struct LineStretch {
  double from_mm = 0, until_mm = 0;
};
std::vector<LineStretch> beside_passages(const CentreLine& line, const Obstacle& body,
                                         const std::vector<Passage>& passages, double clear_mm);

}  // namespace halfhard
