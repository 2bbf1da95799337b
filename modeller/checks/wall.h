// What bending does to the tube's wall and roundness, estimated.
#pragma once

#include <vector>

#include "modeller/checks/check_table.h"

namespace halfhard {

// Thinning of the outer wall by geometry alone, %: 100 * (1 - R/(R + OD/2)). A mandrel or follower changes it little.
double wall_thinning_percent(double radius_mm, double outside_diameter_mm);
// How far out of round a bend may come, % of OD: 20 * OD/R. A bound from boiler practice, from memory; a former and
// follower that fit keep well within it.
double ovality_percent(double radius_mm, double outside_diameter_mm);

void check_wall(const RunContext& context, std::vector<Finding>& findings);

}  // namespace halfhard
