// Check sheet for a class or a second pair of eyes: for each finished piece of each set a table of what to measure, its
// target, its tolerance (the job's own), and room for what was measured and whether it passes. (Its file is called
// marking-sheet.) Every length is one that a tape can take: legs over the backs, with their length to the centres beside.
// Of a piece that fails it says why and gives no targets.
#pragma once

#include <string>
#include <vector>

#include "exporters/sheet/drawing.h"

namespace halfhard {

// One thing to measure on a piece.
struct MarkingLine {
  std::string what, target, tolerance;
};
// Of one piece, in the order measured: offsets at both ends, legs parallel, angles, legs, twist, gap, flattening.
std::vector<MarkingLine> marking_lines(const Plan& plan, const Run& run);

// A4 sheets for all the runs of the plan and all its sets; empty where nothing is bent.
std::vector<Sheet> marking_sheets(const Plan& plan);

// How far the angle of both bends of an offset may be out, the travel between them as it should be, before the offset is
// out by `tolerance_mm`: the nearer side. For 70 at 45 degrees and 3 mm: 2.4 degrees. Above 0; 90 where none is enough.
Angle angle_that_uses_up(double true_mm, Angle angle, double tolerance_mm);

}  // namespace halfhard
