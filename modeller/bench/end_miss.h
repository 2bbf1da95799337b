// How the far end stands against where it belongs, the start end held.
#pragma once

#include <algorithm>

#include "geometry/plan/plan.h"
#include "modeller/bench/made_piece.h"

namespace halfhard {

struct EndMiss {
  Vec3 by = Vec3::Zero();  // from where it belongs to where it is, mm
  Angle turned;            // from the direction in which it should run
  double mm() const { return by.norm(); }
};
EndMiss end_miss(const Run& run, const MadeShape& shape);

// The same with the whole piece turned about its first leg to where the far end comes nearest.
struct TurnedMiss {
  EndMiss miss;
  Angle by;  // right-handed about the direction in which the first leg runs
};
TurnedMiss turned_to_best(const Run& run, const MadeShape& shape);

// How far out that is, each part by what is allowed: at most 1 is good.
struct Judge {
  Tolerance tolerance;
  double place(const EndMiss& miss) const { return miss.mm() / tolerance.length_mm; }
  double turn(const EndMiss& miss) const { return miss.turned.degrees() / tolerance.angle.degrees(); }
  bool good(const EndMiss& miss) const { return place(miss) <= 1 && turn(miss) <= 1; }
  double badness(const EndMiss& miss) const { return std::max(place(miss), turn(miss)); }
  double cost(const EndMiss& miss) const { return place(miss) * place(miss) + turn(miss) * turn(miss); }
};

}  // namespace halfhard
