// How a run grows when hot, leg by leg, and what takes that up. Lengths mm.
#pragma once

#include <vector>

#include "geometry/plan/run.h"

namespace halfhard {

// 16.8e-6 per K. Source: Copper Development Association (UK) publication 88, Table 6: 10 m by 60 K grows 10.08 mm.
double growth_mm(double length_mm, double warmer_k);
// Leg square to a movement that takes it up: 88.8 * sqrt(OD * movement), which fits every cell of the Copper Tube
// Handbook, Table 14.8. 0 where nothing moves.
double leg_that_gives_mm(double outside_diameter_mm, double movement_mm);

// A leg between two fixed ends, hot: how much it grows, the leg that it needs to give way to, and what the run has.
struct LegGrowth {
  int leg = 0;  // 1-based
  double length_mm = 0, grows_mm = 0, needs_mm = 0;
  double has_mm = 0;  // the longest leg at 45 degrees or more to it, measured square to it
};
std::vector<LegGrowth> run_growth(const Run& run, double warmer_k);

}  // namespace halfhard
