// Where to clip a run, said to people.
#pragma once

#include <vector>

#include "modeller/checks/check_table.h"

namespace halfhard {

// A note with the places; a warn for a stretch that cannot be clipped closely enough.
void check_clips(const RunContext& context, std::vector<Finding>& findings);

}  // namespace halfhard
