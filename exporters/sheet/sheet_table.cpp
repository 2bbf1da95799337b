#include "exporters/sheet/sheet_table.h"

#include <algorithm>

#include "exporters/sheet/text_metrics.h"
#include "geometry/base/require.h"

namespace halfhard {
namespace {

constexpr double kPadX_mm = 1.2;
constexpr double kPadHeights = 0.6;   // above and below a cell's text, in text heights
constexpr double kLineHeights = 1.6;  // line to line, in text heights

const Pen kRowPen = {Layer::table, LineStyle::continuous, 0.18, std::nullopt};
const Pen kEdgePen = {Layer::table, LineStyle::continuous, 0.35, std::nullopt};

double row_height(const Table& table, const std::vector<std::string>& row) {
  std::size_t most = 1;
  for (const std::string& cell : row) most = std::max(most, lines_of_cell(cell).size());
  return table.text_height_mm * (2 * kPadHeights + 1 + (most - 1) * kLineHeights);
}

void draw_cell(std::vector<Primitive>& out, const Table& table, const std::string& cell, const Column& column,
               double left, double top, bool bold) {
  double baseline = top - table.text_height_mm * (kPadHeights + 1);
  for (const std::string& line : lines_of_cell(cell)) {
    if (!line.empty()) {
      Text text;
      text.content = line;
      text.height_mm = table.text_height_mm;
      text.anchor_x = column.align;
      text.bold = bold;
      text.layer = Layer::table;
      const double x = column.align == AnchorX::left     ? left + kPadX_mm
                       : column.align == AnchorX::centre ? left + column.width_mm / 2
                                                         : left + column.width_mm - kPadX_mm;
      text.at = {x, baseline};
      out.push_back(text);
    }
    baseline -= table.text_height_mm * kLineHeights;
  }
}

}  // namespace

std::vector<std::string> lines_of_cell(const std::string& cell) {
  std::vector<std::string> lines(1);
  for (const char c : cell) {
    if (c == '\n') {
      lines.emplace_back();
    } else {
      lines.back() += c;
    }
  }
  return lines;
}

double width_mm(const Table& table) {
  double width = 0;
  for (const Column& column : table.columns) width += column.width_mm;
  return width;
}

double height_mm(const Table& table) {
  double height = 0;
  for (const auto& row : table.rows) height += row_height(table, row);
  return height;
}

Table fitted(Table table) {
  for (Column& column : table.columns) column.width_mm = 0;
  for (std::size_t r = 0; r < table.rows.size(); ++r) {
    const bool bold = static_cast<int>(r) < table.header_rows;
    for (std::size_t c = 0; c < table.rows[r].size(); ++c) {
      for (const std::string& line : lines_of_cell(table.rows[r][c])) {
        const double width = text_width_mm(line, table.text_height_mm, bold) + 2 * kPadX_mm;
        table.columns[c].width_mm = std::max(table.columns[c].width_mm, width);
      }
    }
  }
  return table;
}

std::vector<Primitive> drawn_table(const Table& table) {
  std::vector<Primitive> out;
  const double left = table.top_left.x();
  const double right = left + width_mm(table);
  const double bottom = table.top_left.y() - height_mm(table);
  double top = table.top_left.y();
  for (std::size_t r = 0; r < table.rows.size(); ++r) {
    HALFHARD_REQUIRE(table.rows[r].size() == table.columns.size());
    double x = left;
    for (std::size_t c = 0; c < table.columns.size(); ++c) {
      draw_cell(out, table, table.rows[r][c], table.columns[c], x, top, static_cast<int>(r) < table.header_rows);
      x += table.columns[c].width_mm;
    }
    top -= row_height(table, table.rows[r]);
    if (r + 1 < table.rows.size()) {
      const bool below_header = static_cast<int>(r) + 1 == table.header_rows;
      out.push_back(line_between({left, top}, {right, top}, below_header ? kEdgePen : kRowPen));
    }
  }
  double x = left;
  for (std::size_t c = 0; c + 1 < table.columns.size(); ++c) {
    x += table.columns[c].width_mm;
    out.push_back(line_between({x, table.top_left.y()}, {x, bottom}, kRowPen));
  }
  out.push_back(rectangle({left, bottom}, {right, table.top_left.y()}, kEdgePen));
  return out;
}

}  // namespace halfhard
