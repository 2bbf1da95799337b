// Bodies with flat faces as boundary representation, and the closed shell that every solid of ours ends in. mm.
#pragma once

#include <string_view>
#include <vector>

#include "exporters/step/part21.h"
#include "geometry/distance/body.h"

namespace halfhard {

// CLOSED_SHELL and MANIFOLD_SOLID_BREP of these faces.
EntityRef add_closed_solid(Part21Text& text, const std::vector<EntityRef>& faces, std::string_view name);

EntityRef add_box_brep(Part21Text& text, const Box& box, std::string_view name);

// One flat face a triangle, one solid a connected surface; a surface that looks inwards is a hollow of the
// solid whose room it stands in. For bodies whose exact shape is not known.
std::vector<EntityRef> add_triangle_breps(Part21Text& text, const TriangleBody& body, std::string_view name);

}  // namespace halfhard
