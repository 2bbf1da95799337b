// What a line of sight meets first. On the triangles that are drawn, so that what is picked is what was seen.
#pragma once

#include <optional>
#include <string>

#include "viewer/drawn.h"
#include "viewer/section.h"
#include "viewer/view_frame.h"

namespace halfhard {

struct Picked {
  PartKind kind = PartKind::run;
  std::string name;
  Vec3 at = Vec3::Zero();
  double along_mm = 0;  // of a run: along its centre line
};

// Pipes and connections come before fixtures that stand in front of them, because fixtures are seen through.
// What a section takes away is not met.
std::optional<Picked> pick(const Drawn& drawn, const Sight& sight, const std::optional<Section>& section);

}  // namespace halfhard
