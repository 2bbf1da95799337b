// Pairs that come too near or meet, and bodies that are drilled through.
#pragma once

#include <vector>

#include "modeller/checks/check_table.h"

namespace halfhard {

// One fail for every pair nearer than is required, which concerns both runs of it (what is drilled is not among them); a warn
// where only the uncertainty of a STEP body leaves it open.
void check_clearances(const PlanContext& context, std::vector<Finding>& findings);

// A note for each hole to drill: where, which way, how large.
void check_drillings(const PlanContext& context, std::vector<Finding>& findings);

}  // namespace halfhard
