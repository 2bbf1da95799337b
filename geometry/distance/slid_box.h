// A box swept along a straight: longer along one of its axes, or the solid with up to twelve flat faces.
#pragma once

#include "geometry/distance/obstacle_kinds.h"

namespace halfhard {

// Exact for every direction of the shift; nothing for a sheet without thickness that slides askew.
std::shared_ptr<Obstacle::Kind> slid_box_kind(const Box& box, const Vec3& shift);

}  // namespace halfhard
