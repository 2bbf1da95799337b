#include "exporters/dxf/tables.h"

#include <algorithm>
#include <cmath>

#include "exporters/dxf/entities.h"
#include "exporters/sheet/line_pattern.h"

namespace halfhard {
namespace {

constexpr LineStyle kStyles[] = {LineStyle::dashed, LineStyle::chain, LineStyle::double_chain, LineStyle::dotted,
                                 LineStyle::long_dashed};
constexpr Layer kLayers[] = {Layer::outline, Layer::hidden, Layer::centre, Layer::dimension, Layer::text,
                             Layer::table,   Layer::frame,  Layer::mark,   Layer::fixture};

// Starts a table; returns its handle, which its records name as owner.
std::string begin_table(Tags& out, Handles& handles, const char* name, int records) {
  const std::string handle = handles.next();
  out(0, "TABLE")(2, name)(5, handle)(330, "0")(100, "AcDbSymbolTable")(70, records);
  if (std::string(name) == "DIMSTYLE") out(100, "AcDbDimStyleTable");
  return handle;
}

void begin_record(Tags& out, const std::string& handle, const std::string& table, const char* type, const char* marker,
                  const std::string& name, int flags = 0) {
  out(0, type)(std::string(type) == "DIMSTYLE" ? 105 : 5, handle)(330, table)(100, "AcDbSymbolTableRecord");
  out(100, marker)(2, name)(70, flags);
}

void write_view_port(Tags& out, Handles& handles, const Sheet& sheet) {
  const std::string table = begin_table(out, handles, "VPORT", 1);
  const double w = sheet.size.width_mm * sheet.scale, h = sheet.size.height_mm * sheet.scale;
  begin_record(out, handles.next(), table, "VPORT", "AcDbViewportTableRecord", "*Active");
  out.flat_point(10, {0, 0}).flat_point(11, {1, 1}).flat_point(12, {w / 2, h / 2}).flat_point(13, {0, 0});
  out.flat_point(14, {10, 10}).flat_point(15, {10, 10}).point(16, {0, 0});
  // point() writes z as 0, but the view looks along z.
  out(36, 1.0).point(17, {0, 0})(40, h * 1.05)(41, w / h)(42, 50.0)(43, 0.0)(44, 0.0)(50, 0.0)(51, 0.0);
  out(71, 0)(72, 1000)(73, 1)(74, 3)(75, 0)(76, 0)(77, 0)(78, 0)(281, 0)(65, 1);
  out.point(110, {0, 0}).point(111, {1, 0}).point(112, {0, 1})(79, 0)(146, 0.0);
  out(0, "ENDTAB");
}

void write_line_types(Tags& out, Handles& handles) {
  const std::string table = begin_table(out, handles, "LTYPE", 3 + static_cast<int>(std::size(kStyles)));
  for (const char* name : {"ByBlock", "ByLayer", "Continuous"}) {
    begin_record(out, handles.next(), table, "LTYPE", "AcDbLinetypeTableRecord", name);
    out(3, "")(72, 65)(73, 0)(40, 0.0);
  }
  for (const LineStyle style : kStyles) {
    const std::vector<double> pattern = line_pattern_mm(style);
    double length = 0;
    for (const double part : pattern) length += part;
    begin_record(out, handles.next(), table, "LTYPE", "AcDbLinetypeTableRecord", dxf_line_type(style));
    out(3, "")(72, 65)(73, static_cast<int>(pattern.size()))(40, length);
    for (std::size_t i = 0; i < pattern.size(); ++i) out(49, i % 2 == 0 ? pattern[i] : -pattern[i])(74, 0);
  }
  out(0, "ENDTAB");
}

void write_layers(Tags& out, Handles& handles) {
  const std::string table = begin_table(out, handles, "LAYER", 1 + static_cast<int>(std::size(kLayers)));
  const auto layer = [&](const char* name, const char* line_type, double width_mm) {
    begin_record(out, handles.next(), table, "LAYER", "AcDbLayerTableRecord", name);
    out(62, 7)(6, line_type)(370, static_cast<int>(std::lround(width_mm * 100)));
  };
  layer("0", "Continuous", 0.25);
  for (const Layer it : kLayers) layer(layer_name(it), dxf_line_type(pen_of(it).style), pen_of(it).width_mm);
  out(0, "ENDTAB");
}

void write_text_styles(Tags& out, Handles& handles) {
  const std::string table = begin_table(out, handles, "STYLE", 3);
  const auto style = [&](const char* name, const char* file) {
    begin_record(out, handles.next(), table, "STYLE", "AcDbTextStyleTableRecord", name);
    out(40, 0.0)(41, 1.0)(50, 0.0)(71, 0)(42, 2.5)(3, file)(4, "");
  };
  style("Standard", "DejaVuSans.ttf");
  style("HALFHARD", "DejaVuSans.ttf");
  style("HALFHARD_BOLD", "DejaVuSans-Bold.ttf");
  out(0, "ENDTAB");
}

// Sizes are paper mm; DIMSCALE enlarges them with the sheet. What is left out keeps the reader's default.
void write_dimension_style(Tags& out, const std::string& handle, const std::string& table, const std::string& name,
                           double factor, const Sheet& sheet) {
  begin_record(out, handle, table, "DIMSTYLE", "AcDbDimStyleTableRecord", name);
  const bool inches = sheet.unit == LengthUnit::inch;
  out(40, sheet.scale)(41, 2.5)(42, 1.0)(43, 3.75)(44, 1.5)(45, inches ? 0.03125 : 0.5);  // rounded to 0.5 mm, 1/32 in
  out(73, 0)(74, 0)(77, 1)(78, 8)(140, 2.5)(141, 2.5)(144, factor)(147, 0.8)(172, 1)(179, 1);
  out(271, inches ? 5 : 1)(276, 2)(277, inches ? 4 : 2)(278, 46);
}

void write_dimension_styles(Tags& out, Handles& handles, const Sheet& sheet, const DimensionStyles& styles) {
  const std::string table = begin_table(out, handles, "DIMSTYLE", 1 + static_cast<int>(styles.name_by_factor.size()));
  write_dimension_style(out, handles.next(), table, "Standard", 1, sheet);
  for (const auto& [factor, name] : styles.name_by_factor)
    write_dimension_style(out, handles.next(), table, name, factor, sheet);
  out(0, "ENDTAB");
}

void write_block_records(Tags& out, Handles& handles, const DxfHandles& known, const std::vector<BlockName>& blocks) {
  const std::string table = begin_table(out, handles, "BLOCK_RECORD", 2 + static_cast<int>(blocks.size()));
  const auto record = [&](const std::string& handle, const std::string& name, const std::string& layout) {
    out(0, "BLOCK_RECORD")(5, handle)(330, table)(100, "AcDbSymbolTableRecord")(100, "AcDbBlockTableRecord")(2, name);
    out(340, layout)(70, 4)(280, 1)(281, 0);
  };
  record(known.model_record, "*Model_Space", known.model_layout);
  record(known.paper_record, "*Paper_Space", known.paper_layout);
  for (const BlockName& block : blocks) record(block.record, block.name, "0");
  out(0, "ENDTAB");
}

void write_layout(Tags& out, const std::string& handle, const std::string& dictionary, const char* name, int order,
                  const std::string& record, const Sheet& sheet) {
  const double w = sheet.size.width_mm * sheet.scale, h = sheet.size.height_mm * sheet.scale;
  out(0, "LAYOUT")(5, handle)(330, dictionary)(100, "AcDbPlotSettings")(1, "")(2, "")(4, "")(6, "");
  out(40, 0.0)(41, 0.0)(42, 0.0)(43, 0.0)(44, sheet.size.width_mm)(45, sheet.size.height_mm);
  out(46, 0.0)(47, 0.0)(48, 0.0)(49, 0.0)(140, 0.0)(141, 0.0)(142, 1.0)(143, sheet.scale);
  out(70, order == 0 ? 1024 : 0)(72, 1)(73, 0)(74, 5)(7, "")(75, 16)(147, 1.0)(148, 0.0)(149, 0.0);
  out(100, "AcDbLayout")(1, name)(70, 1)(71, order).flat_point(10, {0, 0}).flat_point(11, {w, h});
  out.point(12, {0, 0}).point(14, {0, 0}).point(15, {w, h})(146, 0.0);
  out.point(13, {0, 0}).point(16, {1, 0}).point(17, {0, 1})(76, 0)(330, record);
}

}  // namespace

Tags dxf_header(const Sheet& sheet, const std::string& handle_seed) {
  Tags out;
  const Vec2 corner = Vec2(sheet.size.width_mm, sheet.size.height_mm) * sheet.scale;
  const bool inches = sheet.unit == LengthUnit::inch;
  out(0, "SECTION")(2, "HEADER");
  out(9, "$ACADVER")(1, "AC1024")(9, "$DWGCODEPAGE")(3, "ANSI_1252");
  out(9, "$INSBASE").point(10, {0, 0})(9, "$EXTMIN").point(10, {0, 0})(9, "$EXTMAX").point(10, corner);
  out(9, "$LIMMIN").flat_point(10, {0, 0})(9, "$LIMMAX").flat_point(10, corner);
  out(9, "$LTSCALE")(40, sheet.scale)(9, "$TEXTSTYLE")(7, "HALFHARD")(9, "$CLAYER")(8, "0");
  out(9, "$DIMSTYLE")(2, "Standard")(9, "$DIMSCALE")(40, sheet.scale);
  out(9, "$LUNITS")(70, inches ? 4 : 2)(9, "$AUNITS")(70, 0)(9, "$INSUNITS")(70, 4)(9, "$MEASUREMENT")(70, 1);
  out(9, "$LWDISPLAY")(290, 1)(9, "$HANDSEED")(5, handle_seed);
  out(0, "ENDSEC");
  return out;
}

Tags dxf_tables(Handles& handles, const Sheet& sheet, const DimensionStyles& styles, const DxfHandles& known,
                const std::vector<BlockName>& blocks) {
  Tags out;
  out(0, "SECTION")(2, "TABLES");
  write_view_port(out, handles, sheet);
  write_line_types(out, handles);
  write_layers(out, handles);
  write_text_styles(out, handles);
  for (const char* name : {"VIEW", "UCS"}) {
    begin_table(out, handles, name, 0);
    out(0, "ENDTAB");
  }
  const std::string applications = begin_table(out, handles, "APPID", 1);
  begin_record(out, handles.next(), applications, "APPID", "AcDbRegAppTableRecord", "ACAD");
  out(0, "ENDTAB");
  write_dimension_styles(out, handles, sheet, styles);
  write_block_records(out, handles, known, blocks);
  out(0, "ENDSEC");
  return out;
}

Tags dxf_objects(Handles& handles, const Sheet& sheet, const DxfHandles& known) {
  Tags out;
  const std::string root = handles.next(), groups = handles.next(), layouts = handles.next();
  out(0, "SECTION")(2, "OBJECTS");
  out(0, "DICTIONARY")(5, root)(330, "0")(100, "AcDbDictionary")(281, 1);
  out(3, "ACAD_GROUP")(350, groups)(3, "ACAD_LAYOUT")(350, layouts);
  out(0, "DICTIONARY")(5, groups)(330, root)(100, "AcDbDictionary")(281, 1);
  out(0, "DICTIONARY")(5, layouts)(330, root)(100, "AcDbDictionary")(281, 1);
  out(3, "Layout1")(350, known.paper_layout)(3, "Model")(350, known.model_layout);
  write_layout(out, known.model_layout, layouts, "Model", 0, known.model_record, sheet);
  write_layout(out, known.paper_layout, layouts, "Layout1", 1, known.paper_record, sheet);
  out(0, "ENDSEC");
  return out;
}

}  // namespace halfhard
