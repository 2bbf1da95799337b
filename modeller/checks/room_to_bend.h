// Whether each bend can be pulled to its angle without the piece meeting itself, the bender, the bench, the floor or the
// wall.
#pragma once

#include <vector>

#include "modeller/checks/check_table.h"

namespace halfhard {

// A finding for each bend that touches on its way, with where and at which pull, and what would help. The pipe that
// meets itself fails; what meets the bender or what it stands on fails by the job's own figures and warns by usual ones.
void check_room_to_bend(const RunContext& context, std::vector<Finding>& findings);

}  // namespace halfhard
