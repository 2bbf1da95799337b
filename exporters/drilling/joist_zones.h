// Where solid timber joists may be holed or notched, for shading on a drilling sheet; the figures are those that the
// checks judge by (geometry/rules/joist_limits.h). Both published British rules are named for metric jobs, the American one for inch jobs.
#pragma once

#include <string>
#include <vector>

#include "geometry/plan/plan.h"
#include "geometry/views/view.h"

namespace halfhard {

struct JoistZone {
  bool notch = false;                            // else holes
  Vec2 low = Vec2::Zero(), high = Vec2::Zero();  // mm, from the left support and the lower edge
};

struct JoistRules {
  std::vector<JoistZone> zones;
  std::vector<std::string> sentences;  // what the shading means, with the figures for this joist
};

// A joist of this span and depth, seen square to its side.
JoistRules joist_rules(double span_mm, double depth_mm, LengthUnit unit, const Rules& in_force);

}  // namespace halfhard
