#include "exporters/fabrication/levels.h"

#include <algorithm>

#include "exporters/sheet/dimension.h"

namespace halfhard {
namespace {

constexpr double kFirstLevel_mm = 8, kLevel_mm = 6;
constexpr int kLevels = 6;
constexpr double kShared_mm = 0.3;                // neighbours of a chain meet at an extension line
constexpr double kNarrow_mm = 6.5, kTail_mm = 5;  // below this arrows come from outside: see dimension.cpp

}  // namespace

Dimension Levels::at_level(const Vec2& a, const Vec2& b, int side, int level) const {
  Dimension d;
  d.kind = DimensionKind::linear;
  d.direction_deg = axis_ == 0 ? 0 : 90;
  d.first = a;
  d.second = b;
  d.line_through = a;
  const double off = kFirstLevel_mm + level * kLevel_mm;
  d.line_through[1 - axis_] = side == 0 ? view_.box().low[1 - axis_] - off : view_.box().high[1 - axis_] + off;
  d.scale = view_.scale;
  return with_text(d, unit_);
}

// Of the line with its tails and its text.
Levels::Stretch Levels::stretch_of(const Dimension& dimension) const {
  const DimensionLine line = line_of(dimension);
  Stretch stretch{std::min(line.first[axis_], line.second[axis_]), std::max(line.first[axis_], line.second[axis_])};
  if (stretch.high - stretch.low < kNarrow_mm) {
    stretch.low -= kTail_mm;
    stretch.high += kTail_mm;
  }
  for (const Vec2& corner : box_of(text_of(dimension)).corners) {
    stretch.low = std::min(stretch.low, corner[axis_]);
    stretch.high = std::max(stretch.high, corner[axis_]);
  }
  return stretch;
}

bool Levels::free(int side, int level, const Stretch& stretch) const {
  const auto& levels = taken_[static_cast<std::size_t>(side)];
  if (level >= static_cast<int>(levels.size())) return true;
  const auto& taken = levels[static_cast<std::size_t>(level)];
  return std::none_of(taken.begin(), taken.end(), [&](const Stretch& other) {
    return stretch.low < other.high - kShared_mm && other.low < stretch.high - kShared_mm;
  });
}

bool Levels::place(const Vec2& a, const Vec2& b, bool outside, const std::string& after, DimensionPlacer& placer,
                   std::vector<Entity>& out) {
  for (const int side : {0, 1}) {
    auto& levels = taken_[static_cast<std::size_t>(side)];
    const int first = outside ? static_cast<int>(levels.size()) : 0;
    for (int level = first; level < first + kLevels; ++level) {
      // A narrow one has its text beyond either end.
      for (const bool turned : {false, true}) {
        Dimension d = turned ? at_level(b, a, side, level) : at_level(a, b, side, level);
        d.text += after;
        const Stretch stretch = stretch_of(d);
        if (!free(side, level, stretch) || !placer.place(std::vector<Entity>{d}, out)) continue;
        if (static_cast<int>(levels.size()) <= level) levels.resize(static_cast<std::size_t>(level) + 1);
        levels[static_cast<std::size_t>(level)].push_back(stretch);
        return true;
      }
    }
  }
  return false;
}

}  // namespace halfhard
