// How far the free end of a piece may miss when it is bent by its table: radius, marks and angles carried through.
// A linear estimate for small errors, good to a few per cent of itself; not a bound.
#pragma once

#include "geometry/plan.h"

namespace halfhard {

// What is assumed of the bench. Mark: a pencil line laid by tape (common practice, no source). Radius, measured: what a
// trial bend taped to 0.5 mm gives (common practice, no source); not measured: a tenth, because four published radii of
// 15 mm tube spread from 50 to 60 mm about 55. Angle: the job's own tolerance.
inline constexpr double kMarkError_mm = 0.5;
inline constexpr double kMeasuredRadiusError_mm = 0.5;
inline constexpr double kUnmeasuredRadiusError_share = 0.1;

struct LikelyError {
  double mm = 0;  // root of the sum of the squares of the three
  double from_angles_mm = 0, from_marks_mm = 0, from_radius_mm = 0;
  // The assumptions, in `mm` and degrees.
  double mark_mm = kMarkError_mm, radius_mm = 0;
  Angle angle;
};

// Angles and marks err each by itself (squares add up); the radius errs alike in every bend. 0 for a run without bends.
LikelyError likely_error(const Run& run, const Tolerance& tolerance);

// One sentence for the foot of a table: what it is and what it comes from.
std::string likely_error_text(const LikelyError& error, LengthUnit unit);

}  // namespace halfhard
