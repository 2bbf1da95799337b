// What can hurt in doing this job, in plain sentences, those that the job calls for only.
#pragma once

#include <string>
#include <vector>

#include "geometry/plan.h"

namespace halfhard {

std::vector<std::string> cautions_of(const Plan& plan);

}  // namespace halfhard
