// Helpers on flat curves: points along them, length, placing on a sheet, the box around them.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "geometry/views/view.h"

namespace halfhard {
namespace {

constexpr double kPi = std::numbers::pi;

Vec2 quarter_turned(const Vec2& v) { return {-v.y(), v.x()}; }

Vec2 at(const FlatArc& arc, double angle) {
  return arc.centre + arc.radius_mm * Vec2(std::cos(angle), std::sin(angle));
}

Vec2 at(const FlatEllipseArc& arc, double t) {
  return arc.centre + std::cos(t) * arc.major + std::sin(t) * arc.minor_ratio * quarter_turned(arc.major);
}

// Steps for an arc of `sweep` so that the chord stays within `error` of a circle of `radius`. An ellipse lies between
// the chord errors of its own circles, so its major axis is the safe radius.
int steps_for(double radius, double sweep, double error) {
  const double step = 2 * std::acos(std::clamp(1 - error / std::max(radius, error), -1.0, 1.0));
  return std::max(1, static_cast<int>(std::ceil(sweep / std::max(step, 1e-4))));
}

template <class Curve>
std::vector<Vec2> along(const Curve& curve, double radius, double error) {
  const int steps = steps_for(radius, curve.sweep.radians(), error);
  std::vector<Vec2> points;
  points.reserve(static_cast<size_t>(steps) + 1);
  for (int i = 0; i <= steps; ++i)
    points.push_back(at(curve, curve.start.radians() + curve.sweep.radians() * i / steps));
  return points;
}

double length_of(const std::vector<Vec2>& points) {
  double sum = 0;
  for (size_t i = 1; i < points.size(); ++i) sum += (points[i] - points[i - 1]).norm();
  return sum;
}

// Simpson's rule over |dpoint/dt|, fine enough for any ellipse that an outline can be.
double length_of(const FlatEllipseArc& arc) {
  constexpr int kSteps = 512;
  const double step = arc.sweep.radians() / kSteps;
  const auto speed = [&](double t) {
    return arc.major.norm() * std::hypot(std::sin(t), arc.minor_ratio * std::cos(t));
  };
  double sum = 0;
  for (int i = 0; i < kSteps; ++i) {
    const double t = arc.start.radians() + i * step;
    sum += (speed(t) + 4 * speed(t + step / 2) + speed(t + step)) * step / 6;
  }
  return sum;
}

void grow(std::pair<Vec2, Vec2>& box, const Vec2& point) {
  box.first = box.first.cwiseMin(point);
  box.second = box.second.cwiseMax(point);
}

// Adds the curve's extremes, found where its parameter is one of `turns` (plus half turns).
template <class Curve>
std::pair<Vec2, Vec2> box_of(const Curve& curve, double turn_x, double turn_y) {
  const double start = curve.start.radians(), end = start + curve.sweep.radians();
  std::pair<Vec2, Vec2> box{at(curve, start), at(curve, start)};
  grow(box, at(curve, end));
  for (const double turn : {turn_x, turn_y}) {
    const double first = turn + std::ceil((start - turn) / kPi) * kPi;
    for (double t = first; t <= end; t += kPi) grow(box, at(curve, t));
  }
  return box;
}

template <class... F>
struct Overloaded : F... {
  using F::operator()...;
};

}  // namespace

std::vector<Vec2> flattened(const FlatShape& shape, double chord_error_mm) {
  return std::visit(Overloaded{[](const FlatLine& line) {
                                 return std::vector<Vec2>{line.from, line.to};
                               },
                               [&](const FlatArc& arc) { return along(arc, arc.radius_mm, chord_error_mm); },
                               [&](const FlatEllipseArc& arc) { return along(arc, arc.major.norm(), chord_error_mm); },
                               [](const FlatPolyline& polyline) { return polyline.points; }},
                    shape);
}

double length_mm(const FlatShape& shape) {
  return std::visit(Overloaded{[](const FlatLine& line) { return (line.to - line.from).norm(); },
                               [](const FlatArc& arc) { return arc.radius_mm * arc.sweep.radians(); },
                               [](const FlatEllipseArc& arc) { return length_of(arc); },
                               [](const FlatPolyline& polyline) { return length_of(polyline.points); }},
                    shape);
}

FlatShape placed(const FlatShape& shape, double scale, Angle turn, const Vec2& shift) {
  const Eigen::Matrix2d map = scale * Eigen::Rotation2Dd(turn.radians()).toRotationMatrix();
  const auto put = [&](const Vec2& point) -> Vec2 { return map * point + shift; };
  return std::visit(
      Overloaded{[&](const FlatLine& line) -> FlatShape {
                   return FlatLine{put(line.from), put(line.to)};
                 },
                 [&](const FlatArc& arc) -> FlatShape {
                   return FlatArc{put(arc.centre), arc.radius_mm * scale, arc.start + turn, arc.sweep};
                 },
                 [&](const FlatEllipseArc& arc) -> FlatShape {
                   return FlatEllipseArc{put(arc.centre), map * arc.major, arc.minor_ratio, arc.start, arc.sweep};
                 },
                 [&](const FlatPolyline& polyline) -> FlatShape {
                   FlatPolyline moved;
                   for (const Vec2& point : polyline.points) moved.points.push_back(put(point));
                   return moved;
                 }},
      shape);
}

std::pair<Vec2, Vec2> box_around(const FlatShape& shape) {
  return std::visit(Overloaded{[](const FlatLine& line) {
                                 return std::pair<Vec2, Vec2>{line.from.cwiseMin(line.to), line.from.cwiseMax(line.to)};
                               },
                               [](const FlatArc& arc) { return box_of(arc, 0, kPi / 2); },
                               [](const FlatEllipseArc& arc) {
                                 const Vec2 minor = arc.minor_ratio * quarter_turned(arc.major);
                                 return box_of(arc, std::atan2(minor.x(), arc.major.x()),
                                               std::atan2(minor.y(), arc.major.y()));
                               },
                               [](const FlatPolyline& polyline) {
                                 std::pair<Vec2, Vec2> box{polyline.points.front(), polyline.points.front()};
                                 for (const Vec2& point : polyline.points) grow(box, point);
                                 return box;
                               }},
                    shape);
}

}  // namespace halfhard
