// Passovers of a pipe as a fitter proves them: how high the crown stands, which is lower than the intersection in the air
// that the legs make.
#pragma once

#include <string>
#include <vector>

#include "geometry/plan/plan.h"

namespace halfhard {

// Of three bends a, 2a, a, or of four a, a, a, a with a flat between; 0 < a < 90, both legs on one line.
struct Crown {
  int first_bend = 0, last_bend = 0;  // by number, from 1
  Vec3 at = Vec3::Zero();             // centre line at the crown, site frame
  Vec3 leg = Vec3::UnitX();           // unit, along the legs
  Vec3 away = Vec3::UnitZ();          // unit, from the legs to the crown
  double height_mm = 0;               // centre line to centre line; from inside to inside as well
  double outside_mm = 0;              // from the legs' near outside, where a straight edge lies, over the crown
  Angle middle;                       // of the middle bend, or of each of the two
  bool flat() const { return last_bend - first_bend == 3; }
};
std::vector<Crown> crowns(const Run& run);

// One sentence or two for each.
std::string crown_text(const Run& run, const Crown& crown, LengthUnit unit);

// Points to dimension from: start, intersections and end, but the crown in place of the intersection of a passover of
// three bends.
std::vector<Vec3> points_to_measure(const Run& run);

}  // namespace halfhard
