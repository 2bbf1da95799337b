// Triangles of a solid's faces, and how far they are off. For this folder only.
#pragma once

#include <TopoDS_Shape.hxx>

#include "geometry/distance/body.h"

namespace halfhard {

// Corners that faces share are one vertex. The deviation is measured; `exact` is left empty.
// Throws Trouble where a face has no triangles or the surface does not close.
TriangleBody triangles_of(const TopoDS_Shape& meshed, double weld_mm);

}  // namespace halfhard
