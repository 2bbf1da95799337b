// What a table is drawn with: an outside line, row and column lines, the texts of its cells.
#pragma once

#include "exporters/sheet/drawing.h"

namespace halfhard {

// A cell's text may have line ends; at least one line.
std::vector<std::string> lines_of_cell(const std::string& cell);

std::vector<Primitive> drawn_table(const Table& table);

}  // namespace halfhard
