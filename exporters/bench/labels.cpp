#include "exporters/bench/labels.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "exporters/sheet/text_metrics.h"

namespace halfhard {
namespace {

struct Area2 {
  Vec2 low, high;
};

bool overlap(const Area2& a, const Area2& b) {
  return a.low.x() < b.high.x() && b.low.x() < a.high.x() && a.low.y() < b.high.y() && b.low.y() < a.high.y();
}

// How much of a segment lies in the area, by clipping its parameter; mm.
double length_inside(const Vec2& from, const Vec2& to, const Area2& area) {
  double enter = 0, leave = 1;
  const Vec2 way = to - from;
  for (int axis = 0; axis < 2; ++axis) {
    for (const double sign : {-1.0, 1.0}) {
      const double speed = sign * way[axis];
      const double room = sign > 0 ? area.high[axis] - from[axis] : from[axis] - area.low[axis];
      if (speed == 0 && room < 0) return 0;
      if (speed > 0) leave = std::min(leave, room / speed);
      if (speed < 0) enter = std::max(enter, room / speed);
    }
  }
  return std::max(0.0, leave - enter) * way.norm();
}

double strokes_under(const LabelGround& ground, const Area2& area) {
  double sum = 0;
  for (const auto& stroke : ground.strokes) {
    for (size_t i = 0; i + 1 < stroke.size(); ++i) {
      const Vec2 low = stroke[i].cwiseMin(stroke[i + 1]), high = stroke[i].cwiseMax(stroke[i + 1]);
      if (!overlap({low - Vec2(1e-9, 1e-9), high + Vec2(1e-9, 1e-9)}, area)) continue;
      sum += length_inside(stroke[i], stroke[i + 1], area) + 0.01;
    }
  }
  return sum;
}

struct Seat {
  Vec2 centre;
  double cost, crowding;
};

Seat best_seat(const Label& label, const Vec2& half, const LabelGround& ground, const std::vector<Area2>& taken) {
  constexpr int kDirections = 24;
  Seat best{label.at, std::numeric_limits<double>::infinity(), 0};
  for (const double away : {2.5, 5.0, 8.0, 12.0, 17.0, 23.0, 30.0, 40.0, 55.0, 75.0}) {
    for (int i = 0; i < kDirections; ++i) {
      const double angle = 2 * std::numbers::pi * i / kDirections;
      const Vec2 direction(std::cos(angle), std::sin(angle));
      // The box touches the ring of radius `away` from outside.
      Vec2 centre = label.at + away * direction + direction.cwiseProduct(half);
      centre = centre.cwiseMax(ground.low + half).cwiseMin(ground.high - half);
      const Area2 box{centre - half, centre + half};
      double crowding = 6 * strokes_under(ground, box);
      const Vec2 edge = label.at.cwiseMax(box.low).cwiseMin(box.high);
      for (const Area2& other : taken) {
        if (overlap(box, other)) crowding += 1000;
        if (length_inside(label.at, edge, other) > 0) crowding += 300;  // the leader would run through a text
      }
      if (label.at.x() > box.low.x() && label.at.x() < box.high.x() && label.at.y() > box.low.y() &&
          label.at.y() < box.high.y())
        crowding += 20;
      const double cost = away + crowding;
      if (cost < best.cost) best = {centre, cost, crowding};
    }
  }
  return best;
}

}  // namespace

PlacedLabels placed_labels(const std::vector<Label>& labels, const LabelGround& given) {
  LabelGround ground = given;  // leaders join the strokes as they are laid
  PlacedLabels placed;
  std::vector<Entity>& out = placed.entities;
  std::vector<Area2> taken;
  for (const Label& label : labels) {
    const Vec2 half(text_width_mm(label.text, label.height_mm, label.bold) / 2 + 0.6, label.height_mm / 2 + 0.9);
    const Seat seat = best_seat(label, half, ground, taken);
    placed.crowding += seat.crowding;
    taken.push_back({seat.centre - half, seat.centre + half});
    const Vec2 edge = label.at.cwiseMax(seat.centre - half).cwiseMin(seat.centre + half);
    if ((edge - label.at).norm() > 1.0) {
      ground.strokes.push_back({label.at, edge});
      out.emplace_back(line_between(label.at, edge, {Layer::text, LineStyle::continuous, 0.18, std::nullopt}));
    }
    Text text;
    text.content = label.text;
    text.at = seat.centre;
    text.height_mm = label.height_mm;
    text.anchor_x = AnchorX::centre;
    text.anchor_y = AnchorY::middle;
    text.bold = label.bold;
    text.layer = label.layer;
    text.clears_ground = true;
    out.emplace_back(std::move(text));
  }
  return placed;
}

}  // namespace halfhard
