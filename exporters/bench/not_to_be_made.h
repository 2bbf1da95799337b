// Why a run must not be made, as every paper of it says.
#pragma once

#include <string>
#include <vector>

#include "geometry/plan/plan.h"

namespace halfhard {

// The failing findings that name this run or the whole job, in the plan's order.
std::vector<const Finding*> failures_of(const Plan& plan, const Run& run);

// "NOT TO BE MADE: message" and, for each further one, "Also: message"; empty where nothing fails.
std::vector<std::string> reasons_not_to_make(const Plan& plan, const Run& run);

// The same as one paragraph; "" where nothing fails.
std::string not_to_be_made(const Plan& plan, const Run& run);

// Where there is room for one only: "NOT TO BE MADE: message And 3 more: see the findings."
std::string not_to_be_made_in_short(const Plan& plan, const Run& run);

}  // namespace halfhard
