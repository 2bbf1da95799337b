#include "exporters/layout/label_placer.h"

#include <algorithm>
#include <climits>
#include <cmath>
#include <numbers>

namespace halfhard {
namespace {

constexpr double kCell_mm = 4;
constexpr double kAround_mm = 0.6;  // between a label and anything else

int cell_of(double value) { return static_cast<int>(std::floor(value / kCell_mm)); }

double cross(const Vec2& a, const Vec2& b) { return a.x() * b.y() - a.y() * b.x(); }

bool cross_each_other(const Vec2& a, const Vec2& b, const Vec2& c, const Vec2& d) {
  const double c_side = cross(b - a, c - a), d_side = cross(b - a, d - a);
  const double a_side = cross(d - c, a - c), b_side = cross(d - c, b - c);
  return c_side * d_side <= 0 && a_side * b_side <= 0 &&
         !(c_side == 0 && d_side == 0 && a_side == 0 && b_side == 0 &&
           (std::max(a.x(), b.x()) < std::min(c.x(), d.x()) || std::max(c.x(), d.x()) < std::min(a.x(), b.x()) ||
            std::max(a.y(), b.y()) < std::min(c.y(), d.y()) || std::max(c.y(), d.y()) < std::min(a.y(), b.y())));
}

// Clips the segment to the box (Liang and Barsky's way); any part left means that they meet.
bool meets(const Vec2& from, const Vec2& to, const SheetBox& box) {
  double enter = 0, leave = 1;
  const Vec2 run = to - from;
  for (int axis = 0; axis < 2; ++axis) {
    if (std::abs(run[axis]) < 1e-12) {
      if (from[axis] < box.low[axis] || from[axis] > box.high[axis]) return false;
      continue;
    }
    const double a = (box.low[axis] - from[axis]) / run[axis], b = (box.high[axis] - from[axis]) / run[axis];
    enter = std::max(enter, std::min(a, b));
    leave = std::min(leave, std::max(a, b));
  }
  return enter <= leave;
}

bool overlap(const SheetBox& a, const SheetBox& b) {
  return a.low.x() < b.high.x() && b.low.x() < a.high.x() && a.low.y() < b.high.y() && b.low.y() < a.high.y();
}

bool holds(const SheetBox& outer, const SheetBox& inner) {
  return outer.low.x() <= inner.low.x() && outer.low.y() <= inner.low.y() && outer.high.x() >= inner.high.x() &&
         outer.high.y() >= inner.high.y();
}

}  // namespace

void LabelPlacer::mark(const std::vector<Vec2>& points) {
  for (size_t i = 1; i < points.size(); ++i) {
    const int index = static_cast<int>(lines_.size());
    lines_.emplace_back(points[i - 1], points[i]);
    const double length = (points[i] - points[i - 1]).norm();
    const int steps = std::max(1, static_cast<int>(std::ceil(length / (kCell_mm / 4))));
    std::pair<int, int> last{INT_MAX, INT_MAX};
    for (int k = 0; k <= steps; ++k) {
      const Vec2 p = points[i - 1] + (points[i] - points[i - 1]) * k / steps;
      const std::pair<int, int> cell{cell_of(p.x()), cell_of(p.y())};
      if (cell != last) cells_[last = cell].push_back(index);
    }
  }
}

void LabelPlacer::reserve(const SheetBox& box) { boxes_.push_back(box); }

bool LabelPlacer::free_of_lines(const SheetBox& box) const {
  for (int x = cell_of(box.low.x()) - 1; x <= cell_of(box.high.x()) + 1; ++x) {
    for (int y = cell_of(box.low.y()) - 1; y <= cell_of(box.high.y()) + 1; ++y) {
      const auto found = cells_.find({x, y});
      if (found == cells_.end()) continue;
      for (const int i : found->second)
        if (meets(lines_[static_cast<size_t>(i)].first, lines_[static_cast<size_t>(i)].second, box)) return false;
    }
  }
  return true;
}

bool LabelPlacer::free_of_boxes(const SheetBox& box) const {
  return std::none_of(boxes_.begin(), boxes_.end(), [&](const SheetBox& b) { return overlap(b, box); }) &&
         std::none_of(leaders_.begin(), leaders_.end(),
                      [&](const Segment& s) { return meets(s.first, s.second, box); });
}

bool LabelPlacer::leader_is_clear(const Segment& leader) const {
  return std::none_of(boxes_.begin(), boxes_.end(),
                      [&](const SheetBox& b) { return meets(leader.first, leader.second, b); }) &&
         std::none_of(leaders_.begin(), leaders_.end(), [&](const Segment& s) {
           return cross_each_other(leader.first, leader.second, s.first, s.second);
         });
}

std::optional<LabelPlacer::Place> LabelPlacer::with_leader(const std::vector<Vec2>& anchors, const Vec2& size,
                                                           const SheetBox& area, double reach) {
  constexpr int kDirections = 24;
  for (const bool over_lines : {false, true}) {
    for (double distance = 4; distance <= reach; distance += 2) {
      for (const Vec2& anchor : anchors) {
        for (int k = 0; k < kDirections; ++k) {
          // Slanting first, and never upright or level where there is a choice: a leader should not run along the
          // drawing's own lines.
          if (!over_lines && (3 + k * 7) % 6 == 0) continue;
          const double angle = 2 * std::numbers::pi * (3 + k * 7 % kDirections) / kDirections;
          const Vec2 way(std::cos(angle), std::sin(angle));
          const Vec2 tip = anchor + distance * way;
          const Vec2 centre = tip + Vec2(way.x() * size.x() / 2, way.y() * size.y() / 2);
          const SheetBox box{centre - size / 2, centre + size / 2};
          const SheetBox around = box.grown(kAround_mm);
          if (!holds(area, around) || !free_of_boxes(around)) continue;
          if (!over_lines && !free_of_lines(around)) continue;
          const Segment leader{anchor, anchor + (distance - 0.3) * way};
          if (!leader_is_clear(leader)) continue;
          leaders_.push_back(leader);
          boxes_.push_back(box);
          return Place{box, anchor, over_lines};
        }
      }
    }
  }
  return std::nullopt;
}

std::optional<SheetBox> LabelPlacer::within(const SheetBox& inside, const Vec2& size,
                                            const std::vector<SheetBox>& off) {
  const Vec2 room = inside.size() - size;
  if (room.x() < 0 || room.y() < 0) return std::nullopt;
  constexpr int kSteps = 8;
  for (int ring = 0; ring <= kSteps; ++ring) {  // the middle first
    for (int i = -ring; i <= ring; ++i) {
      for (int j = -ring; j <= ring; ++j) {
        if (std::max(std::abs(i), std::abs(j)) != ring) continue;
        const Vec2 centre = inside.centre() + Vec2(room.x() * i, room.y() * j) / (2.0 * kSteps);
        const SheetBox box{centre - size / 2, centre + size / 2};
        if (!free_of_boxes(box.grown(kAround_mm)) || !free_of_lines(box.grown(kAround_mm))) continue;
        if (std::any_of(off.begin(), off.end(), [&](const SheetBox& b) { return overlap(b, box); })) continue;
        boxes_.push_back(box);
        return box;
      }
    }
  }
  return std::nullopt;
}

}  // namespace halfhard
