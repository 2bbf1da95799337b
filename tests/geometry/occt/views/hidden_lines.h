// The solid kernel's own hidden-line removal, as a second opinion on ours.
#pragma once

#include <vector>

#include "geometry/views/view.h"

namespace halfhard::oracle {

using Points = std::vector<Vec2>;

struct HiddenLines {
  std::vector<Points> visible, hidden;  // each an edge as points no farther apart than 0.2 mm
};
double total_mm(const std::vector<Points>& edges);

// Outer solids of these tubes, seen so: sharp edges and outlines.
HiddenLines hidden_lines(const std::vector<SceneTube>& tubes, const View& view);
// The removal alone, nothing read back: for the benchmark.
void remove_hidden_lines(const std::vector<SceneTube>& tubes, const View& view);

}  // namespace halfhard::oracle
