// Where the tape lies that sets out a mark from what is already bent, for pictures.
#pragma once

#include <optional>

#include "geometry/bending/check_dimension.h"
#include "geometry/bending/forming.h"

namespace halfhard {

// From where the outside lines of the two legs at bend `mark_from_bend` meet, along the marked leg, to the mark; in the
// frame of before_bend(run, bend.made). Nothing where the tape is held at an end of the tube (mark_words.h).
std::optional<LocatedCheck> located_mark(const Run& run, const Bend& bend);

}  // namespace halfhard
