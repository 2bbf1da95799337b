// How a hot tube grows between two fixed ends.
#pragma once

#include <vector>

#include "modeller/checks/check_table.h"

namespace halfhard {

// Hot runs with both ends connected: a warn where the movement of a leg, less what the connections give, is more than
// the limit and no other leg at 45 degrees or more to it is long enough to bend with it.
void check_expansion(const RunContext& context, std::vector<Finding>& findings);

}  // namespace halfhard
