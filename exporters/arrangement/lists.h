// What the arrangement sheet says in tables.
#pragma once

#include <vector>

#include "exporters/layout/callouts.h"
#include "exporters/layout/page_flow.h"
#include "geometry/plan/plan.h"

namespace halfhard {

TableBlock list_of_pipes(const Plan& plan);
TableBlock list_of_clearances(const Plan& plan, const std::vector<Callout>& callouts);
TableBlock list_of_connections(const Plan& plan);  // both ends of each pipe
TableBlock list_of_clips(const Plan& plan);
TableBlock list_of_holes(const Plan& plan);  // "H1" is the first of Plan::drillings
TableBlock list_of_site_checks(const Plan& plan);

}  // namespace halfhard
