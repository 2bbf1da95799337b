// Can the run be cut from one length of tube?
#pragma once

#include <vector>

#include "modeller/checks/check_table.h"

namespace halfhard {

// Blank longer than the longest stock length: a warn, since a longer length may be had.
void check_stock_length(const RunContext& context, std::vector<Finding>& findings);

}  // namespace halfhard
