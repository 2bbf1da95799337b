// All the readings that prove a bend by tape, and the heights that set and show its turn.
#pragma once

#include "geometry/plan/run.h"

namespace halfhard {

// Fills checks, check, by_gauge, turn_height_mm and turn_across_mm of every bend. Together the checks of a bend show
// its angle out by more than `angle_tolerance`, its turn out by more than that, and the other hand; where no tape can,
// by_gauge says so. Each tolerance is the lesser of `length_tolerance_mm` and what `angle_tolerance` moves the reading
// in what it is there to show, at least kLeastTolerance_mm. Requires all else of the bends.
void fill_checks(Run& run, double length_tolerance_mm, Angle angle_tolerance = Angle::degrees(3));

// What a tape can be held to at the bench.
inline constexpr double kLeastTolerance_mm = 0.5;

}  // namespace halfhard
