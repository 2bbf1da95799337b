// How far services must keep from each other.
#pragma once

#include <vector>

#include "geometry/plan/fixture.h"
#include "modeller/checks/check_table.h"

namespace halfhard {

// What two runs must keep between them, mm, whatever else they keep clear; 0 where no rule is known. Symmetric.
// Gas and electric: 25, because an `electric` run is a cable or its conduit (P2 BS 6891). The 150 mm from supply
// equipment applies to fixtures and is a finding of its own; so is hot beside cold, which no rule forbids outright.
double service_separation_mm(Service a, Service b);

void check_separation(const PlanContext& context, std::vector<Finding>& findings);

}  // namespace halfhard
