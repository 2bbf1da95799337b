#include "exporters/dxf/dxf.h"

#include "exporters/dxf/dimensions.h"
#include "exporters/dxf/entities.h"
#include "exporters/dxf/tables.h"

namespace halfhard {
namespace {

void write_block(Tags& out, Handles& handles, const BlockName& block, const Tags& content) {
  out(0, "BLOCK")(5, handles.next())(330, block.record)(100, "AcDbEntity")(8, "0")(100, "AcDbBlockBegin");
  out(2, block.name)(70, block.name.starts_with("*D") ? 1 : 0).point(10, {0, 0})(3, block.name)(1, "");
  out.append(content);
  out(0, "ENDBLK")(5, handles.next())(330, block.record)(100, "AcDbEntity")(8, "0")(100, "AcDbBlockEnd");
}

}  // namespace

std::string dxf(const Sheet& sheet) {
  Handles handles;
  const DxfHandles known = {handles.next(), handles.next(), handles.next(), handles.next()};
  const DimensionStyles styles = dimension_styles(sheet);

  Tags entities, blocks;
  std::vector<BlockName> dimension_blocks;
  write_block(blocks, handles, {"*Model_Space", known.model_record}, {});
  write_block(blocks, handles, {"*Paper_Space", known.paper_record}, {});
  for (const Entity& entity : sheet.entities) {
    if (const auto* dimension = std::get_if<Dimension>(&entity)) {
      const BlockName block = {"*D" + std::to_string(dimension_blocks.size() + 1), handles.next()};
      Tags shown;
      for (const Primitive& primitive : drawn(entity))
        dxf_primitive(shown, handles, block.record, primitive, sheet.scale);
      write_block(blocks, handles, block, shown);
      dimension_blocks.push_back(block);
      dxf_dimension(entities, handles, known.model_record, block.name, *dimension, sheet, styles);
    } else {
      for (const Primitive& primitive : drawn(entity))
        dxf_primitive(entities, handles, known.model_record, primitive, sheet.scale);
    }
  }
  const Tags tables = dxf_tables(handles, sheet, styles, known, dimension_blocks);
  const Tags objects = dxf_objects(handles, sheet, known);

  Tags out = dxf_header(sheet, handles.seed());
  out(0, "SECTION")(2, "CLASSES")(0, "ENDSEC").append(tables);
  out(0, "SECTION")(2, "BLOCKS").append(blocks)(0, "ENDSEC");
  out(0, "SECTION")(2, "ENTITIES").append(entities)(0, "ENDSEC").append(objects)(0, "EOF");
  return out.text();
}

}  // namespace halfhard
