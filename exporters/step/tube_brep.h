// A bent tube as analytic boundary representation: cylinders, tori and two flat ends in one closed shell, with the same
// seams as the solid of geometry/occt (see tube_skin.h). Site frame, mm.
// Requires: 0 <= inner < outer, outer below the radius of the bends.
#pragma once

#include "exporters/step/part21.h"
#include "geometry/curve/centreline.h"

namespace halfhard {

// The MANIFOLD_SOLID_BREP; inner 0 makes a rod.
EntityRef add_tube_brep(Part21Text& text, const CentreLine& line, double outer_radius_mm, double inner_radius_mm,
                        std::string_view name);

}  // namespace halfhard
