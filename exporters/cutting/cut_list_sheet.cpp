// The cut list drawn: a bar for each stock length, its pieces to scale.
#include <algorithm>

#include "exporters/cutting/cut_list.h"
#include "exporters/sheet/frame.h"
#include "exporters/sheet/text_metrics.h"
#include "geometry/shown.h"

namespace halfhard {
namespace {

constexpr double kBar_mm = 6, kRow_mm = 15, kHeading_mm = 14;

class Pages {
 public:
  Pages(const CutList& list, const Plan& plan) : list_(list), plan_(plan) { begin(); }

  void heading(const std::string& content) {
    need(kHeading_mm + kRow_mm);
    y_ -= kHeading_mm;
    write(content, {left(), y_ + 3}, 3.5, width());
  }

  void bar(const CutBar& bar, double longest_mm) {
    need(kRow_mm);
    y_ -= kRow_mm;
    const double scale = (width() - 1) / longest_mm;
    write(std::to_string(bar.times) + " x " + shown_length(bar.stock_mm, list_.unit) + ", left over " +
              shown_length(bar.left_over_mm, list_.unit),
          {left(), y_ + kBar_mm + 1.5}, 2.5, width());
    double at = left();
    sheet().add(rectangle({at, y_}, {at + bar.stock_mm * scale, y_ + kBar_mm}, pen_of(Layer::outline)));
    for (const CutPiece& piece : bar.pieces) {
      const double wide = piece.length_mm * scale;
      const std::string content = shown_length_bare(piece.length_mm, list_.unit) + " " +
                                  (piece.not_to_be_made ? "NOT TO BE MADE " : "") + piece.run;
      if (wide > 12) write(content, {at + 1, y_ + 2}, 1.8, wide - 2);
      at += wide;
      sheet().add(line_between({at, y_}, {at, y_ + kBar_mm}, pen_of(Layer::mark)));
    }
  }

  void line(const std::string& content) {
    need(6);
    y_ -= 6;
    write(content, {left(), y_}, 2.5, width());
  }

  Document finished() {
    for (int i = 0; i < static_cast<int>(document_.sheets.size()); ++i) {
      TitleFields fields = title_fields(plan_, "Cut list", "Cut list");
      fields.shows_projection = false;
      fields.sheet = i + 1;
      fields.sheets = static_cast<int>(document_.sheets.size());
      document_.sheets[i].add(frame(kA4Upright, fields).entities);
    }
    return document_;
  }

 private:
  void begin() {
    Sheet sheet;
    sheet.size = kA4Upright;
    sheet.title = "Cut list";
    sheet.unit = list_.unit;
    document_.title = "Cut list";
    document_.sheets.push_back(sheet);
    TitleFields fields = title_fields(plan_, "Cut list", "Cut list");
    fields.shows_projection = false;
    const Framed framed = frame(kA4Upright, fields);
    border_ = framed.border;
    floor_ = border_.bottom + framed.block_height_mm + 4;
    y_ = border_.top - 4;
  }
  void need(double height) {
    if (y_ - height < floor_) begin();
  }
  void write(const std::string& content, const Vec2& at, double height, double most) {
    Text text;
    text.content = shortened(content, most, height);
    text.at = at;
    text.height_mm = height;
    sheet().add(text);
  }
  Sheet& sheet() { return document_.sheets.back(); }
  double left() const { return border_.left + 5; }
  double width() const { return border_.width() - 10; }

  const CutList& list_;
  const Plan& plan_;
  Document document_;
  Border border_;
  double floor_ = 0, y_ = 0;
};

}  // namespace

Document cut_list_document(const CutList& list, const Plan& plan) {
  Pages pages(list, plan);
  for (const TubeCutList& tube : list.tubes) {
    pages.heading(tube.tube.name + ": " + shown_length(tube.stock_used_mm, list.unit) + " of stock, waste " +
                  shown_length(tube.waste_mm(), list.unit));
    pages.line(tube.proven
                   ? "No plan uses less stock."
                   : "Not proven to be the least: at least " + shown_length(tube.lower_bound_mm, list.unit) + ".");
    double longest = 0;
    for (const CutBar& bar : tube.bars) longest = std::max(longest, bar.stock_mm);
    for (const CutBar& bar : tube.bars) pages.bar(bar, longest);
    for (const CutPiece& piece : tube.too_long) {
      pages.line("Too long for any stock: " + shown_length(piece.length_mm, list.unit) + " " + piece.run);
    }
  }
  return pages.finished();
}

}  // namespace halfhard
