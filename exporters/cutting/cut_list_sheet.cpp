// The cut list drawn: a bar for each stock length, its pieces to scale.
#include <algorithm>

#include "exporters/cutting/cut_list.h"
#include "exporters/sheet/frame.h"
#include "exporters/sheet/text_metrics.h"
#include "geometry/words/shown.h"

namespace halfhard {
namespace {

constexpr double kBar_mm = 6, kRow_mm = 15, kHeading_mm = 14, kHeadingText_mm = 3.5, kLine_mm = 6;

class Pages {
 public:
  Pages(const CutList& list, const Plan& plan) : list_(list), plan_(plan) { begin(); }

  void heading(const std::string& content) {
    need(kHeading_mm + kRow_mm);
    y_ -= kHeading_mm - kHeadingText_mm - 3;
    write(content, kHeadingText_mm);
  }

  // Every piece in full: within its part of the bar where there is room, else below under its number.
  void bar(const CutBar& bar, double longest_mm) {
    const double scale = (width() - 1) / longest_mm;
    const std::size_t below = bar.pieces.size();
    need(kRow_mm + kLine_mm * static_cast<double>(std::min<std::size_t>(below, 20)));
    y_ -= kRow_mm;
    put(std::to_string(bar.times) + " x " + shown_length(bar.stock_mm, list_.unit) + ", " +
            left_over_text(bar, list_.unit),
        {left(), y_ + kBar_mm + 1.5}, 2.5);
    const double foot = y_;
    double at = left();
    sheet().add(rectangle({at, y_}, {at + bar.stock_mm * scale, y_ + kBar_mm}, pen_of(Layer::outline)));
    std::vector<std::string> lines;
    for (const CutPiece& piece : bar.pieces) {
      const double wide = piece.length_mm * scale;
      const std::string words = shown_length_bare(piece.length_mm, list_.unit) + "  " + piece.run;
      if (text_width_mm(words, 1.8) <= wide - 2) {
        put(words, {at + 1, foot + 2}, 1.8);
      } else {
        const std::string letter = std::to_string(lines.size() + 1);
        if (text_width_mm(letter, 1.8, true) <= wide - 1) put(letter, {at + 0.5, foot + 2}, 1.8, true);
        lines.push_back(letter + ":  " + words);
      }
      at += wide;
      sheet().add(line_between({at, foot}, {at, foot + kBar_mm}, pen_of(Layer::mark)));
    }
    for (const std::string& words : lines) line(words);
  }

  void line(const std::string& content, bool warning = false) {
    const Paragraph lines = paragraph(content, {left(), 0}, width(), 2.5, warning);
    need(lines.height_mm + 2.5);
    y_ -= 2;
    write(content, 2.5, warning);
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
  // Down from where the page stands, in as many lines as it takes.
  void write(const std::string& content, double height, bool warning = false) {
    Paragraph lines = paragraph(content, {left(), y_}, width(), height, warning);
    y_ -= lines.height_mm;
    for (Entity& entity : lines.texts) {
      if (warning) std::get<Text>(entity).colour = Colour{0.75, 0, 0};
      sheet().add(std::move(entity));
    }
  }
  void put(const std::string& content, const Vec2& at, double height, bool bold = false) {
    Text text;
    text.content = content;
    text.at = at;
    text.height_mm = height;
    text.bold = bold;
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
    const auto shown = [&](double mm) { return shown_length(mm, list.unit); };
    if (tube.bars.empty()) {
      pages.heading(tube.tube.name + ": no stock");
    } else {
      pages.heading(tube.tube.name + ": " + shown(tube.stock_used_mm) + " of stock, " +
                    (tube.kept_mm > 0 ? shown_clearance(tube.kept_mm, list.unit) + " left over to keep, " : "") +
                    "waste " + shown(tube.waste_mm()));
      pages.line((tube.proven ? "No plan uses less stock. "
                              : "Not proven to be the least: at least " + shown(tube.lower_bound_mm) + ". ") +
                 (tube.cutter_loss_mm > 0 ? "A cut takes " + shown(tube.cutter_loss_mm) + "."
                                          : "Nothing is allowed for a cut."));
    }
    double longest = 0;
    for (const CutBar& bar : tube.bars) longest = std::max(longest, bar.stock_mm);
    for (const CutBar& bar : tube.bars) pages.bar(bar, longest);
    for (const CutPiece& piece : tube.too_long)
      pages.line("Too long for any stock: " + shown(piece.length_mm) + "  " + piece.run + ", " +
                 std::to_string(piece.of_sets) + " off");
    for (const CutPiece& piece : tube.not_to_be_made)
      pages.line("NOT TO BE MADE: " + piece.run + " (" + shown(piece.length_mm) + "), no stock allotted. " +
                     piece.not_to_be_made,
                 true);
  }
  return pages.finished();
}

}  // namespace halfhard
