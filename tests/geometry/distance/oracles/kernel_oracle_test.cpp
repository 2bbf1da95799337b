// Clearances against the solid kernel's own distances on natural-seam solids. Two solids whose seams are not natural come
// out up to 4 mm too far there, so the dense sampling of distance_oracle_test.cpp is the second opinion.
#include <gtest/gtest.h>

#include "geometry/distance/distance.h"
#include "geometry/occt/body_solid.h"
#include "geometry/occt/tube_solid.h"
#include "tests/geometry/distance/random_tubes.h"

namespace halfhard {
namespace {

using testing::Dice;
using testing::random_line;

constexpr double kKernel_mm = 0.01;

TEST(KernelOracle, TwoTubesAreAsFarAsTheKernelSays) {
  int apart = 0;
  for (unsigned number = 0; number < 60; ++number) {
    SCOPED_TRACE(number);
    Dice dice(number);
    const CentreLine one = random_line(dice, 1 + dice.upto(3), 45, 200);
    const CentreLine other = random_line(dice, 1 + dice.upto(3), 50, 200);
    const double found = distance(TubeBody(one, 7.5), TubeBody(other, 11)).distance_mm;
    const double kernel = tube_solid(one, 7.5, 0).distance_mm(tube_solid(other, 11, 0));
    EXPECT_NEAR(std::max(0.0, found), kernel, kKernel_mm);
    apart += found > 0;
  }
  EXPECT_GT(apart, 30);
}

TEST(KernelOracle, BoxesAndBarsAreAsFarAsTheKernelSays) {
  int apart = 0;
  for (unsigned number = 0; number < 60; ++number) {
    SCOPED_TRACE(number);
    Dice dice(number);
    const CentreLine line = random_line(dice, 1 + dice.upto(3), 45, 200);
    const bool boxed = dice.upto(2) == 0;
    const Box box{dice.point(200), dice.attitude(), {dice.between(5, 90), dice.between(5, 90), dice.between(5, 90)}};
    const Vec3 from = dice.point(200);
    const Cylinder bar{from, from + dice.between(20, 200) * dice.direction(), dice.between(2, 60)};
    const Body body{boxed ? Shape(box) : Shape(bar), std::monostate{}};
    const double found = distance(TubeBody(line, 7.5), Obstacle(body)).distance_mm;
    const Solid tube = tube_solid(line, 7.5, 0);
    const double kernel = tube.distance_mm(boxed ? box_solid(box) : cylinder_solid(bar));
    EXPECT_NEAR(std::max(0.0, found), kernel, kKernel_mm);
    apart += found > 0;
  }
  EXPECT_GT(apart, 30);
}

}  // namespace
}  // namespace halfhard
