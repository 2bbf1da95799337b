// Bodies that slide or swing: every position counts, none is passed over.
#include <gtest/gtest.h>

#include <cmath>

#include "geometry/distance/distance.h"
#include "tests/geometry/distance/box_mesh.h"
#include "tests/geometry/distance/random_tubes.h"

namespace halfhard {
namespace {

using testing::Dice;
using testing::random_line;

constexpr double kR = 7.5;

CentreLine straight(const Vec3& from, const Vec3& to) { return CentreLine::through({from, to}, 60); }

Box between(const Vec3& one, const Vec3& other) {
  return {(one + other) / 2, Mat3::Identity(), (one - other).cwiseAbs() / 2};
}

// The tube against one position of the swing, by carrying the tube instead.
double at_position(const TubeBody& tube, const Body& body, double share) {
  const Swing& swing = std::get<Swing>(body.motion);
  const Eigen::Isometry3d back = Eigen::Translation3d(swing.at) *
                                 Eigen::AngleAxisd(-share * swing.by.radians(), swing.about) *
                                 Eigen::Translation3d(-swing.at);
  return distance(tube.carried(back), Obstacle(Body{body.shape, std::monostate{}})).distance_mm;
}

// The least of all positions, and of many more around it.
double nearest_position(const TubeBody& tube, const Body& body) {
  double least = kAnyDistance, where = 0;
  for (int i = 0; i <= 1000; ++i) {
    const double value = at_position(tube, body, i / 1000.0);
    if (value < least) {
      least = value;
      where = i / 1000.0;
    }
  }
  for (int i = -500; i <= 500; ++i) {
    least = std::min(least, at_position(tube, body, std::clamp(where + i / 500e3, 0.0, 1.0)));
  }
  return least;
}

TEST(MovingDistance, AFlatEndThatDipsIntoADrawerThatSlidesAskewMeetsIt) {
  // Its rim dips 15/sqrt(2) mm below the face that it slides with; its axis ends 5/sqrt(2) mm before it.
  const Body drawer{between({-100, -100, -100}, {100, 100, 0}), Slide{{0, 300, 300}}};
  const Separation found = distance(TubeBody(straight({0, 45, 150}, {0, 45, 450}), 15), Obstacle(drawer));
  EXPECT_NEAR(found.distance_mm, 5 / std::sqrt(2) - 15, 1e-9);
}

TEST(MovingDistance, OnlyAFlatEndInAMovingOrStandingBodyMeetsItHoweverItIsDescribed) {
  int meeting = 0;
  for (unsigned number = 0; number < 60; ++number) {
    SCOPED_TRACE(number);
    Dice dice(number);
    const Box box{dice.point(50), dice.attitude(), {dice.between(20, 60), dice.between(20, 60), dice.between(20, 60)}};
    const Slide slide{dice.between(20, 150) * dice.direction()};
    const Obstacle still(Body{box, std::monostate{}}), mesh(Body{testing::box_mesh(box, 3), std::monostate{}});
    const Obstacle slid(Body{box, slide});
    // From beside the surface away, sloping, so that the rim of the end may be inside and its axis is not.
    for (const Obstacle* body : {&still, &slid}) {
      const Vec3 outside = box.centre + 400 * dice.direction();
      const Foot foot = body->foot(outside);
      const Vec3 out = (outside - foot.at).normalized();
      const double off = dice.between(0.5, 6);
      const Vec3 start = foot.at + off * out, way = (out + 2 * out.cross(dice.direction()).normalized()).normalized();
      const TubeBody tube(straight(start, start + 300 * way), kR);
      const double found = distance(tube, *body).distance_mm;
      if (body == &still) {
        EXPECT_NEAR(distance(tube, mesh).distance_mm, found, 1e-6);
      }
      // What dips deeper than the corner of the rim goes is all that is sure without the answer.
      double rim = kAnyDistance;
      for (int i = 0; i < 720; ++i) {
        const Vec3 u = any_square_to(way), v = way.cross(u);
        const double angle = i * 3.14159265358979 / 360;
        rim = std::min(rim, body->signed_distance(start + kR * (std::cos(angle) * u + std::sin(angle) * v)));
      }
      if (rim > -1e-3) continue;
      ++meeting;
      EXPECT_NEAR(found, off - kR, 1e-6);
    }
  }
  EXPECT_GT(meeting, 40);
}

TEST(MovingDistance, ASwingRoundIsAsFarAsItsNearestPosition) {
  struct Scene {
    Body body;
    CentreLine line;
    double distance;
  };
  const Angle round = Angle::degrees(360);
  const std::vector<Scene> scenes{
      {{between({-180, -140, -60}, {20, -90, -40}), Swing{{-10, 140, -10}, {0, 0, 1}, round}},
       straight({-270, -270, 210}, {-270, -270, 310}),
       291.765},
      {{Cylinder{{238, 318.2, -255.4}, {158.5, 331.7, -380.5}, 38.7},
        Swing{{584.2, 371.1, 299.3}, Vec3(0.2, 0.7, 0.4).normalized(), round}},
       straight({-185.7, 244.3, -493.8}, {-185.7, 244.3, -200.7}),
       115.300},
      {{Cylinder{{-291.8, 296.8, -175.9}, {-390.6, 250.3, 219.1}, 47.05},
        Swing{{-204.7, -277.4, -522.7}, Vec3(-0.6, 0.7, 0.2).normalized(), round}},
       straight({-441.6, 501.6, 569.2}, {-441.6, 501.6, 965}),
       399.401}};
  for (const Scene& scene : scenes) {
    const TubeBody tube(scene.line, kR);
    const double found = distance(tube, Obstacle(scene.body)).distance_mm;
    const double nearest = nearest_position(tube, scene.body);
    EXPECT_NEAR(found, scene.distance, 1e-3);
    EXPECT_LE(found, nearest + 1e-7);
    EXPECT_GE(found, nearest - 1e-4);
  }
}

Body swung(Dice& dice, double degrees) {
  Body body;
  if (dice.upto(2) == 0) {
    body.shape =
        Box{dice.point(150), dice.attitude(), {dice.between(5, 150), dice.between(5, 150), dice.between(5, 150)}};
  } else {
    const Vec3 from = dice.point(150);
    body.shape = Cylinder{from, from + dice.between(20, 300) * dice.direction(), dice.between(3, 80)};
  }
  body.motion = Swing{dice.point(300), dice.direction(), Angle::degrees(dice.between(-degrees, degrees))};
  return body;
}

TEST(MovingDistance, NoPositionOfASwingIsNearerOrDeeper) {
  int meeting = 0;
  for (unsigned number = 0; number < 100; ++number) {
    SCOPED_TRACE(number);
    Dice dice(number);
    const TubeBody tube(random_line(dice, dice.upto(3), 50, number % 3 ? 300 : 100), kR);
    const Body body = swung(dice, number % 2 ? 360 : 90);
    const double found = distance(tube, Obstacle(body)).distance_mm, nearest = nearest_position(tube, body);
    meeting += found < 0;
    EXPECT_LE(found, nearest + 2e-5);
    EXPECT_GE(found, nearest - (found > 0 ? 1e-3 : 0.5));
  }
  EXPECT_GT(meeting, 10);
}

TEST(MovingDistance, TrianglesThatSwingAreAsFarAsTheirBox) {
  for (unsigned number = 0; number < 16; ++number) {
    SCOPED_TRACE(number);
    Dice dice(number);
    const TubeBody tube(random_line(dice, dice.upto(2), 50, 250), kR);
    const Box box{dice.point(200), dice.attitude(), {dice.between(5, 90), dice.between(5, 90), dice.between(5, 90)}};
    const Swing swing{dice.point(200), dice.direction(), Angle::degrees(dice.between(-120, 120))};
    const double exact = distance(tube, Obstacle(Body{box, swing})).distance_mm;
    const double mesh = distance(tube, Obstacle(Body{testing::box_mesh(box, 2), swing})).distance_mm;
    EXPECT_NEAR(mesh, exact, exact > 0 ? 1e-6 : 5e-3);
  }
}

TEST(MovingDistance, ADoorPassesAPipesEndOnItsLevel) {
  // Equally far in all the positions that reach over the end.
  const Body door{between({0, -20, 100}, {600, 0, 900}), Swing{{0, 0, 0}, {0, 0, 1}, Angle::degrees(120)}};
  const auto below = [&](double top) {
    const CentreLine line = CentreLine::through({{100, 300, top}, {100, 300, top - 200}, {700, 300, top - 200}}, 60);
    return distance(TubeBody(line, kR), Obstacle(door)).distance_mm;
  };
  EXPECT_NEAR(below(70), 30, 1e-9);
  EXPECT_NEAR(below(100 - 1e-5), 1e-5, 1e-9);
  EXPECT_NEAR(below(100), 0, 1e-12);
  EXPECT_LT(below(100.01), -kR);
}

}  // namespace
}  // namespace halfhard
