// A line's points as path steps: what a person would write for them.
#pragma once

#include <vector>

#include "modeller/job/job.h"

namespace halfhard {

// Legs as `go`; two equal bends between legs along one site direction as an `offset`; up, perhaps along, and
// down again to the same line as a `passover`; the last leg takes the `rest`.
// Directions within 1e-9 of a site word become it.
std::vector<PathStep> steps_from_points(const std::vector<Vec3>& points);

}  // namespace halfhard
