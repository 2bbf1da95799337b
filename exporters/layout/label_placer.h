// Finds room on a sheet for labels beside what they name, so that no two overlap, none stands on a line and no two
// leaders cross. Sheet mm. Same calls in the same order, same places.
#pragma once

#include <map>
#include <optional>
#include <utility>
#include <vector>

#include "exporters/sheet/drawing.h"

namespace halfhard {

struct SheetBox {
  Vec2 low = Vec2::Zero(), high = Vec2::Zero();
  Vec2 centre() const { return (low + high) / 2; }
  Vec2 size() const { return high - low; }
  SheetBox grown(double by) const { return {(low.array() - by).matrix(), (high.array() + by).matrix()}; }
};

class LabelPlacer {
 public:
  // Lines that labels keep off.
  void mark(const std::vector<Vec2>& points);
  // Boxes that labels and leaders keep off.
  void reserve(const SheetBox& box);

  struct Place {
    SheetBox box;
    Vec2 anchor = Vec2::Zero();
    bool on_lines = false;  // no room was free of lines: give the text a white ground
  };
  // A box of `size` within `area`, by a leader to one of `anchors` no longer than `reach`; reserved by this call.
  // Nothing where there is no room even over lines.
  std::optional<Place> with_leader(const std::vector<Vec2>& anchors, const Vec2& size, const SheetBox& area,
                                   double reach = 45);
  // A box of `size` free of everything and off `off`, wholly inside `inside`; reserved by this call.
  std::optional<SheetBox> within(const SheetBox& inside, const Vec2& size, const std::vector<SheetBox>& off = {});

 private:
  using Segment = std::pair<Vec2, Vec2>;
  bool free_of_lines(const SheetBox& box) const;
  bool free_of_boxes(const SheetBox& box) const;
  bool leader_is_clear(const Segment& leader) const;

  std::vector<Segment> lines_, leaders_;
  std::map<std::pair<int, int>, std::vector<int>> cells_;  // which lines pass through
  std::vector<SheetBox> boxes_;
};

}  // namespace halfhard
