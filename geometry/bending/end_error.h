// How far a bent pipe's free end moves when the bench is a little out. First order: errors of a few mm and degrees on
// pipes of a few metres are right within a few per cent of themselves. The datum end is held where it belongs, marks
// stay where they were laid on the blank, a bend grows or shrinks at the side that is not on the hook.
#pragma once

#include "geometry/base/angle.h"
#include "geometry/base/vec.h"
#include "geometry/plan/run.h"

namespace halfhard {

// What the bench may be out by. Radius and mark offset are out the same way for every bend, spring-back in proportion
// to the angle; marks, angles and rotations are out by chance, each bend by itself.
struct BenchErrors {
  double radius_mm = 0;
  double mark_offset_mm = 0;
  Angle spring_back_at_90;
  double mark_mm = 0;
  Angle angle;
  Angle rotation;
};

// mm at the free end, each cause by itself.
struct EndError {
  double radius_mm = 0, mark_offset_mm = 0, spring_back_mm = 0;  // all bends out together
  double marks_mm = 0, angles_mm = 0, rotations_mm = 0;          // root of the sum of squares over the bends
  // The causes are independent of each other: root of the sum of squares of all six.
  double total_mm() const;
};

// 0 throughout for a straight tube. Linear in each error.
EndError end_error(const Run& run, const BenchErrors& errors);

}  // namespace halfhard
