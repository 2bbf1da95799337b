// One face of one fixture with the holes through it, as the person who drills sees it.
// The face's own frame, true mm: x right and y up as seen, (0, 0) at `zero`.
#pragma once

#include <string>
#include <vector>

#include "geometry/plan.h"
#include "geometry/views/view.h"

namespace halfhard {

struct DrilledHole {
  int drilling = 0;        // index into Plan::drillings
  Vec2 at = Vec2::Zero();  // of the hole's centre on the face
  double diameter_mm = 0;
  Angle tilt;                // off square to the face
  Vec2 lean = Vec2::Zero();  // unit, which way a tilted hole leans across the face going in; zero where square
};

// What the figures are taken from.
enum class FaceZero {
  edges,       // left and lower edge of the face, or of the body's outline
  job_origin,  // an endless face: the job's origin, seen square to the face
  hole         // an endless face, the job's origin too far off: the hole farthest down and left
};

struct DrilledFace {
  const Fixture* fixture = nullptr;  // of the plan
  View view;                         // square to the face
  std::string seen_from;             // "the front"; "" where the face stands askew
  FaceZero zero = FaceZero::edges;
  std::vector<FlatShape> outline;    // empty for an endless face
  Vec2 size = Vec2::Zero();          // of the outline; zero for an endless face
  std::vector<DrilledHole> holes;    // in the plan's order
  Vec3 zero_on_site = Vec3::Zero();  // where (0, 0) stands, site frame
};

// All drilled faces, in the order of the plan's fixtures. Holes from both sides of a panel are on one face: of two
// opposite sides the one that faces front, up or left, where a person stands. `origin_within_mm`: how far from the
// nearest hole the job's origin may be to be measured from.
std::vector<DrilledFace> drilled_faces(const Plan& plan, double origin_within_mm = 3000);

}  // namespace halfhard
