// Offsets whose angle was taken from a rule of the bench.
#pragma once

#include <vector>

#include "modeller/checks/check_table.h"

namespace halfhard {

// The 600 mm rule setting: a note with its angle. "Angle D for D mm": a note where it is within 3 degrees of the rule
// setting (40 to 50 mm), else a warn.
void check_rule_angle(const RunContext& context, std::vector<Finding>& findings);

}  // namespace halfhard
