// Random scenes against dense sampling, which knows nothing of the search.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "geometry/distance/distance.h"
#include "tests/geometry/distance/box_mesh.h"
#include "tests/geometry/distance/random_tubes.h"

namespace halfhard {
namespace {

using testing::Dice;
using testing::random_line;

// Points all over a flat-ended tube's surface, closer than `step` to each other.
std::vector<Vec3> surface(const CentreLine& line, double radius, double step) {
  std::vector<Vec3> points;
  const int rings = static_cast<int>(std::ceil(line.length_mm() / step));
  const int around = static_cast<int>(std::ceil(2 * std::numbers::pi * radius / step));
  for (int i = 0; i <= rings; ++i) {
    const double s = line.length_mm() * i / rings;
    const Vec3 at = line.point_at(s), t = line.direction_at(s), u = any_square_to(t), v = t.cross(u);
    const bool end = i == 0 || i == rings;
    for (double r = radius; r > 0; r -= end ? step : 2 * radius) {
      for (int k = 0; k < around; ++k) {
        const double a = 2 * std::numbers::pi * k / around;
        points.push_back(at + r * (std::cos(a) * u + std::sin(a) * v));
      }
    }
    if (end) points.push_back(at);
  }
  return points;
}

Body random_body(Dice& dice) {
  Body body;
  const int kind = dice.upto(3);
  if (kind == 0) {
    body.shape =
        Box{dice.point(150), dice.attitude(), {dice.between(2, 120), dice.between(2, 120), dice.between(2, 120)}};
  } else if (kind == 1) {
    const Vec3 from = dice.point(150);
    body.shape = Cylinder{from, from + dice.between(5, 300) * dice.direction(), dice.between(1, 80)};
  } else {
    body.shape = HalfSpace{dice.point(400), dice.direction()};
  }
  return body;
}

Motion random_motion(Dice& dice) {
  const int kind = dice.upto(3);
  if (kind == 1) return Slide{dice.between(10, 300) * dice.direction()};
  if (kind == 2) return Swing{dice.point(100), dice.direction(), Angle::degrees(dice.between(-120, 120))};
  return std::monostate{};
}

TEST(DistanceOracle, ABodyIsAsFarAsItsNearestPointOfTheSurface) {
  int apart = 0;
  for (unsigned number = 0; number < 60; ++number) {
    SCOPED_TRACE(number);
    Dice dice(number);
    const CentreLine line = random_line(dice, dice.upto(4), 40, 200);
    const double radius = dice.between(3, 15);
    const Obstacle body(random_body(dice));
    const Separation found = distance(TubeBody(line, radius), body);
    double least = kAnyDistance, deepest = body.signed_distance(line.points().back());
    const double step = 1.5;
    for (const Vec3& point : surface(line, radius, step)) least = std::min(least, body.signed_distance(point));
    for (double s = 0; s <= line.length_mm(); s += 0.05) {
      deepest = std::min(deepest, body.signed_distance(line.point_at(s)));
    }
    if (found.distance_mm > 0) {
      ++apart;
      EXPECT_LE(found.distance_mm, least + 1e-8);
      EXPECT_GE(found.distance_mm, least - step * 0.75);
      EXPECT_NEAR((found.at_first - found.at_second).norm(), found.distance_mm, 1e-7);
      EXPECT_NEAR(body.signed_distance(found.at_second), 0, 1e-7);
    } else {
      EXPECT_LE(least, step);
      EXPECT_LE(found.distance_mm, deepest - radius + 1e-8);
      EXPECT_GE(found.distance_mm, deepest - radius - 0.03);
    }
  }
  EXPECT_GT(apart, 20);
}

TEST(DistanceOracle, MovingBodiesAreAsNearAsTheirNearestPosition) {
  for (unsigned number = 100; number < 130; ++number) {
    SCOPED_TRACE(number);
    Dice dice(number);
    const CentreLine line = random_line(dice, 2, 40, 250);
    const double radius = 7.5;
    Body body = random_body(dice);
    if (std::holds_alternative<HalfSpace>(body.shape)) continue;
    body.motion = random_motion(dice);
    const Separation found = distance(TubeBody(line, radius), Obstacle(body));
    double least = kAnyDistance;
    for (int i = 0; i <= 200; ++i) {
      Body still = body;
      still.motion = std::monostate{};
      Eigen::Isometry3d pose = Eigen::Isometry3d::Identity();
      if (const auto* slide = std::get_if<Slide>(&body.motion)) pose.translation() = i / 200.0 * slide->shift;
      if (const auto* swing = std::get_if<Swing>(&body.motion)) {
        pose = Eigen::Translation3d(swing->at) * Eigen::AngleAxisd(i / 200.0 * swing->by.radians(), swing->about) *
               Eigen::Translation3d(-swing->at);
      }
      if (auto* box = std::get_if<Box>(&still.shape)) {
        box->centre = pose * box->centre;
        box->axes = pose.linear() * box->axes;
      } else if (auto* cylinder = std::get_if<Cylinder>(&still.shape)) {
        cylinder->from = pose * cylinder->from;
        cylinder->to = pose * cylinder->to;
      }
      least = std::min(least, distance(TubeBody(line, radius), Obstacle(still)).distance_mm);
    }
    if (least > 0) {
      EXPECT_LE(found.distance_mm, least + 1e-7);
      EXPECT_GE(found.distance_mm, least - 2);
    } else {
      EXPECT_LE(found.distance_mm, least + 1e-7);
    }
  }
}

TEST(DistanceOracle, ABoxAndItsTrianglesAreEquallyFar) {
  int apart = 0;
  for (unsigned number = 300; number < 400; ++number) {
    SCOPED_TRACE(number);
    Dice dice(number);
    const CentreLine line = random_line(dice, dice.upto(4), 40, 150);
    const Box box{dice.point(150), dice.attitude(), {dice.between(5, 90), dice.between(5, 90), dice.between(5, 90)}};
    const TubeBody tube(line, 7.5);
    const Separation exact = distance(tube, Obstacle(Body{box, std::monostate{}}));
    const Separation mesh = distance(tube, Obstacle(Body{testing::box_mesh(box, 4), std::monostate{}}));
    EXPECT_NEAR(mesh.distance_mm, exact.distance_mm, exact.distance_mm > 0 ? 1e-7 : 2e-3);
    apart += exact.distance_mm > 0;
  }
  EXPECT_GT(apart, 30);
}

TEST(DistanceOracle, TwoTubesAreAsFarAsTheirNearestPoints) {
  for (unsigned number = 200; number < 260; ++number) {
    SCOPED_TRACE(number);
    Dice dice(number);
    const CentreLine one = random_line(dice, dice.upto(3), 40, 150), other = random_line(dice, dice.upto(3), 50, 150);
    const double r1 = dice.between(3, 15), r2 = dice.between(3, 15);
    const TubeBody first(one, r1), second(other, r2);
    const Separation found = distance(first, second);
    double least = kAnyDistance, lines = kAnyDistance;
    const double step = 2;
    const auto to_solid = [](const TubeBody& tube, const Vec3& point) {
      double nearest = kAnyDistance;
      for (const SolidPiece& piece : tube.pieces()) {
        nearest = std::min(nearest, piece.solid_foot(tube.radius_mm(), point).distance);
      }
      return nearest;
    };
    for (const Vec3& point : surface(one, r1, step)) least = std::min(least, to_solid(second, point));
    for (const Vec3& point : surface(other, r2, step)) least = std::min(least, to_solid(first, point));
    for (double s = 0; s <= one.length_mm(); s += 0.05) {
      for (const SolidPiece& piece : second.pieces()) {
        lines = std::min(lines, piece.foot(one.point_at(s)).distance);
      }
    }
    EXPECT_LE(found.distance_mm, least + 1e-8);
    if (found.distance_mm > 0) {
      EXPECT_GE(found.distance_mm, least - step * 0.75);
      EXPECT_NEAR((found.at_first - found.at_second).norm(), found.distance_mm, 1e-7);
      EXPECT_NEAR(to_solid(first, found.at_first), 0, 1e-7);
      EXPECT_NEAR(to_solid(second, found.at_second), 0, 1e-7);
    } else {
      EXPECT_NEAR(found.distance_mm, lines - r1 - r2, 0.03);
    }
    const Separation swapped = distance(second, first);
    EXPECT_NEAR(swapped.distance_mm, found.distance_mm, 1e-7);
  }
}

}  // namespace
}  // namespace halfhard
