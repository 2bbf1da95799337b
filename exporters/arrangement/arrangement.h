// The arrangement of a job: every pipe and fixture in plan, elevation, side and isometric, numbered, with the tightest
// clearances, the holes and the clips marked, and lists of pipes, connections, clearances, holes, clips. A3.
// Same plan, same sheets.
#pragma once

#include <vector>

#include "exporters/sheet/drawing.h"
#include "geometry/plan/plan.h"

namespace halfhard {

// Requires at least one run. Sheet 1 has the views, the rest the isometric where it had no room, and the lists.
std::vector<Sheet> arrangement_sheets(const Plan& plan);

}  // namespace halfhard
