// How much of a half space's endless face is drawn.
#pragma once

#include <vector>

#include "geometry/views/view.h"

namespace halfhard::views {

// Site frame, mm: the part of the face of body number `which` (a HalfSpace) within the box around the rest of the scene
// grown by `margin_mm`, and on the free side of the other half spaces. Empty where there is none.
std::vector<Vec3> half_space_face(const Scene& scene, size_t which, double margin_mm);

}  // namespace halfhard::views
