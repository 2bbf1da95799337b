// What `correct` found, for programs: "halfhard-correction/1".
#pragma once

#include <string>

#include "modeller/bench/correct.h"

namespace halfhard {

// Angles degrees, lengths mm. As made with the half-width of the 95 % interval; null where the readings do not determine
// it: the far end where an angle of what is made is not known, pull_to_deg where a bend is opened by hand.
std::string correction_json(const Run& run, const CorrectionPlan& made);

}  // namespace halfhard
