// How many solids a STEP file holds by its own text, whatever a reader makes of them.
#pragma once

#include <string_view>

namespace halfhard {

// Instances of manifold_solid_brep and its kinds (ISO 10303-42: brep_with_voids, faceted_brep), simple or one of several
// parts; what stands in strings and comments is left out.
int solids_held(std::string_view step_text);

}  // namespace halfhard
