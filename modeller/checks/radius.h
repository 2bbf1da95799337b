// Can this tube be bent to this radius at all?
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "modeller/checks/check_table.h"

namespace halfhard {

// Below the published radius: warn, because the published figures for one tube differ among themselves. Tighter than
// `kink_radius`: fail. Tube too large to bend cold: warn.
void check_radius(const RunContext& context, std::vector<Finding>& findings);

}  // namespace halfhard
