// Where the tape is held to lay one mark, and along what, in words: from the start end of the straight tube, or from what
// is already bent.
#pragma once

#include <string>

#include "geometry/plan/plan.h"

namespace halfhard {

struct MarkWords {
  double mm = 0;
  std::string from;      // "the start end", "the back of the start end's leg", "where the backs cross at bend 1"
  std::string sentence;  // whole, with its full stop
  bool from_end = true;  // the tape is held at an end of the tube
};

// As the run's marking says. Legs are named as they are when the mark is laid, as check_dimension.h names them: "the datum
// end's leg", "the leg between bends 1 and 2", "the far end's leg". A tape from a 90 starts at the back of the leg on the
// other side of it; at any other angle that back is not square to the tape, which starts where the outside lines of the
// two legs meet.
MarkWords mark_words(const Run& run, const Bend& bend, LengthUnit unit);

}  // namespace halfhard
