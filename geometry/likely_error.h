// The likely error that papers say once: how far the free end may miss when a piece is bent by its table alone, without
// the check dimensions. end_error.h carries the errors through; here is what is assumed of the bench.
#pragma once

#include "geometry/end_error.h"
#include "geometry/plan.h"

namespace halfhard {

// A pencil line laid by tape; a radius taped off a trial bend (both common practice, no source).
inline constexpr double kMarkError_mm = 0.5;
inline constexpr double kMeasuredRadiusError_mm = 0.5;
// A radius that was not measured: four published radii of 15 mm tube spread from 50 to 60 mm about 55, a tenth.
inline constexpr double kUnmeasuredRadiusError_share = 0.1;

struct LikelyError {
  BenchErrors assumed;  // angles and rotations within the job's tolerance
  EndError at_end;
  double mm = 0;  // at_end.total_mm()
};

LikelyError likely_error(const Run& run, const Tolerance& tolerance);

// One sentence for the foot of a table: how much, and what it comes from. Empty for a straight piece.
std::string likely_error_text(const Run& run, const Tolerance& tolerance, LengthUnit unit);

}  // namespace halfhard
