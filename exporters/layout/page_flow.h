// Tables one after another over as many sheets as they need: down a column, then the next column, then the next sheet.
#pragma once

#include <string>
#include <vector>

#include "exporters/layout/label_placer.h"
#include "exporters/sheet/drawing.h"

namespace halfhard {

struct TableBlock {
  std::string heading;
  Table table;       // top_left is set by the flow; columns as wide as they must be
  std::string note;  // a sentence below; may be empty
};

// Entities for each sheet; empty blocks (no rows below the header) are left out. A table that does not fit in what is
// left is cut between rows, its header repeated.
std::vector<std::vector<Entity>> flow_tables(const std::vector<TableBlock>& blocks, const SheetBox& area);

}  // namespace halfhard
