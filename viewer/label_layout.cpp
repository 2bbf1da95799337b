#include "viewer/label_layout.h"

#include <algorithm>
#include <cmath>
#include <numeric>

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

class Sheet {
 public:
  Sheet(double width, double height) : width_(width), height_(height) {}

  bool free(const Rectangle& place) const {
    if (place.left < 2 || place.low < 2 || place.right > width_ - 2 || place.high > height_ - 2) return false;
    return std::none_of(taken_.begin(), taken_.end(), [&](const Rectangle& other) { return place.meets(other); });
  }
  void take(const Rectangle& place) { taken_.push_back(place); }

 private:
  double width_, height_;
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
    if (sheet.free(at)) return settle(at, false);
  }
  for (int ring = 0; ring < label.reach; ++ring) {
    const double gap = 10 + 14 * ring;
    for (int direction = 0; direction < 8; ++direction) {
      const Rectangle at = beside(label, direction, gap);
      if (sheet.free(at)) return settle(at, true);
    }
  }
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

std::vector<LabelPlaced> lay_out_labels(const std::vector<LabelWanted>& labels, double width, double height) {
  std::vector<size_t> order(labels.size());
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(),
                   [&](size_t a, size_t b) { return labels[a].importance > labels[b].importance; });
  std::vector<LabelPlaced> placed(labels.size());
  Sheet sheet(width, height);
  for (const size_t i : order) {
    const LabelWanted& label = labels[i];
    const bool in_sight = label.x >= 0 && label.y >= 0 && label.x <= width && label.y <= height;
    if (in_sight || label.reach >= kFarAfield) placed[i] = place(label, sheet);
  }
  return placed;
}

}  // namespace halfhard
