// How a hot tube grows between two fixed ends.
#pragma once

#include <vector>

#include "modeller/checks/check_table.h"

namespace halfhard {

// 16.8e-6 per K. Source: Copper Development Association (UK) publication 88, Table 6: 10 m by 60 K grows 10.08 mm.
double expansion_mm(double length_mm, double temperature_rise_k);
// Leg square to a movement that takes it up: 88.8 * sqrt(OD * movement), which fits every cell of the Copper Tube
// Handbook, Table 14.8.
double offset_leg_mm(double outside_diameter_mm, double movement_mm);

// Hot runs with both ends connected: a warn where the movement of a leg, less what the connections give, is more than
// the limit and no other leg at 45 degrees or more to it is long enough to bend with it.
void check_expansion(const RunContext& context, std::vector<Finding>& findings);

}  // namespace halfhard
