// A place to tick for each piece: one a piece and set, in columns.
#pragma once

#include <string>
#include <vector>

#include "exporters/sheet/drawing.h"

namespace halfhard {

// Names of the pieces in the order made, with their set where there are several.
std::vector<std::string> piece_lines(const Plan& plan, const Run& run);

struct TickList {
  std::vector<Entity> entities;
  double height_mm = 0;
  size_t next = 0;  // the first name that found no room
};
// From name number `first` on, as many as fit in the height.
TickList tick_list(const std::vector<std::string>& names, size_t first, const Vec2& top_left, double width_mm,
                   double most_height_mm);

}  // namespace halfhard
