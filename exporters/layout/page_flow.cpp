#include "exporters/layout/page_flow.h"

#include <algorithm>

#include "exporters/sheet/text_metrics.h"

namespace halfhard {
namespace {

constexpr double kHeading_mm = 3.5;
constexpr double kBelowHeading_mm = 2.5;
constexpr double kGap_mm = 7;

class Flow {
 public:
  explicit Flow(const SheetBox& area) : area_(area) { start_sheet(); }

  void add(const TableBlock& block) {
    const Table whole = fitted(block.table);
    const double width = std::max(width_mm(whole), text_width_mm(block.heading, kHeading_mm, true));
    const size_t header = static_cast<size_t>(whole.header_rows);
    for (size_t row = header; row < whole.rows.size();) {
      Table part = whole;
      part.rows.assign(whole.rows.begin(), whole.rows.begin() + static_cast<long>(header));
      const double room = y_ - area_.low.y() - kHeading_mm - kBelowHeading_mm;
      size_t taken = 0;
      while (row + taken < whole.rows.size()) {
        part.rows.push_back(whole.rows[row + taken]);
        if (height_mm(part) > room) {
          part.rows.pop_back();
          break;
        }
        ++taken;
      }
      const bool too_few = taken < std::min<size_t>(3, whole.rows.size() - row);
      if ((too_few || x_ + width > area_.high.x() + 1e-6) && !fresh_) {
        next_column();
        continue;
      }
      if (taken == 0) {  // a row taller than a column: it stands alone and runs over
        part.rows.push_back(whole.rows[row]);
        taken = 1;
      }
      place(part, row == header ? block.heading : block.heading + " (continued)", width);
      row += taken;
    }
    if (!block.note.empty()) add_note(block.note, std::max(width, 90.0));
    y_ -= kGap_mm;
  }

  std::vector<std::vector<Entity>> sheets() && { return std::move(sheets_); }

 private:
  void place(Table part, const std::string& heading, double width) {
    Text text;
    text.content = heading;
    text.at = {x_, y_ - kHeading_mm};
    text.height_mm = kHeading_mm;
    text.bold = true;
    sheets_.back().push_back(text);
    y_ -= kHeading_mm + kBelowHeading_mm;
    part.top_left = {x_, y_};
    y_ -= height_mm(part);
    widest_ = std::max(widest_, width);
    fresh_ = false;
    sheets_.back().push_back(std::move(part));
  }

  void add_note(const std::string& note, double width) {
    const double room = std::min(width, area_.high.x() - x_);
    Paragraph lines = paragraph(note, {x_, y_ - 2}, room, 2.5);
    if (y_ - 2 - lines.height_mm < area_.low.y()) {
      next_column();
      lines = paragraph(note, {x_, y_}, std::min(width, area_.high.x() - x_), 2.5);
    }
    y_ -= 2 + lines.height_mm;
    widest_ = std::max(widest_, room);
    fresh_ = false;
    for (Entity& line : lines.texts) sheets_.back().push_back(std::move(line));
  }

  void start_sheet() {
    sheets_.emplace_back();
    x_ = area_.low.x();
    y_ = area_.high.y();
    widest_ = 0;
    fresh_ = true;
  }

  void next_column() {
    x_ += widest_ + kGap_mm;
    y_ = area_.high.y();
    // Less than a narrow table's width left: a new sheet.
    if (widest_ == 0 || x_ > area_.high.x() - 60)
      start_sheet();
    else
      widest_ = 0;
    column_may_be_too_narrow();
  }

  // A column is fresh only at the left edge, where every table must go whatever its width.
  void column_may_be_too_narrow() { fresh_ = x_ <= area_.low.x(); }

  SheetBox area_;
  std::vector<std::vector<Entity>> sheets_;
  double x_ = 0, y_ = 0, widest_ = 0;
  bool fresh_ = true;
};

}  // namespace

std::vector<std::vector<Entity>> flow_tables(const std::vector<TableBlock>& blocks, const SheetBox& area) {
  Flow flow(area);
  for (const TableBlock& block : blocks)
    if (block.table.rows.size() > static_cast<size_t>(block.table.header_rows)) flow.add(block);
  return std::move(flow).sheets();
}

}  // namespace halfhard
