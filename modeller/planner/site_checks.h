// The distances that a person taped on site to prove the job's coordinates.
#pragma once

#include <vector>

#include "geometry/plan/plan.h"
#include "modeller/job/job.h"
#include "modeller/job/plan_problem.h"

namespace halfhard {

std::vector<SiteCheck> site_checks_of(const Job& job, Problems& problems);

}  // namespace halfhard
