// What must hold of any clearance, on random scenes; the number of the scene is printed with a failure.
#include <gtest/gtest.h>

#include <cmath>

#include "geometry/distance/distance.h"
#include "tests/geometry/distance/box_mesh.h"
#include "tests/geometry/distance/random_tubes.h"

namespace halfhard {
namespace {

using testing::Dice;
using testing::random_line;

struct Scene {
  CentreLine one, other;
  Box box;
};

Scene scene(unsigned number) {
  Dice dice(number);
  Scene made{random_line(dice, dice.upto(5), 40, 200), random_line(dice, dice.upto(5), 50, 200), Box{}};
  made.box = {dice.point(200), dice.attitude(), {dice.between(5, 90), dice.between(5, 90), dice.between(5, 90)}};
  return made;
}

// Turned, moved and, where asked, mirrored.
CentreLine placed(const CentreLine& line, const Mat3& turn, const Vec3& shift) {
  std::vector<Vec3> points;
  for (const Vec3& point : line.points()) points.push_back(turn * point + shift);
  return CentreLine::through(points, line.radius_mm());
}

Obstacle placed(const Box& box, const Mat3& turn, const Vec3& shift) {
  return Obstacle(Body{Box{turn * box.centre + shift, turn * box.axes, box.half}, std::monostate{}});
}

double between(const CentreLine& one, double r1, const CentreLine& other, double r2) {
  return distance(TubeBody(one, r1), TubeBody(other, r2)).distance_mm;
}

TEST(DistanceProperty, MovingTurningAndMirroringBothChangesNothing) {
  for (unsigned number = 0; number < 80; ++number) {
    SCOPED_TRACE(number);
    const Scene s = scene(number);
    Dice dice(number + 5000);
    Mat3 turn = dice.attitude();
    if (number % 2 == 1) turn = turn * Vec3(1, 1, -1).asDiagonal();
    const Vec3 shift = dice.point(3000);
    const CentreLine one = placed(s.one, turn, shift), other = placed(s.other, turn, shift);
    EXPECT_NEAR(between(s.one, 7.5, s.other, 11), between(one, 7.5, other, 11), 2e-6);
    EXPECT_NEAR(distance(TubeBody(s.one, 7.5), placed(s.box, Mat3::Identity(), Vec3::Zero())).distance_mm,
                distance(TubeBody(one, 7.5), placed(s.box, turn, shift)).distance_mm, 2e-6);
  }
}

TEST(DistanceProperty, TheOrderOfTwoTubesAndTheirOwnDirectionChangeNothing) {
  for (unsigned number = 100; number < 180; ++number) {
    SCOPED_TRACE(number);
    const Scene s = scene(number);
    std::vector<Vec3> back(s.one.points().rbegin(), s.one.points().rend());
    const CentreLine reversed = CentreLine::through(back, s.one.radius_mm());
    const double found = between(s.one, 7.5, s.other, 11);
    EXPECT_NEAR(found, between(s.other, 11, s.one, 7.5), 2e-6);
    EXPECT_NEAR(found, between(reversed, 7.5, s.other, 11), 2e-6);
  }
}

TEST(DistanceProperty, AThinnerTubeIsFartherByWhatItLostWhereItsSideIsNearest) {
  int sides = 0;
  for (unsigned number = 200; number < 260; ++number) {
    SCOPED_TRACE(number);
    const Scene s = scene(number);
    const Obstacle box = placed(s.box, Mat3::Identity(), Vec3::Zero());
    const Separation thick = distance(TubeBody(s.one, 10), box), thin = distance(TubeBody(s.one, 6), box);
    // Never nearer, and never farther by more than the radius lost.
    EXPECT_GE(thin.distance_mm, thick.distance_mm - 2e-6);
    if (thick.distance_mm > 0) {
      EXPECT_LE(thin.distance_mm, thick.distance_mm + 4 + 2e-6);
    }
    const bool side = thick.along_first_mm > 1 && thick.along_first_mm < s.one.length_mm() - 1;
    if (!side) continue;
    ++sides;
    EXPECT_NEAR(thin.distance_mm, thick.distance_mm + 4, 2e-6);
  }
  EXPECT_GT(sides, 15);
}

TEST(DistanceProperty, GivingUpEarlyGivesUpOnlyWhereTheLimitAllows) {
  for (unsigned number = 300; number < 380; ++number) {
    SCOPED_TRACE(number);
    const Scene s = scene(number);
    const Obstacle box = placed(s.box, Mat3::Identity(), Vec3::Zero());
    const TubeBody one(s.one, 7.5), other(s.other, 11);
    for (const double limit : {0.0, 20.0, 100.0, 400.0}) {
      const double to_box = distance(one, box).distance_mm, to_other = distance(one, other).distance_mm;
      const auto near_box = distance_nearer_than(limit, one, box);
      const auto near_other = distance_nearer_than(limit, one, other);
      if (to_box < limit - 2e-6) {
        ASSERT_TRUE(near_box) << to_box << " " << limit;
      }
      if (to_box > limit + 2e-6) {
        EXPECT_FALSE(near_box) << to_box << " " << limit;
      }
      if (to_other < limit - 2e-6) {
        ASSERT_TRUE(near_other) << to_other << " " << limit;
      }
      if (to_other > limit + 2e-6) {
        EXPECT_FALSE(near_other) << to_other << " " << limit;
      }
      if (near_box) {
        EXPECT_NEAR(near_box->distance_mm, to_box, 2e-6);
      }
      if (near_other) {
        EXPECT_NEAR(near_other->distance_mm, to_other, 2e-6);
      }
    }
  }
}

TEST(DistanceProperty, ATubeAndItselfIsTheNearestOfItsPairsOfPieces) {
  int some = 0;
  for (unsigned number = 400; number < 440; ++number) {
    SCOPED_TRACE(number);
    Dice dice(number);
    const CentreLine line = random_line(dice, 6, 40, 100);
    double least = kAnyDistance;
    const TubeBody tube(line, 7.5);
    for (const SolidPiece& a : tube.pieces()) {
      for (const SolidPiece& b : tube.pieces()) {
        if (b.first_leg - a.last_leg < 2) continue;
        const TubeBody first(line, 7.5, a.starts_at, a.starts_at + a.length);
        const TubeBody second(line, 7.5, b.starts_at, b.starts_at + b.length);
        least = std::min(least, distance(first, second).distance_mm);
      }
    }
    const auto found = self_distance(line, 7.5);
    ASSERT_TRUE(found);
    EXPECT_NEAR(found->distance_mm, least, 2e-6);
    ++some;
  }
  EXPECT_EQ(some, 40);
}

TEST(DistanceProperty, FarFromTheOriginItStillHoldsToWhatADoubleResolves) {
  for (unsigned number = 500; number < 540; ++number) {
    SCOPED_TRACE(number);
    const Scene s = scene(number);
    const Vec3 far(9e7, -8e7, 5e7);
    const CentreLine one = placed(s.one, Mat3::Identity(), far), other = placed(s.other, Mat3::Identity(), far);
    EXPECT_NEAR(between(s.one, 7.5, s.other, 11), between(one, 7.5, other, 11), 1e-3);
    EXPECT_NEAR(distance(TubeBody(s.one, 7.5), placed(s.box, Mat3::Identity(), Vec3::Zero())).distance_mm,
                distance(TubeBody(one, 7.5), placed(s.box, Mat3::Identity(), far)).distance_mm, 1e-3);
  }
}

TEST(DistanceProperty, ABankOfEqualPipesIsItsStepLessTheDiameterApart) {
  // Every straight and every bend is then at one and the same distance from its neighbour.
  for (unsigned number = 600; number < 620; ++number) {
    SCOPED_TRACE(number);
    Dice dice(number);
    std::vector<Vec3> points{{0, 0, 0}};
    for (int i = 0; i < 8; ++i) {
      const Vec3 leg = i % 2 == 0 ? Vec3(dice.between(120, 300), 0, 0) : Vec3(0, 0, dice.between(120, 300));
      points.push_back(points.back() + leg);
    }
    const CentreLine line = CentreLine::through(points, 55);
    const TubeBody first(line, 7.5);
    EXPECT_NEAR(distance(first, first.moved({0, 60, 0})).distance_mm, 45, 1e-7);
    EXPECT_NEAR(distance(first, first.moved({0, 0, 60})).distance_mm,
                distance(first.moved({0, 0, 60}), first).distance_mm, 1e-7);
  }
}

std::shared_ptr<const TriangleBody> line_of_triangles() {
  auto body = std::make_shared<TriangleBody>();
  body->vertices = {{0, 0, 30}, {10, 0, 30}, {20, 0, 30}};
  body->triangles = {{0, 1, 2}};
  return body;
}

TEST(DistanceProperty, NothingDegenerateGivesNonsense) {
  const TubeBody tube(CentreLine::through({{0, 0, 0}, {200, 0, 0}, {200, 200, 0}}, 55), 7.5);
  const std::vector<Shape> shapes = {Box{{50, 0, 0}, Mat3::Identity(), {0, 0, 0}},
                                     Box{{50, 0, 0}, Mat3::Identity(), {10, 10, 0}},
                                     Box{{100, 100, 0}, Mat3::Identity(), {1e8, 1e8, 1e8}},
                                     Cylinder{{50, 0, 0}, {50, 0, 0}, 0},
                                     Cylinder{{0, 0, 0}, {200, 0, 0}, 0},
                                     Cylinder{{0, 0, 0}, {200, 0, 0}, 7.5},
                                     HalfSpace{{0, 0, 0}, {0, 0, 1}},
                                     line_of_triangles(),
                                     testing::box_mesh(Box{{50, 0, 0}, Mat3::Identity(), {10, 10, 5}}, 2)};
  const std::vector<Motion> motions = {std::monostate{},
                                       Slide{},
                                       Slide{{0, 0, 50}},
                                       Slide{{30, 20, 50}},
                                       Swing{{0, 0, 0}, {0, 0, 1}, Angle::degrees(90)},
                                       Swing{{50, 0, 0}, {0, 0.6, 0.8}, Angle::degrees(-30)}};
  for (std::size_t i = 0; i < shapes.size(); ++i) {
    for (std::size_t k = 0; k < motions.size(); ++k) {
      SCOPED_TRACE(i);
      SCOPED_TRACE(k);
      // The tube's line runs exactly along many of these faces; triangles that move as well are slow then, and tried once.
      if (i + 1 == shapes.size() && k != 0 && k != 4) continue;
      const Obstacle body(Body{shapes[i], motions[k]});
      const Separation found = distance(tube, body);
      EXPECT_FALSE(std::isnan(found.distance_mm));
      EXPECT_TRUE(found.at_first.allFinite());
      EXPECT_TRUE(found.at_second.allFinite());
    }
  }
}

TEST(DistanceProperty, ATubeAndItselfWholeIsMeeting) {
  const CentreLine line = CentreLine::through({{0, 0, 0}, {200, 0, 0}, {200, 200, 0}}, 55);
  EXPECT_NEAR(between(line, 7.5, line, 7.5), -15, 1e-7);
}

TEST(DistanceProperty, AUncertainBodySaysSo) {
  auto mesh = std::make_shared<TriangleBody>(*testing::box_mesh(Box{{0, 0, 60}, Mat3::Identity(), {10, 10, 10}}, 1));
  mesh->deviation_mm = 0.02;
  const Obstacle body(Body{std::shared_ptr<const TriangleBody>(mesh), std::monostate{}});
  const TubeBody tube(CentreLine::through({{-100, 0, 0}, {100, 0, 0}}, 55), 7.5);
  EXPECT_EQ(distance(tube, body).uncertainty_mm, 0.02);
  EXPECT_NEAR(distance(tube, body).distance_mm, 42.5, 1e-9);
}

}  // namespace
}  // namespace halfhard
