// Where to clip a run.
#pragma once

#include <string>
#include <vector>

#include "geometry/plan.h"
#include "modeller/checks/table.h"

namespace halfhard {

// How far apart clips of a tube may stand, mm along the tube.
struct ClipSpacing {
  double level_mm = 0, upright_mm = 0;
  std::string source;
};
// By outside diameter; inch tubes (ASTM B88) by the American rule.
ClipSpacing clip_spacing(const Tube& tube);

// Proposed places, datum end first: none within a bend or nearer than one outside diameter to one, none farther from
// its neighbour, or from the tube's ends, than the spacing wherever straights allow; at least one on any tube that has
// a straight to hold it by.
std::vector<Clip> clip_places(const Run& run);

void check_clips(const RunContext& context, std::vector<Finding>& findings);

}  // namespace halfhard
