// STEP bodies for programs that link no solid kernel: the child program halfhard-solids reads them, so that a bad file
// can only kill the child.
#pragma once

#include <filesystem>
#include <string>
#include <variant>

#include "geometry/distance/body.h"

namespace halfhard {

struct StepBodyLimits {
  int seconds = 30;
  int megabytes = 4096;
};

// All solids of a STEP file, by its own unit and in its own frame, as triangles in mm within 0.02 mm; or, in a sentence
// for a person, why not. The child stands beside the running program; it is stopped at the limits, and where its parent
// ends. Does not throw for anything that a file can be.
std::variant<TriangleBody, std::string> read_step_body(const std::filesystem::path& file);
std::variant<TriangleBody, std::string> read_step_body(const std::filesystem::path& file,
                                                       const std::filesystem::path& child,
                                                       const StepBodyLimits& limits);

}  // namespace halfhard
