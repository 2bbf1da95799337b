// The check of a bend: one dimension, by tape alone, that proves the bend just made, in the state after it (later bends
// still straight; spare and insertions are tube).
//
// Chosen in this order:
//  1. this bend and a neighbour already made leave two parallel legs (an offset closed, a U): over both outsides;
//  2. a 90 beside a tube end or beside a 90 already made: along the leg between, from the end or from the outside of
//  the
//     neighbour's leg, to the outside of the other leg. Proves the mark; the angle is proved by a square or the rule;
//  3. else a straight line between two places that a tape can touch, one on either side of the bend: middles of the end
//     faces where an error of the angle shows there, else of those and the middles of the backs of bends the two that
//     it shows at most; none that the tube itself bars.
// Lengths mm, exact for the nominal shape.
#pragma once

#include <functional>
#include "geometry/base/vec.h"

#include "geometry/bending/forming.h"
#include "geometry/plan/run.h"

namespace halfhard {

// The dimension with the two places that it is taken between, in the frame of after_bend (geometry/bending/forming.h), for
// pictures. Where the tape lies beside the tube, `aside` (unit) is the side to draw it on; else it is zero.
struct LocatedCheck {
  CheckDimension check;
  CheckKind kind = CheckKind::straight;
  // The same reading taken of any piece with the same bends made, however they came out.
  std::function<double(const FormedPiece&)> reading;
  Vec3 from = Vec3::Zero(), to = Vec3::Zero();
  Vec3 aside = Vec3::Zero();
  // Over two outsides: a point of the leg that the straight edge is laid on, on that outside, and the leg's direction
  // (unit); else both are zero.
  Vec3 edge = Vec3::Zero(), edge_along = Vec3::Zero();
};
LocatedCheck located_check(const Run& run, int number, double tolerance_mm);

// What bend `number` is proved by. `tolerance_mm` is the job's length tolerance and is handed through.
// Requires 1 <= number <= number of bends; uses everything of the bends but their `check`.
CheckDimension check_dimension(const Run& run, int number, double tolerance_mm);

// The straight line between two places that shows an error of the bend's turn most, or of its angle.
LocatedCheck straight_check(const Run& run, int number, bool of_turn);

}  // namespace halfhard
