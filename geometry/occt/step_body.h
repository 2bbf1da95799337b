// The solids of a STEP file as one closed body of triangles, with the analytic shape that they stand for.
#pragma once

#include <string>

#include "geometry/distance/body.h"

namespace halfhard {

// Reads all solids of the file, by its own unit, in its own frame; the result is in mm. Triangles lie within
// `most_deviation_mm` of the surfaces, measured at the middles of all triangles and of their sides; what was measured
// is the body's deviation. The surface closes: every side of a triangle is met by one other the other way round.
// Throws Trouble with a sentence for a person: no STEP file, no solids in it, a surface that does not close, too
// fine to be met. Hostile files can do worse to the kernel than that: call it in a process that may die.
TriangleBody read_step_body_here(const std::string& path, double most_deviation_mm);

}  // namespace halfhard
