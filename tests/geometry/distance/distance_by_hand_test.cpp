// Clearances whose value can be worked out on paper.
#include <gtest/gtest.h>

#include <cmath>

#include "geometry/distance/distance.h"
#include "tests/geometry/distance/box_mesh.h"
#include "tests/geometry/distance/random_tubes.h"

namespace halfhard {
namespace {

constexpr double kR = 7.5;  // 15 mm tube

CentreLine straight(const Vec3& from, const Vec3& to) { return CentreLine::through({from, to}, 55); }

Obstacle upright_box(const Vec3& low, const Vec3& high) {
  return Obstacle(Body{Box{(low + high) / 2, Mat3::Identity(), (high - low) / 2}, std::monostate{}});
}

TEST(Distance, StraightTubeBesideAWallIsItsGapLessTheRadius) {
  const TubeBody tube(straight({0, 0, 0}, {500, 0, 0}), kR);
  const Obstacle wall(Body{HalfSpace{{0, 40, 0}, {0, -1, 0}}, std::monostate{}});
  const Separation found = distance(tube, wall);
  EXPECT_NEAR(found.distance_mm, 32.5, 1e-9);
  EXPECT_NEAR(found.at_first.y(), 7.5, 1e-9);
  EXPECT_NEAR(found.at_second.y(), 40, 1e-9);
}

TEST(Distance, FlatEndFacingAWallCountsFromTheEndNotFromACap) {
  const TubeBody tube(straight({0, 0, 0}, {500, 0, 0}), kR);
  const Obstacle wall(Body{HalfSpace{{-12, 0, 0}, {1, 0, 0}}, std::monostate{}});
  EXPECT_NEAR(distance(tube, wall).distance_mm, 12, 1e-9);
}

TEST(Distance, FlatEndSkewToAWallCountsFromItsRim) {
  const TubeBody tube(straight({0, 0, 0}, {500, 0, 0}), kR);
  const Vec3 facing = Vec3(std::cos(0.3), std::sin(0.3), 0);
  const Obstacle wall(Body{HalfSpace{-20 * facing, facing}, std::monostate{}});
  EXPECT_NEAR(distance(tube, wall).distance_mm, 20 - kR * std::sin(0.3), 1e-9);
}

TEST(Distance, EndOfATubeAndACornerOfABoxBesideItsAxis) {
  const TubeBody tube(straight({0, 0, 0}, {500, 0, 0}), kR);
  const Obstacle box = upright_box({-60, 10, 10}, {-5, 60, 60});
  const double off = std::hypot(10, 10) - kR;
  EXPECT_NEAR(distance(tube, box).distance_mm, std::hypot(5, off), 1e-9);
}

TEST(Distance, ThinBarInFrontOfTheMiddleOfAnEnd) {
  const TubeBody tube(straight({0, 0, 0}, {500, 0, 0}), kR);
  const Obstacle bar(Body{Cylinder{{-100, 1, 2}, {-3, 1, 2}, 0.5}, std::monostate{}});
  EXPECT_NEAR(distance(tube, bar).distance_mm, 3, 1e-9);
}

TEST(Distance, ThinBarThroughAnEndMeetsIt) {
  const TubeBody tube(straight({0, 0, 0}, {500, 0, 0}), kR);
  const Obstacle bar(Body{Cylinder{{-100, 1, 2}, {3, 1, 2}, 0.5}, std::monostate{}});
  EXPECT_NEAR(distance(tube, bar).distance_mm, std::hypot(1, 2) - 0.5 - kR, 1e-9);
}

TEST(Distance, MeetingABoxIsTheDepthOfTheCentreLineLessTheRadius) {
  const TubeBody tube(straight({-100, 4, 0}, {100, 4, 0}), kR);
  const Obstacle box = upright_box({-10, -50, -50}, {10, 50, 50});
  const Separation found = distance(tube, box);
  EXPECT_NEAR(found.distance_mm, -10 - kR, 1e-9);
  EXPECT_NEAR(found.at_first.x(), 0, 1e-6);
}

TEST(Distance, TouchingIsNothing) {
  const TubeBody tube(straight({0, 0, 0}, {500, 0, 0}), kR);
  EXPECT_NEAR(distance(tube, upright_box({100, 7.5, -5}, {120, 50, 5})).distance_mm, 0, 1e-9);
  EXPECT_NEAR(distance(tube, TubeBody(straight({50, 15, -50}, {50, 15, 50}), kR)).distance_mm, 0, 1e-9);
  EXPECT_NEAR(distance(tube, TubeBody(straight({-40, 0, 0}, {0, 0, 0}), kR)).distance_mm, 0, 1e-9);
}

TEST(Distance, AnEndFlushBesideAnEdgeOnlyTouches) {
  // The end lies in the plane of the shelf's underside, its axis 5 mm beyond the shelf's edge.
  const Obstacle shelf = upright_box({-100, -100, 100}, {0, 100, 120});
  const auto up_to = [&](double top) {
    return distance(TubeBody(straight({5, 0, -200}, {5, 0, top}), kR), shelf).distance_mm;
  };
  EXPECT_NEAR(up_to(100 - 1e-8), 1e-8, 1e-12);
  EXPECT_NEAR(up_to(100 - 1e-9), 0, 1.1e-9);
  EXPECT_EQ(up_to(100), 0);
  const Separation flush = distance(TubeBody(straight({5, 0, -200}, {5, 0, 100 - 1e-9}), kR), shelf);
  EXPECT_NEAR((flush.at_first - flush.at_second).norm(), 0, 1e-8);
  EXPECT_NEAR(up_to(100 + 1e-5), 5 - kR, 1e-9);
  // The other end, and a shelf known by triangles.
  EXPECT_EQ(distance(TubeBody(straight({5, 0, 100}, {5, 0, -200}), kR), shelf).distance_mm, 0);
  const auto mesh = testing::box_mesh({{-50, 0, 110}, Mat3::Identity(), {50, 100, 10}}, 2);
  const Obstacle triangles(Body{mesh, std::monostate{}});
  EXPECT_EQ(distance(TubeBody(straight({5, 0, -200}, {5, 0, 100}), kR), triangles).distance_mm, 0);
}

TEST(Distance, EndsFlushWithEachOtherOnlyTouch) {
  const TubeBody one(straight({0, 0, 0}, {0, 0, 300}), kR);
  const auto from = [&](double start) {
    const TubeBody other(straight({3, 0, start}, {3, 0, 500}), kR);
    EXPECT_EQ(distance(one, other).distance_mm, distance(other, one).distance_mm);
    return distance(one, other).distance_mm;
  };
  EXPECT_NEAR(from(300 + 1e-8), 1e-8, 1e-12);
  EXPECT_EQ(from(300), 0);
  EXPECT_NEAR(from(300 - 1e-5), 3 - 2 * kR, 1e-9);
  // Level side by side they overlap as before.
  const TubeBody beside(straight({12, 0, 0}, {12, 0, 300}), kR);
  EXPECT_NEAR(distance(one, beside).distance_mm, -3, 1e-9);
}

TEST(Distance, FlushInEveryAttitudeIsTouching) {
  const TubeBody tube(straight({5, 0, -200}, {5, 0, 100}), kR), over(straight({8, 0, 100}, {8, 0, 300}), kR);
  testing::Dice dice(4);
  for (int i = 0; i < 200; ++i) {
    Eigen::Isometry3d pose = Eigen::Isometry3d::Identity();
    pose.linear() = dice.attitude();
    pose.translation() = dice.point(2000);
    const Box shelf{pose * Vec3(-50, 0, 110), pose.linear(), {50, 100, 10}};
    const TubeBody turned = tube.carried(pose);
    EXPECT_NEAR(distance(turned, Obstacle(Body{shelf, std::monostate{}})).distance_mm, 0, 1e-9);
    EXPECT_NEAR(distance(turned, over.carried(pose)).distance_mm, 0, 1e-9);
  }
}

TEST(Distance, CrossedTubes) {
  const TubeBody one(straight({-100, 0, 0}, {100, 0, 0}), 7.5), other(straight({0, -100, 60}, {0, 100, 60}), 11);
  const Separation found = distance(one, other);
  EXPECT_NEAR(found.distance_mm, 60 - 18.5, 1e-9);
  EXPECT_NEAR(found.at_first.z(), 7.5, 1e-9);
  EXPECT_NEAR(found.at_second.z(), 49, 1e-9);
  EXPECT_NEAR(found.along_first_mm, 100, 1e-6);
  EXPECT_NEAR(found.along_second_mm, 100, 1e-6);
}

TEST(Distance, TwoEndsInLineAreTheirGapApart) {
  const TubeBody one(straight({0, 0, 0}, {100, 0, 0}), 7.5), other(straight({103, 2, 0}, {200, 2, 0}), 11);
  EXPECT_NEAR(distance(one, other).distance_mm, 3, 1e-9);
}

TEST(Distance, TwoEndsPastEachOtherAreCornerToCorner) {
  const TubeBody one(straight({0, 0, 0}, {100, 0, 0}), 7.5), other(straight({104, 21.5, 0}, {200, 21.5, 0}), 11);
  EXPECT_NEAR(distance(one, other).distance_mm, 5, 1e-9);
}

TEST(Distance, ABendReachesFartherThanItsEnds) {
  // A U of radius 55 with its crown towards the wall.
  const TubeBody tube(CentreLine::through({{0, 0, 0}, {155, 0, 0}, {155, 110, 0}, {0, 110, 0}}, 55), kR);
  const Obstacle wall(Body{HalfSpace{{200, 0, 0}, {-1, 0, 0}}, std::monostate{}});
  EXPECT_NEAR(distance(tube, wall).distance_mm, 200 - 155 - kR, 1e-9);
  const Obstacle peg(Body{Cylinder{{100, 55, -50}, {100, 55, 50}, 20}, std::monostate{}});
  EXPECT_NEAR(distance(tube, peg).distance_mm, 55 - 20 - kR, 1e-9);
}

TEST(Distance, ATubeAndItsOwnOtherLeg) {
  const CentreLine u = CentreLine::through({{0, 0, 0}, {155, 0, 0}, {155, 110, 0}, {0, 110, 0}}, 55);
  ASSERT_TRUE(self_distance(u, kR));
  EXPECT_NEAR(self_distance(u, kR)->distance_mm, 110 - 2 * kR, 1e-9);
  EXPECT_FALSE(self_distance(CentreLine::through({{0, 0, 0}, {155, 0, 0}, {155, 110, 0}}, 55), kR));
}

TEST(Distance, ADrawerCountsInEveryPosition) {
  const TubeBody tube(straight({0, 0, 0}, {0, 0, 500}), kR);
  Body drawer{Box{{300, 0, 250}, Mat3::Identity(), {50, 20, 20}}, Slide{{-200, 0, 0}}};
  EXPECT_NEAR(distance(tube, Obstacle(drawer)).distance_mm, 50 - kR, 1e-9);
  drawer.motion = Slide{{-200, 300, 0}};
  // The leading corner (250,-20) slides along the direction (-2, 3): nearest is the line from it.
  const double skew = std::abs(250 * 3.0 + -20 * 2.0) / std::hypot(2, 3);
  EXPECT_NEAR(distance(tube, Obstacle(drawer)).distance_mm, skew - kR, 1e-9);
}

TEST(Distance, ADoorCountsInEveryPosition) {
  // Hinged at the origin, 600 wide along x, 20 thick on its far side, swinging from x to y.
  const Body door{Box{{300, -10, 0}, Mat3::Identity(), {300, 10, 400}},
                  Swing{{0, 0, 0}, {0, 0, 1}, Angle::degrees(90)}};
  const TubeBody tube(straight({500, 500, -100}, {500, 500, 100}), kR);
  EXPECT_NEAR(distance(tube, Obstacle(door)).distance_mm, std::hypot(500, 500) - std::hypot(600, 20) - kR, 1e-8);
}

TEST(Distance, AnEmptyPartLeavesTheFarDisc) {
  const TubeBody tube(straight({0, 0, 0}, {500, 0, 0}), kR, 600, 700);
  const Obstacle wall(Body{HalfSpace{{520, 0, 0}, {-1, 0, 0}}, std::monostate{}});
  EXPECT_NEAR(distance(tube, wall).distance_mm, 20, 1e-9);
}

TEST(Distance, APartStartsWithAFlatEnd) {
  const TubeBody tube(straight({0, 0, 0}, {500, 0, 0}), kR, 15, 500);
  const Obstacle fitting = upright_box({-40, -20, -20}, {0, 20, 20});
  EXPECT_NEAR(distance(tube, fitting).distance_mm, 15, 1e-9);
}

}  // namespace
}  // namespace halfhard
