// Are the pieces of a matched bank really identical?
#pragma once

#include <vector>

#include "modeller/checks/check_table.h"

namespace halfhard {

// Lengths within 1e-6 mm and angles within 1e-6 degree of the first piece's, tube, spare, hooks and order the same: a
// fail otherwise. A bank with equal gaps has pieces that differ: a note that says to mark each for itself.
void check_bank_pieces(const PlanContext& context, std::vector<Finding>& findings);

}  // namespace halfhard
