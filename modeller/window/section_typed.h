// A section as a person types it: "back 300", "down -20", "right 11-3/4 in".
#pragma once

#include <optional>
#include <string>

#include "geometry/base/length_unit.h"
#include "viewer/section.h"

namespace halfhard {

// A site word, then how far from the job's origin: a number in the job's unit, or a length with its own; parted by spaces
// or "=". Nothing where the text is not of that form.
std::optional<Section> section_typed(const std::string& text, LengthUnit unit);

}  // namespace halfhard
