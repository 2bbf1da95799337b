// Tube against a body that moves and whose swept solid is not convex: a search over the positions. Internal to geometry.
//
// Branch and bound on the position, with bounds from how fast and how unevenly the motion carries points, so that no
// position is passed over: what search::kCertain_mm is to a place along a line, it is here to a position too.
#pragma once

#include "geometry/distance/distance.h"
#include "geometry/distance/distance_search.h"
#include "geometry/distance/obstacle_kinds.h"

namespace halfhard {

// The exact distance of the flat-ended tube and a body at rest where below the limit; 0 or less: they touch or meet.
using ExactBelow = Separation (*)(double limit, const TubeBody& tube, const Obstacle::Kind& kind);

// Lowers `best` to the distance of the tube and the nearest position, where that is below it. Certain to kCertain_mm
// apart (a turn that changes nothing over and over leaves more: see search::kPatience); whether they meet, to
// kSweptTouching_mm. Ends at the first position that touches or meets. Requires kind.at_rest().
void offer_positions(Separation& best, const TubeBody& tube, const Obstacle::Kind& kind, ExactBelow exact_below);

// The place of the centre line that is deepest within any one position, given a place `found` within one. Certain to
// kDeepest_mm and then closed in on; within triangles certain to kDepth_mm. Requires kind.at_rest().
inline constexpr double kDeepest_mm = 1e-5;
search::Least deepest_place(const TubeBody& tube, const Obstacle::Kind& kind, const search::Least& found);

}  // namespace halfhard
