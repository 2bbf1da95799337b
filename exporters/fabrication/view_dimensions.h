// The dimensions and labels of one orthographic view of a pipe.
#pragma once

#include <vector>

#include "exporters/arrangement/view_layout.h"
#include "exporters/fabrication/dimension_placer.h"

namespace halfhard {

// `across`: a chain of the intersections' places along the view's right, below it; `upright`: the same along its up, at
// its left. Legs and bends that lie in the view's plane and are not told by the chains are dimensioned beside them.
struct ViewDimensions {
  bool across = false, upright = false, radius = false;
};
std::vector<Entity> view_dimensions(const Plan& plan, const Run& run, const PlacedView& view,
                                    const ViewDimensions& wanted, DimensionPlacer& placer);
// Bend numbers and the two ends.
std::vector<Entity> point_labels(const Run& run, const PlacedView& view, DimensionPlacer& placer);

}  // namespace halfhard
