// Where to clip a run.
#pragma once

#include <string>
#include <vector>

#include "geometry/plan/plan.h"
#include "modeller/checks/check_table.h"

namespace halfhard {

// How far apart clips of a tube may stand, mm along the tube.
struct ClipSpacing {
  double level_mm = 0, upright_mm = 0;
  std::string source;
  std::string remark;  // the job's own reason, where it sets them
};
// By outside diameter, the next smaller size where between two; inch tubes (ASTM B88) by the American rule.
ClipSpacing clip_spacing(const Tube& tube);
// The same with the job's own limits in place.
ClipSpacing clip_spacing(const Tube& tube, const Job& job);

// Proposed places, datum end first: none within a bend or nearer than one outside diameter to one or to the tube's end;
// no farther from each other and from connected ends than the spacing, from a loose end than half of it, wherever the
// straights allow; evenly spread where that can be; at least one on any tube that has a straight to hold it by.
std::vector<Clip> clip_places(const Run& run, const ClipSpacing& spacing);
std::vector<Clip> clip_places(const Run& run);

// A note with the places; a warn for a stretch that cannot be clipped closely enough.
void check_clips(const RunContext& context, std::vector<Finding>& findings);

}  // namespace halfhard
