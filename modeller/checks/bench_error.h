// What the bench may be out by, what that does to the far end, and what a bender that was not measured can cost.
#pragma once

#include <vector>

#include "modeller/checks/check_table.h"

namespace halfhard {

// Whether the bender's trial bends were made with this tube (same size, wall and temper); true where it does not say.
// Needs the job's tubes, so that no run check may ask it.
bool calibrated_with_this_tube(const Run& run, const Job& job);

// How far the far end may miss: a note; a warn where a connection waits and the job's tolerance and its looseness do
// not take it up.
void check_free_end(const RunContext& context, std::vector<Finding>& findings);

// Radius, mark offset or spring-back not measured, or measured with another tube: a warn for each bender, with what it
// can cost the worst of its runs.
void check_calibration(const PlanContext& context, std::vector<Finding>& findings);

}  // namespace halfhard
