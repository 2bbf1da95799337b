// How far services keep from each other by rule.
#pragma once

#include "geometry/plan/fixture.h"
#include "geometry/plan/rules.h"

namespace halfhard {

// Between two pipes of these services, mm; 0 where no rule asks for any. Gas keeps from electric cables.
double service_separation_mm(Service a, Service b, const Rules& rules);

}  // namespace halfhard
