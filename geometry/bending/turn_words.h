// How the turn of a bend is set by tape, in words: one convention for cards, tables, page and window.
#pragma once

#include <string>

#include "geometry/base/length_unit.h"
#include "geometry/plan/run.h"

namespace halfhard {

// "With the tube in the bender, turn it until the middle of the start end stands 43 mm above the bender's plane."; for a turn
// that a height tells little of, the distance to the side, too. Above and below by how the bender stands; where the job
// does not say, towards 3 or 9 on the clock. Empty for the bend made first.
std::string turn_words(const Run& run, const Bend& bend, LengthUnit unit);

}  // namespace halfhard
