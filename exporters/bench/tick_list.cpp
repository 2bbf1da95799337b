#include "exporters/bench/tick_list.h"

#include <algorithm>
#include <cmath>

#include "exporters/bench/bend_rows.h"
#include "exporters/sheet/text_metrics.h"

namespace halfhard {
namespace {

constexpr double kRow_mm = 6.5, kBox_mm = 3.5, kText_mm = 2.5;

}  // namespace

std::vector<std::string> piece_lines(const Plan& plan, const Run& run) {
  std::vector<std::string> lines;
  for (int set = 1; set <= plan.sets; ++set) {
    for (int index : pieces_alike(plan, run)) {
      std::string name = plan.runs[index]->name;
      if (plan.sets > 1) name += ", set " + std::to_string(set);
      lines.push_back(std::move(name));
    }
  }
  return lines;
}

TickList tick_list(const std::vector<std::string>& names, size_t first, const Vec2& top_left, double width_mm,
                   double most_height_mm) {
  TickList list;
  double widest = 0;
  for (const std::string& name : names) widest = std::max(widest, text_width_mm(drawable(name), kText_mm));
  const double cell = std::min(width_mm, widest + kBox_mm + 8);
  const auto columns = static_cast<size_t>(std::max(1.0, std::floor(width_mm / cell)));
  const auto rows_room = static_cast<size_t>(std::max(0.0, std::floor(most_height_mm / kRow_mm)));
  const size_t count = std::min(names.size() - std::min(first, names.size()), columns * rows_room);
  for (size_t i = 0; i < count; ++i) {
    const Vec2 corner =
        top_left + Vec2(static_cast<double>(i % columns) * cell, -static_cast<double>(i / columns + 1) * kRow_mm);
    list.entities.emplace_back(rectangle(corner + Vec2(0, 1), corner + Vec2(kBox_mm, 1 + kBox_mm),
                                         {Layer::table, LineStyle::continuous, 0.35, std::nullopt}));
    Text text;
    text.content = shortened(names[first + i], cell - kBox_mm - 4, kText_mm);
    text.at = corner + Vec2(kBox_mm + 2, 1 + kBox_mm / 2);
    text.height_mm = kText_mm;
    text.anchor_y = AnchorY::middle;
    list.entities.emplace_back(std::move(text));
  }
  list.next = first + count;
  list.height_mm = std::ceil(static_cast<double>(count) / static_cast<double>(columns)) * kRow_mm;
  return list;
}

}  // namespace halfhard
