// The dimensions of one orthographic view of a pipe.
#pragma once

#include <vector>

#include "exporters/fabrication/dimension_placer.h"
#include "exporters/layout/view_layout.h"

namespace halfhard {

// `across`: a chain of the intersections' places along the view's right, below it; `upright`: the same along its up, at
// its left; the crown in place of the intersection of a passover, and how high it stands over its outside. Legs and
// bends that lie in the view's plane and are not told by the chains are dimensioned beside them. `radius`: one of the
// bends; false again where it is placed.
struct ViewDimensions {
  bool across = false, upright = false, radius = false;
};
// Chains, legs, crowns with the angle of their middle bend.
std::vector<Entity> length_dimensions(const Plan& plan, const Run& run, const PlacedView& view,
                                      const ViewDimensions& wanted, DimensionPlacer& placer);
// The other angles, and the radius.
std::vector<Entity> bend_dimensions(const Plan& plan, const Run& run, const PlacedView& view, ViewDimensions& wanted,
                                    DimensionPlacer& placer);

}  // namespace halfhard
