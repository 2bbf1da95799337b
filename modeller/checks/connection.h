// Do the ends of a run meet their connections?
#pragma once

#include <vector>

#include "modeller/checks/check_table.h"

namespace halfhard {

// Out of place by more than the job's rules let an end be, or the tube turned from the fitting by more.
void check_connections(const RunContext& context, std::vector<Finding>& findings);

}  // namespace halfhard
