// The pieces of a bank at equal gaps: every leg parallel to the first piece's and at the same distance from it.
#pragma once

#include <optional>
#include <vector>

#include "geometry/curve/centreline.h"
#include "modeller/job/job.h"
#include "modeller/job/plan_problem.h"

namespace halfhard {

// Points of piece `number` (from 2), whose step is `step_mm`, by the recurrence of contract.md section 2 "Banks".
// Nothing, and a problem, where the step runs along the first leg or a leg gets too short.
std::optional<std::vector<Vec3>> points_at_equal_gaps(const CentreLine& first, const Vec3& step_mm, const JobBank& bank,
                                                      int number, Problems& problems);

}  // namespace halfhard
