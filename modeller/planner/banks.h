// The pieces of a bank that are not simply slid: at equal gaps (every leg parallel to the first piece's and at the same
// distance from it), and mirrored.
#pragma once

#include <optional>
#include <vector>

#include "geometry/curve/centreline.h"
#include "modeller/job/job.h"
#include "modeller/job/plan_problem.h"

namespace halfhard {

// Points of piece `number` (from 2), whose step is `step_mm`, by this recurrence: point 0 moves by the step;
// intersection j moves by w - D(j) (w.D(j+1))/(1 + D(j).D(j+1)), D the directions of travel; w then becomes that shift less
// its part along D(j+1); the last point moves by w.
// Nothing, and a problem, where the step runs along the first leg or a leg gets too short.
std::optional<std::vector<Vec3>> points_at_equal_gaps(const CentreLine& first, const Vec3& step_mm, const JobBank& bank,
                                                      int number, Problems& problems);

// A point of the first piece as it stands in a piece turned over: what lies along `step` from `start` is reversed.
// `start` stays where it is.
Vec3 mirrored_point(const Vec3& point, const Vec3& start, const Vec3& step);
Vec3 mirrored_direction(const Vec3& direction, const Vec3& step);

}  // namespace halfhard
