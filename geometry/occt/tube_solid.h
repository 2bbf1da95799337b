// The solid of a bent tube, built face by face from cylinders and tori: no Booleans, no sweeps, no splines.
// Site frame, mm.
// Requires: 0 <= inner < outer, and outer below the bend radius where the line bends (see can_be_solid); the line does
// not cross itself (its own check finds that; a crossing one is built all the same and crosses itself).
// Guarantees: one closed solid with natural seams (see tube_skin.h), hollow where inner > 0, flat ends square to the
// line. Its volume is that of the closed form within 1e-12.
// Throws Trouble.
#pragma once

#include "geometry/curve/centreline.h"
#include "geometry/occt/solid.h"

namespace halfhard {

Solid tube_solid(const CentreLine& line, double outer_radius_mm, double inner_radius_mm);

// Whether bends of this line leave room for a tube or its lagging of this radius.
bool can_be_solid(const CentreLine& line, double outer_radius_mm);

}  // namespace halfhard
