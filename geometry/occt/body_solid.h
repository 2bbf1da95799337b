// The solid of what stands on site, at rest. Site frame, mm. Throws Trouble.
#pragma once

#include "geometry/distance/body.h"
#include "geometry/occt/solid.h"

namespace halfhard {

Solid box_solid(const Box& box);
Solid cylinder_solid(const Cylinder& cylinder);
// One flat face a triangle: as good as the triangles, and as many faces.
Solid triangle_solid(const TriangleBody& body);

}  // namespace halfhard
