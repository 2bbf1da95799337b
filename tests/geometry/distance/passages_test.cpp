#include "geometry/distance/passages.h"

#include <gtest/gtest.h>

namespace halfhard {
namespace {

Obstacle panel() { return Obstacle(Body{Box{{0, 489, 450}, Mat3::Identity(), {300, 9, 350}}, std::monostate{}}); }

TEST(Passages, AStraightThroughAPanelGoesInAndOut) {
  const CentreLine line = CentreLine::through({{10, 300, 400}, {10, 600, 400}}, 55);
  const auto found = passages(line, panel());
  ASSERT_EQ(found.size(), 1u);
  EXPECT_TRUE(found[0].in_and_out());
  EXPECT_NEAR(found[0].in_mm, 180, 1e-8);
  EXPECT_NEAR(found[0].out_mm, 198, 1e-8);
  EXPECT_NEAR((found[0].in - Vec3(10, 480, 400)).norm(), 0, 1e-8);
  EXPECT_NEAR((found[0].direction - Vec3(0, 1, 0)).norm(), 0, 1e-12);
}

TEST(Passages, GoingBackThroughIsASecondPassage) {
  const CentreLine line = CentreLine::through({{10, 300, 400}, {10, 600, 400}, {10, 600, 550}, {10, 300, 550}}, 55);
  const auto found = passages(line, panel());
  ASSERT_EQ(found.size(), 2u);
  EXPECT_TRUE(found[0].in_and_out());
  EXPECT_TRUE(found[1].in_and_out());
  EXPECT_NEAR((found[1].direction - Vec3(0, -1, 0)).norm(), 0, 1e-12);
}

TEST(Passages, GrazingIsNone) {
  // The tube would cut the panel's face, its centre line does not reach it.
  EXPECT_TRUE(passages(CentreLine::through({{-200, 477, 400}, {200, 477, 400}}, 55), panel()).empty());
  // Along the face itself.
  EXPECT_TRUE(passages(CentreLine::through({{-200, 480, 400}, {200, 480, 400}}, 55), panel()).empty());
}

TEST(Passages, AnEndInsideDoesNotComeOut) {
  const auto found = passages(CentreLine::through({{10, 300, 400}, {10, 490, 400}}, 55), panel());
  ASSERT_EQ(found.size(), 1u);
  EXPECT_FALSE(found[0].in_and_out());
  EXPECT_TRUE(found[0].ends_inside);
}

TEST(Passages, AStartOnTheFaceDoesNotGoIn) {
  const auto found = passages(CentreLine::through({{10, 480, 400}, {10, 700, 400}}, 55), panel());
  ASSERT_EQ(found.size(), 1u);
  EXPECT_TRUE(found[0].begins_inside);
}

TEST(Passages, ABendMayGoInAndComeOut) {
  // A U whose crown dips through the front face and back out of it.
  const CentreLine line = CentreLine::through({{0, 300, 400}, {0, 490, 400}, {110, 490, 400}, {110, 300, 400}}, 55);
  const auto found = passages(line, panel());
  ASSERT_EQ(found.size(), 1u);
  EXPECT_TRUE(found[0].in_and_out());
  EXPECT_NEAR(found[0].in.y(), 480, 1e-7);
  EXPECT_NEAR(found[0].out.y(), 480, 1e-7);
}

}  // namespace
}  // namespace halfhard
