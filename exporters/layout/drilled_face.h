// One face of one fixture with the holes through it, as the person who drills sees it.
// The face's own frame, true mm: x right and y up as seen, (0, 0) at `zero`.
#pragma once

#include <string>
#include <vector>

#include "geometry/plan/plan.h"
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
  std::string seen_from;             // "the front", "above"; "the front and the right" where the face stands askew
  FaceZero zero = FaceZero::edges;
  std::vector<FlatShape> outline;    // empty for an endless face
  Vec2 size = Vec2::Zero();          // of the outline; zero for an endless face
  std::vector<DrilledHole> holes;    // in the plan's order
  Vec3 zero_on_site = Vec3::Zero();  // where (0, 0) stands, site frame
};

// All drilled faces, in the order of the plan's fixtures. Holes from both sides of a panel are on one face: of the two
// opposite sides the one with more free room before it, along the holes, up to the next fixture at rest; more than
// `enough_room_mm` counts no further (common practice, no source: a drill, its bit and the arms behind it). Where both
// have as much, the one that faces front, up or left. `origin_within_mm`: how far from the nearest hole the job's origin
// may be to be measured from.
std::vector<DrilledFace> drilled_faces(const Plan& plan, double origin_within_mm = 3000, double enough_room_mm = 1000);

// What the figures of a face start from: across it (0) and up it (1), in the words of the site, so that they are the same
// however one looks: "back support", "lower edge"; "right of the origin", "above the origin"; "right of H1".
// A measure against the way that the word says is negative.
std::string measured_from(const DrilledFace& face, int axis);
// "lower left corner", "support at the back and the lower edge", "job's origin", "hole H1".
std::string zero_of(const DrilledFace& face);

}  // namespace halfhard
