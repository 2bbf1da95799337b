// Which stretches of an outline are seen. View frame, mm.
#pragma once

#include <vector>

#include "geometry/views/outline.h"

namespace halfhard::views {

struct Stretch {
  double from = 0, to = 0;  // the outline's parameter
  bool visible = true;
};

// Stretches in order, from the outline's start to its end, neighbours different. Turns are within 0.001 mm; none that
// is longer than 0.5 mm is missed.
std::vector<Stretch> settle(const Outline& outline, const std::vector<Cover>& covers);

}  // namespace halfhard::views
