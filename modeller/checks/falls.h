// Does the line rise and fall as its service needs?
#pragma once

#include <vector>

#include "modeller/checks/check_table.h"

namespace halfhard {

// A vent that does not rise, or a discharge that does not fall, all the way: fail; a discharge flatter than its least
// fall: warn. Which end is the upper one is taken from where the ends lie.
void check_rise_and_fall(const RunContext& context, std::vector<Finding>& findings);

// Water pipes: a high point between two lower parts holds air, a low one holds water. Waste: a dip holds what flows.
void check_high_and_low_points(const RunContext& context, std::vector<Finding>& findings);

}  // namespace halfhard
