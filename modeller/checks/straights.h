// Straights that the bender needs between bends, and that a fitting needs before the first curve.
#pragma once

#include <vector>

#include "modeller/checks/check_table.h"

namespace halfhard {

// Two bends with no straight between that turn the same way in one plane, and together no more than the bender turns:
// they may be made in one pull.
bool may_be_one_pull(const Run& run, int first_bend);

void check_straights_between(const RunContext& context, std::vector<Finding>& findings);
void check_straights_at_fittings(const RunContext& context, std::vector<Finding>& findings);

}  // namespace halfhard
