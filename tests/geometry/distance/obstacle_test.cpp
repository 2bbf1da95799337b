// Signed distances of single points to bodies at rest, sliding and swinging.
#include "geometry/distance/obstacle.h"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/geometry/distance/box_mesh.h"
#include "tests/geometry/distance/random_tubes.h"

namespace halfhard {
namespace {

using testing::Dice;

Box random_box(Dice& dice) {
  return {dice.point(100), dice.attitude(), {dice.between(5, 80), dice.between(5, 80), dice.between(5, 80)}};
}

TEST(Obstacle, ABoxAndItsTrianglesAgreeEverywhere) {
  Dice dice(1);
  for (int i = 0; i < 20; ++i) {
    const Box box = random_box(dice);
    const Obstacle solid(Body{box, std::monostate{}}), mesh(Body{testing::box_mesh(box, 1), std::monostate{}});
    for (int k = 0; k < 200; ++k) {
      const Vec3 point = box.centre + dice.point(120);
      EXPECT_NEAR(mesh.signed_distance(point), solid.signed_distance(point), 1e-9);
    }
  }
}

TEST(Obstacle, ASurfaceWithAHoleStillKnowsItsInside) {
  Dice dice(2);
  const Box box = random_box(dice);
  auto body = std::make_shared<TriangleBody>(*testing::box_mesh(box, 3));
  body->triangles.pop_back();
  const Obstacle holed(Body{std::shared_ptr<const TriangleBody>(body), std::monostate{}});
  EXPECT_LT(holed.signed_distance(box.centre), 0);
  EXPECT_GT(holed.signed_distance(box.centre + Vec3(300, 0, 0)), 0);
}

TEST(Obstacle, NoTrianglesAreInfinitelyFar) {
  const Obstacle none(Body{std::make_shared<const TriangleBody>(), std::monostate{}});
  EXPECT_TRUE(none.bounds().empty());
  EXPECT_TRUE(std::isinf(none.signed_distance(Vec3(1, 2, 3))));
}

// Whether some position of the motion holds the point, asked of the shape at rest.
double nearest_position(const Shape& shape, const Motion& motion, const Vec3& point, int steps) {
  const Obstacle rest(Body{shape, std::monostate{}});
  double least = 1e300;
  for (int i = 0; i <= steps; ++i) {
    const double share = static_cast<double>(i) / steps;
    Vec3 back = point;
    if (const auto* slide = std::get_if<Slide>(&motion)) back -= share * slide->shift;
    if (const auto* swing = std::get_if<Swing>(&motion)) {
      back = swing->at + Eigen::AngleAxisd(-share * swing->by.radians(), swing->about) * (point - swing->at);
    }
    least = std::min(least, rest.signed_distance(back));
  }
  return least;
}

Vec3 middle_of(const Shape& shape) {
  if (const auto* box = std::get_if<Box>(&shape)) return box->centre;
  const auto& cylinder = std::get<Cylinder>(shape);
  return (cylinder.from + cylinder.to) / 2;
}

// A moving body's own signed distance: outside, the nearest position; inside, a ball of the depth is swept all over and
// one a little larger is not.
void expect_swept(const Shape& shape, const Motion& motion, Dice& dice, double reach, int points) {
  const Obstacle body(Body{shape, motion});
  ASSERT_TRUE(body.depth_is_exact());
  int inside = 0;
  for (int k = 0; k < points; ++k) {
    // Every other point near the body's middle in some position, so that enough are inside.
    Vec3 point = dice.point(reach);
    if (k % 2 == 1) {
      const double share = dice.between(0, 1);
      point = middle_of(shape) + dice.point(25);
      if (const auto* slide = std::get_if<Slide>(&motion)) point += share * slide->shift;
      if (const auto* swing = std::get_if<Swing>(&motion)) {
        point = swing->at + Eigen::AngleAxisd(share * swing->by.radians(), swing->about) * (point - swing->at);
      }
    }
    const Foot foot = body.foot(point);
    const double sampled = nearest_position(shape, motion, point, 2000);
    EXPECT_NEAR((foot.at - point).norm(), std::abs(foot.distance), 1e-8);
    if (foot.distance > 0) {
      EXPECT_LE(foot.distance, sampled + 1e-8);
      EXPECT_GE(foot.distance, sampled - 0.2);
      continue;
    }
    ++inside;
    EXPECT_LE(sampled, 0.2);
    for (int ball = 0; ball < 20; ++ball) {
      const Vec3 within = point - 0.99 * foot.distance * dice.direction();
      EXPECT_LE(nearest_position(shape, motion, within, 2000), 0.2) << foot.distance;
    }
    const Vec3 beyond = foot.at + 0.5 * (foot.at - point).normalized();
    EXPECT_GT(nearest_position(shape, motion, beyond, 2000), 0.0);
  }
  EXPECT_GT(inside, 0);
}

TEST(Obstacle, ADrawerThatSlidesAskewIsTheSolidItSweeps) {
  for (unsigned number = 0; number < 6; ++number) {
    SCOPED_TRACE(number);
    Dice dice(number);
    expect_swept(random_box(dice), Slide{dice.between(20, 150) * dice.direction()}, dice, 150, 60);
  }
}

TEST(Obstacle, ADrawerThatSlidesAlongTwoOfItsAxesIsTheSolidItSweeps) {
  Dice dice(17);
  const Box box{{0, 0, 0}, Mat3::Identity(), {60, 40, 30}};
  expect_swept(box, Slide{{70, 90, 0}}, dice, 130, 100);
  expect_swept(box, Slide{{0, 90, 0}}, dice, 130, 100);
}

TEST(Obstacle, ADoorIsTheSolidItSweeps) {
  for (unsigned number = 0; number < 8; ++number) {
    SCOPED_TRACE(number);
    Dice dice(number);
    Box box{dice.point(60), Mat3::Identity(), {dice.between(20, 90), dice.between(3, 20), dice.between(20, 80)}};
    box.axes = Eigen::AngleAxisd(dice.between(0, 6), Vec3::UnitZ()).toRotationMatrix();
    const Swing swing{dice.point(60), Vec3::UnitZ(), Angle::degrees(dice.between(-200, 200))};
    expect_swept(box, swing, dice, 140, 60);
  }
}

TEST(Obstacle, ADoorHingedOnItsOwnCornerIsTheSolidItSweeps) {
  Dice dice(3);
  const Box box{{60, -3, 0}, Mat3::Identity(), {60, 3, 50}};
  expect_swept(box, Swing{{0, 0, 0}, Vec3::UnitZ(), Angle::degrees(90)}, dice, 130, 150);
  expect_swept(box, Swing{{0, 0, 0}, Vec3::UnitZ(), Angle::degrees(360)}, dice, 130, 150);
}

TEST(Obstacle, AnUprightRoundBarThatSwingsIsTheSolidItSweeps) {
  for (unsigned number = 0; number < 6; ++number) {
    SCOPED_TRACE(number);
    Dice dice(number);
    const Vec3 from = dice.point(80);
    const Cylinder bar{from, from + Vec3(0, 0, 90), dice.between(10, 60)};
    expect_swept(bar, Swing{{0, 0, 0}, Vec3::UnitZ(), Angle::degrees(dice.between(-300, 300))}, dice, 150, 60);
  }
}

}  // namespace
}  // namespace halfhard
