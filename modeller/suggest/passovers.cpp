// Passovers between ends in line: over what meets the straight line, and back to it.
#include <cmath>

#include "geometry/base/tolerances.h"
#include "modeller/suggest/families.h"

namespace halfhard {
namespace {

// A way over: unit, square to the line. Along the site only, as a passover is written.
std::vector<Vec3> ways_over(const Vec3& along) {
  std::vector<Vec3> ways;
  for (int axis = 0; axis < 3; ++axis)
    for (const double side : {1.0, -1.0})
      if (std::abs(along[axis]) < 1e-9) ways.push_back(side * Vec3::Unit(axis));
  return ways;
}

// What is in the way, as the line sees it: from where to where along it, and how far to each side.
struct Hump {
  double from_mm = 0, to_mm = 0;
  double height_mm = 0;  // of its far side above the line, clearance and tube included
};

// Of a body for a pipe of the bank; nothing where the line passes it by, or it has no end that way.
std::optional<Hump> hump_of(const Surroundings& scene, const InTheWay& other, const Vec3& slid, const Vec3& over) {
  const Bounds box = other.bounds();
  if (box.empty() || !box.low.allFinite() || !box.high.allFinite()) return std::nullopt;
  const double away = scene.outside_radius_mm + other.required_mm;
  const Vec3 along = scene.leaves, beside = along.cross(over);
  Vec3 low = Vec3::Constant(kAnyDistance), high = -low;
  for (int corner = 0; corner < 8; ++corner) {
    const Vec3 at = Vec3(corner & 1 ? box.high.x() : box.low.x(), corner & 2 ? box.high.y() : box.low.y(),
                         corner & 4 ? box.high.z() : box.low.z()) -
                    scene.start - slid;
    const Vec3 seen(at.dot(along), at.dot(over), at.dot(beside));
    low = low.cwiseMin(seen);
    high = high.cwiseMax(seen);
  }
  if (low.y() > away || high.y() < -away || low.z() > away || high.z() < -away) return std::nullopt;
  return Hump{low.x(), high.x(), high.y() + away};
}

struct Shape {
  Angle angle;
  double rise_mm = 0, flat_mm = 0;  // flat 0: one bend at the top
};

// Whole millimetres that clear the hump and leave the bends their tangents.
Shape shape_over(const Surroundings& scene, const Hump& hump, Angle angle, bool flat) {
  const double radius = scene.bend_radius_mm, setback = radius * angle.tan_of_half();
  const double slope = setback + scene.between_mm + (flat ? setback : radius * angle.tan());
  // One bend at the top cuts its corner off.
  const double lost = flat ? 0 : radius * (1 / angle.cos() - 1);
  Shape shape{angle, std::ceil(std::max(hump.height_mm + lost, slope * angle.sin()) - 1e-9), 0};
  if (flat) shape.flat_mm = std::ceil(std::max(hump.to_mm - hump.from_mm, 2 * setback + scene.between_mm) - 1e-9);
  return shape;
}

void add_over(const Surroundings& scene, const Hump& hump, const Vec3& over, std::vector<Points>& result) {
  constexpr double kHigher_mm[] = {0, 10, 25, 50};  // the slopes may need more than the top
  const Vec3 along = scene.leaves;
  for (const double degrees : {45.0, 30.0, 60.0})
    for (const bool flat : {false, true})
      for (const double higher : kHigher_mm) {
        Shape shape = shape_over(scene, hump, Angle::degrees(degrees), flat);
        shape.rise_mm += higher;
        const double slope = shape.rise_mm / shape.angle.tan(), length = 2 * slope + shape.flat_mm;
        const double first = std::round((hump.from_mm + hump.to_mm - length) / 2);
        const auto at = [&](double mm, double up) -> Vec3 { return scene.start + mm * along + up * over; };
        Points points{scene.start, at(first, 0), at(first + slope, shape.rise_mm)};
        if (flat) points.push_back(at(first + slope + shape.flat_mm, shape.rise_mm));
        points.push_back(at(first + length, 0));
        points.push_back(scene.end);
        if (first > 0 && (scene.end - scene.start).dot(along) > first + length) result.push_back(std::move(points));
      }
}

}  // namespace

std::vector<Points> passover_candidates(const Surroundings& scene) {
  if (straight_candidate(scene).empty()) return {};
  std::vector<Points> result;
  for (const Vec3& over : ways_over(scene.leaves)) {
    std::optional<Hump> all;
    for (const Vec3& slid : scene.pieces)
      for (const InTheWay& other : scene.in_the_way) {
        const auto hump = hump_of(scene, other, slid, over);
        if (!hump) continue;
        add_over(scene, *hump, over, result);
        if (!all) all = hump;
        all = Hump{std::min(all->from_mm, hump->from_mm), std::max(all->to_mm, hump->to_mm),
                   std::max(all->height_mm, hump->height_mm)};
      }
    if (all) add_over(scene, *all, over, result);
  }
  return result;
}

}  // namespace halfhard
