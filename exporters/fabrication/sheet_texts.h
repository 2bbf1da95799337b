// What a fabrication sheet says beside its views: checks, bend table, legs, tolerance, likely error, cautions; in columns,
// carried on to further sheets where they are full. Every sheet of a run that fails is headed NOT TO BE MADE and why.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "exporters/layout/label_placer.h"
#include "exporters/sheet/drawing.h"

namespace halfhard {

// Boxes filled one after another, from the top down; when they are full a new sheet begins, with boxes of its own.
class TextColumns {
 public:
  TextColumns(std::vector<SheetBox> first, std::vector<SheetBox> later, std::vector<Sheet>& sheets, Sheet empty,
              std::string failure)
      : boxes_(std::move(first)),
        later_(std::move(later)),
        sheets_(sheets),
        empty_(std::move(empty)),
        failure_(std::move(failure)),
        y_(boxes_.front().high.y()) {}

  void write(const std::string& text, double height, bool bold, std::optional<Colour> colour = std::nullopt);
  // As many rows as there is room for, the rest under a heading of its own in the next box.
  void lay(Table table);
  // NOT TO BE MADE and why; nothing for a run that may be made.
  void write_failure();
  // A new sheet, headed so.
  void start_sheet();

  // What is left below in the box that is being filled.
  SheetBox room() const;
  double narrowest() const;
  bool too_narrow() const { return too_narrow_; }  // a table is wider than its box

 private:
  const SheetBox& box() const { return boxes_[at_]; }
  void turn();

  std::vector<SheetBox> boxes_, later_;
  std::vector<Sheet>& sheets_;
  Sheet empty_;
  std::string failure_;
  std::size_t at_ = 0;
  double y_;
  bool too_narrow_ = false;
};

void write_sheet_texts(TextColumns& columns, const Plan& plan, const Run& run);

}  // namespace halfhard
