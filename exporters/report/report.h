// The report of a plan: JSON for programs, mm and degrees, never rounded; README.md tells its users what it holds.
#pragma once

#include <functional>
#include <string>
#include <string_view>

#include "geometry/plan/plan.h"

namespace halfhard {

std::string report(const Plan& plan);
// The same text, handed on piece by piece.
void write_report(const Plan& plan, const std::function<void(std::string_view)>& sink);

}  // namespace halfhard
