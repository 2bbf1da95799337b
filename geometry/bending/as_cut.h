// The piece of tube as it is cut and fitted: the centre line with the tube that stands inside the fittings at both
// ends.
#pragma once

#include "geometry/plan/run.h"

namespace halfhard {

// `run.line` with its first and last leg made longer by the insertions, so that its length is the cut length (spare,
// which is trimmed, left out). Where both are 0 it is the line itself.
CentreLine line_as_cut(const Run& run);

}  // namespace halfhard
