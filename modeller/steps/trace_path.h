// From path steps to intersections: finds what only the connection can tell and refuses what cannot be bent.
#pragma once

#include "modeller/steps/walker.h"

namespace halfhard {

struct TracedPath {
  std::vector<Vec3> points;           // start, intersections (turns of 0.01 degree and more), end
  std::vector<std::string> pointers;  // of the step that turns at each point; "" at the ends
  std::vector<LaidOffset> offsets;    // first_point counts in `points`
  std::vector<WalkNote> notes;
  Problems problems;  // where not empty, the rest is not to be used
};

// `end`: the `to` connection's mouth, where the run has one. `radius_mm`: of every bend.
TracedPath trace_path(const PathContext& context, const std::vector<PathStep>& steps, const std::optional<Vec3>& end,
                      const std::string& run_pointer);

}  // namespace halfhard
