// The job as a binary glTF 2.0 model (Khronos, ISO/IEC 12113): one mesh a shape of pipe, banked pieces as nodes that
// share it, lagging and fixtures translucent. glTF's own frame: metres, Y up, so that the site's up is up.
// A node of a pipe carries "extras": {"run": index into Plan::runs}.
#pragma once

#include <string>

#include "geometry/plan/plan.h"

namespace halfhard {

// Pipes are within 0.2 mm of their true shape. Same plan, same bytes.
std::string glb_of_job(const Plan& plan);

}  // namespace halfhard
