// Solids out of another STEP file's DATA section, written into ours with new numbers: the analytic shape goes on as it
// came, not as triangles.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "exporters/step/part21.h"
#include "geometry/distance/body.h"

namespace halfhard {

// Copies every MANIFOLD_SOLID_BREP and BREP_WITH_VOIDS of `step_data` with all that they refer to, and returns them.
// Texts inside quotes are left alone. Empty where there is none or the text is broken (a reference to nothing, an
// entity that does not end): then nothing is written at all.
std::vector<EntityRef> splice_solids(Part21Text& text, std::string_view step_data);

// Where the frame of the body's own file stands now.
struct Frame {
  Vec3 origin = Vec3::Zero();
  Mat3 axes = Mat3::Identity();  // columns
};

// From the three corners that ExactShape remembers. Empty where they do not span a plane, or have been moved as no
// rigid body moves.
std::optional<Frame> frame_of(const TriangleBody& body);

}  // namespace halfhard
