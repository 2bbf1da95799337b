// Which clearances a person should look at: the tightest few, alike ones once.
#pragma once

#include <string>
#include <vector>

#include "geometry/plan/plan.h"

namespace halfhard {

struct Callout {
  std::string letter;                    // "A", "B", ...
  const Clearance* clearance = nullptr;  // of the plan
  int alike = 1;                         // as many pairs of the same families at the same distance, this one among them
  double margin_mm() const { return clearance->distance_mm - clearance->required_mm; }
};

// By margin over what is required, the tightest first. One a pair of families (pieces of a bank are one family, and so
// are fixtures that stand at the same distance from it). Only what is within `within_mm` or twice what is required; a
// run with itself only where it fails.
std::vector<Callout> callouts(const Plan& plan, size_t at_most = 8, double within_mm = 50);

}  // namespace halfhard
