// Work that is for the registered or competent person only.
#pragma once

#include <vector>

#include "modeller/checks/check_table.h"

namespace halfhard {

// Gas, vent and discharge runs, vents and discharges of unvented hot water among them: a note each.
void check_who_may_fit(const RunContext& context, std::vector<Finding>& findings);

}  // namespace halfhard
