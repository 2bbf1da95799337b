// Services too near each other.
#pragma once

#include <vector>

#include "modeller/checks/check_table.h"

namespace halfhard {

// Gas beside electric work: 150 mm from supply equipment, 25 mm from cables (BS 6891, from a secondary copy), a fail.
// Cold beside hot in a floor void, by the joists that it lies between: a warn.
void check_separation(const PlanContext& context, std::vector<Finding>& findings);

}  // namespace halfhard
