// Can this tube be bent to this radius at all?
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "modeller/checks/table.h"

namespace halfhard {

struct SmallestRadius {
  double radius_mm = 0;
  std::string source;
};
// The published least centre-line radius of half-hard (R250) or drawn tube by its outside diameter, within 0.3 mm of a
// size in the table; nothing where none is published.
std::optional<SmallestRadius> published_smallest_radius(const Tube& tube);

// Below the published radius: warn, because the published figures for one tube differ among themselves. Tighter than
// `kink_radius`: fail. Tube too large to bend cold: warn.
void check_radius(const RunContext& context, std::vector<Finding>& findings);

}  // namespace halfhard
