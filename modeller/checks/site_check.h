// Does what was taped on site agree with the coordinates of the job?
#pragma once

#include <vector>

#include "modeller/checks/check_table.h"

namespace halfhard {

// A fail where they differ by more than the check's own `within`; without one, by more than a tape reads.
void check_site_checks(const PlanContext& context, std::vector<Finding>& findings);

}  // namespace halfhard
