// Numbers of the bends in rings, right at the bends, and what the ends are.
#pragma once

#include <vector>

#include "exporters/fabrication/dimension_placer.h"
#include "exporters/layout/view_layout.h"

namespace halfhard {

// In an isometric every bend; else those that are seen to bend. A ring that must stand off has a leader.
std::vector<Entity> bend_rings(const Run& run, const PlacedView& view, DimensionPlacer& placer);
// "mouth at start end" and "+ 15 mm in the fitting": views go from mouth to mouth, marks from the tube's own end.
std::vector<Entity> end_labels(const Run& run, const PlacedView& view, LengthUnit unit, DimensionPlacer& placer);

// "mouth at start end"; "far end" where nothing stands in a fitting.
std::string end_name(const Run& run, End end);

}  // namespace halfhard
