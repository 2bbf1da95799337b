// The report of a plan: JSON for programs, mm and degrees, never rounded (contract, section 3).
#pragma once

#include <string>

#include "geometry/plan.h"

namespace halfhard {

std::string report(const Plan& plan);

// "fail", "warn", "note".
const char* severity_word(Severity severity);

}  // namespace halfhard
