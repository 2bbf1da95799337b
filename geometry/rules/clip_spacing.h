// How far apart the clips of a tube may stand.
#pragma once

#include <string>

#include "geometry/plan/rules.h"
#include "geometry/plan/tube.h"

namespace halfhard {

struct ClipSpacing {
  double level_mm = 0, upright_mm = 0;  // along the tube
  std::string source;
  std::string remark;  // the job's own reason, where it sets them
};

// By outside diameter, the next smaller size where between two; inch tubes (ASTM B88) by the American rule; the job's
// own limits in place of either.
ClipSpacing clip_spacing(const Tube& tube, const Rules& rules);

}  // namespace halfhard
