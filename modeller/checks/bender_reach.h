// Can this bender make these bends in this tube?
#pragma once

#include <vector>

#include "modeller/checks/check_table.h"

namespace halfhard {

// The set angle against the most that the bender turns; the tube against what the former fits.
void check_most_angle(const RunContext& context, std::vector<Finding>& findings);
void check_former(const RunContext& context, std::vector<Finding>& findings);

// A limit that a bender leaves out is not checked: a note for each such bender.
void check_bender_limits(const PlanContext& context, std::vector<Finding>& findings);

}  // namespace halfhard
