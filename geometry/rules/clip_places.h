// Where to clip a run.
#pragma once

#include <optional>
#include <vector>

#include "geometry/plan/plan.h"
#include "geometry/rules/clip_spacing.h"

namespace halfhard {

// Proposed places, datum end first: none within a bend or nearer than one outside diameter to one or to the tube's end;
// no farther from each other and from connected ends than the spacing, from a loose end than half of it, wherever the
// straights allow; evenly spread where that can be; at least one on any tube that has a straight to hold it by.
std::vector<Clip> clip_places(const Run& run, const ClipSpacing& spacing);

// The longest stretch between these clips, or from one to the tube's end, that is longer than it may be.
struct UnheldStretch {
  double length_mm = 0, limit_mm = 0;
};
std::optional<UnheldStretch> unheld_stretch(const Run& run, const ClipSpacing& spacing, const std::vector<Clip>& clips);

}  // namespace halfhard
