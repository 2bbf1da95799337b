#include "viewer/label_layout.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>

namespace halfhard {
namespace {

struct Rectangle {
  double left = 0, low = 0, right = 0, high = 0;

  bool meets(const Rectangle& other) const {
    constexpr double kApart = 2;
    return left < other.right + kApart && other.left < right + kApart && low < other.high + kApart &&
           other.low < high + kApart;
  }
};

// Eight directions, those that read best first: upper right, upper left, and so on around.
constexpr double kAcross[] = {1, -1, 1, -1, 0, 0, 1, -1};
constexpr double kUp[] = {1, 1, -1, -1, 1, -1, 0, 0};

Rectangle beside(const LabelWanted& label, int direction, double gap) {
  const double x = label.x + kAcross[direction] * (gap + label.width / 2);
  const double y = label.y + kUp[direction] * (gap + label.height / 2);
  return {x - label.width / 2, y - label.height / 2, x + label.width / 2, y + label.height / 2};
}

// Squares of the picture that something to be kept clear covers.
class Covered {
 public:
  Covered(double width, double height, const std::vector<KeptClear>& all)
      : across_(std::max(1, static_cast<int>(width / kSquare) + 1)),
        up_(std::max(1, static_cast<int>(height / kSquare) + 1)),
        squares_(static_cast<size_t>(across_) * up_) {
    for (const KeptClear& each : all) add(each);
  }
  bool touches(const Rectangle& place) const {
    for (int y = square(place.low, up_); y <= square(place.high, up_); ++y)
      for (int x = square(place.left, across_); x <= square(place.right, across_); ++x)
        if (squares_[static_cast<size_t>(y) * across_ + x]) return true;
    return false;
  }

 private:
  static constexpr double kSquare = 6;  // pixels

  static int square(double at, int count) {
    return std::clamp(static_cast<int>(std::clamp(at / kSquare, -1.0, 1e6)), 0, count - 1);
  }
  void add(const KeptClear& each) {
    // What lies off the picture is cut away first: close up, a pipe reaches far beyond it.
    double from = 0, to = 1;
    const auto cut = [&](double start, double way, double limit) {
      const double low = -each.half_breadth, high = limit + each.half_breadth;
      if (std::abs(way) < 1e-9) {
        if (start < low || start > high) to = -1;
        return;
      }
      from = std::max(from, std::min((low - start) / way, (high - start) / way));
      to = std::min(to, std::max((low - start) / way, (high - start) / way));
    };
    const double way_x = each.to_x - each.from_x, way_y = each.to_y - each.from_y;
    cut(each.from_x, way_x, across_ * kSquare);
    cut(each.from_y, way_y, up_ * kSquare);
    if (to < from) return;
    const int steps = 1 + static_cast<int>((to - from) * std::hypot(way_x, way_y) / kSquare);
    for (int i = 0; i <= steps; ++i) {
      const double at = from + (to - from) * i / steps, half = each.half_breadth;
      const double x = each.from_x + at * way_x, y = each.from_y + at * way_y;
      for (int row = square(y - half, up_); row <= square(y + half, up_); ++row)
        for (int column = square(x - half, across_); column <= square(x + half, across_); ++column)
          squares_[static_cast<size_t>(row) * across_ + column] = 1;
    }
  }

  int across_, up_;
  std::vector<char> squares_;
};

class Sheet {
 public:
  Sheet(double width, double height, const std::vector<KeptClear>& kept_clear)
      : width_(width), height_(height), covered_(width, height, kept_clear) {}

  bool off_what_is_kept_clear(const Rectangle& place) const { return !covered_.touches(place); }

  bool free(const Rectangle& place) const {
    if (place.left < 2 || place.low < 2 || place.right > width_ - 2 || place.high > height_ - 2) return false;
    return std::none_of(taken_.begin(), taken_.end(), [&](const Rectangle& other) { return place.meets(other); });
  }
  void take(const Rectangle& place) { taken_.push_back(place); }

 private:
  double width_, height_;
  Covered covered_;
  std::vector<Rectangle> taken_;
};

LabelPlaced place(const LabelWanted& label, Sheet& sheet) {
  const auto settle = [&](const Rectangle& at, bool leader) {
    sheet.take(at);
    return LabelPlaced{true, std::round(at.left), std::round(at.low), leader};
  };
  if (label.on_place) {
    const Rectangle at{label.x - label.width / 2, label.y - label.height / 2, label.x + label.width / 2,
                       label.y + label.height / 2};
    if (sheet.free(at) && sheet.off_what_is_kept_clear(at)) return settle(at, false);
  }
  std::optional<Rectangle> on_it;
  for (int ring = 0; ring < label.reach; ++ring) {
    const double gap = 10 + 14 * ring;
    for (int direction = 0; direction < 8; ++direction) {
      const Rectangle at = beside(label, direction, gap);
      if (!sheet.free(at)) continue;
      if (sheet.off_what_is_kept_clear(at)) return settle(at, true);
      if (!on_it && label.may_cover) on_it = at;
    }
  }
  if (on_it) return settle(*on_it, true);
  return {};
}

}  // namespace

int reach_of(LabelKind kind) {
  switch (kind) {
    case LabelKind::failing:
    case LabelKind::measure:
      return kFarAfield;
    case LabelKind::bend:  // a number far from its bend misleads
      return 3;
    case LabelKind::fixture:
      return 2;
    default:
      return 6;
  }
}

int importance_of(LabelKind kind) {
  switch (kind) {
    case LabelKind::failing:
      return 7;
    case LabelKind::measure:
      return 6;
    case LabelKind::bend:
      return 5;
    case LabelKind::clearance:
      return 4;
    case LabelKind::warning:
      return 3;
    case LabelKind::run:
      return 2;
    case LabelKind::connection:
      return 1;
    case LabelKind::fixture:
      break;
  }
  return 0;
}

std::vector<LabelPlaced> lay_out_labels(const std::vector<LabelWanted>& labels, double width, double height,
                                        const std::vector<KeptClear>& kept_clear) {
  std::vector<size_t> order(labels.size());
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(),
                   [&](size_t a, size_t b) { return labels[a].importance > labels[b].importance; });
  std::vector<LabelPlaced> placed(labels.size());
  Sheet sheet(width, height, kept_clear);
  for (const size_t i : order) {
    const LabelWanted& label = labels[i];
    const bool in_sight = label.x >= 0 && label.y >= 0 && label.x <= width && label.y <= height;
    if (in_sight || label.reach >= kFarAfield) placed[i] = place(label, sheet);
  }
  return placed;
}

}  // namespace halfhard
