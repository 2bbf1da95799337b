// STEP files (ISO 10303-214, mm) of pipes and of a whole job, analytic: tubes are cylinders and tori. Written by us as
// text: no solid kernel is needed, and the same plan gives the same bytes. The site frame is kept (X right, Y back,
// Z up, the job's origin), in single pipes too.
#pragma once

#include <string>

#include "geometry/plan/plan.h"

namespace halfhard {

// One part: the piece of tube as it is cut (what stands inside the fittings included, spare and lagging left out), so
// that its volume is Run::metal_volume_mm3.
std::string step_of_run(const Plan& plan, const Run& run);

// One assembly of named, coloured parts: every run, its lagging as a part of its own, every fixture at rest. Runs of
// one shape share it as instances. Walls and floors, which are endless, are thin slabs as wide as the job.
std::string step_of_job(const Plan& plan);

}  // namespace halfhard
