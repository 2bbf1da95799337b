// Steps added to a pipe's path, as changes of the job's text. Pure functions of a text with its places.
#pragma once

#include <optional>
#include <string>

#include "geometry/plan/plan.h"
#include "modeller/job/json_tree.h"

namespace halfhard {

enum class NewStep { leg, offset, passover, bend };

// Where a new step goes: the path, and the step that it goes after; -1 for the beginning.
struct StepPlace {
  std::string path;
  int after = -1;
};
// After the chosen step; at the end of the chosen pipe's path. Nothing where neither is chosen.
std::optional<StepPlace> step_place(const JsonTree& tree, const std::string& chosen);

// The pipe that a step is added to: the job's unit, and what its bends take up.
struct NewStepFor {
  LengthUnit unit = LengthUnit::mm;
  double former_radius_mm = 0;
  // The leg gives up what an offset or a passover uses along the line, so that all beyond stays where it was. Not for
  // a leg that would be too short then, or where another leg takes the rest.
  bool gives_up = true;
};
struct StepAdded {
  std::string text;
  std::string pointer;  // of the new step
};
// A leg or a bend with its leg stands after the place. An offset or a passover, at 45 degrees and as high as its bends
// need, is put into the middle of the leg at the place, or of the last one before it. Nothing where it finds no leg along
// one of the site's words.
std::optional<StepAdded> with_step(const JsonTree& tree, const StepPlace& place, NewStep step, const NewStepFor& pipe);

}  // namespace halfhard
