// What a table is drawn with: an outside line, row and column lines, the texts of its cells.
#pragma once

#include "exporters/sheet/drawing.h"

namespace halfhard {

std::vector<Primitive> drawn_table(const Table& table);

}  // namespace halfhard
