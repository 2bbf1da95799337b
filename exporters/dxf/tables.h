// The parts of a DXF file that are the same for every drawing but for its sizes: header, tables of line types, layers,
// text and dimension styles, and the dictionary of layouts.
#pragma once

#include <vector>

#include "exporters/dxf/dimensions.h"
#include "exporters/dxf/tags.h"

namespace halfhard {

// Handles that parts of the file name one another by.
struct DxfHandles {
  std::string model_record, paper_record, model_layout, paper_layout;
};

struct BlockName {
  std::string name, record;  // "*D1" and its BLOCK_RECORD's handle
};

Tags dxf_header(const Sheet& sheet, const std::string& handle_seed);
Tags dxf_tables(Handles& handles, const Sheet& sheet, const DimensionStyles& styles, const DxfHandles& known,
                const std::vector<BlockName>& blocks);
Tags dxf_objects(Handles& handles, const Sheet& sheet, const DxfHandles& known);

}  // namespace halfhard
