// Gaps never look wider than they are, needs never less; places and ways are said in the words of the site.
#include "geometry/words/shown.h"

#include <gtest/gtest.h>

namespace halfhard {
namespace {

TEST(ShownClearance, IsRoundedDown) {
  EXPECT_EQ(shown_clearance(99.6, LengthUnit::mm), "99.5 mm");
  EXPECT_EQ(shown_clearance(99.9, LengthUnit::mm), "99.5 mm");
  EXPECT_EQ(shown_clearance(101.8, LengthUnit::mm), "101.5 mm");
  EXPECT_EQ(shown_clearance_bare(9.998, LengthUnit::mm), "9.5");
  EXPECT_EQ(shown_clearance_bare(-2.2, LengthUnit::mm), "-2.5");
  EXPECT_EQ(shown_clearance(25.3, LengthUnit::inch), "31/32 in");
}

TEST(ShownClearance, WhatTheChecksLetPassIsNotAStepLess) {
  EXPECT_EQ(shown_clearance_bare(9.9995, LengthUnit::mm), "10");
  EXPECT_EQ(shown_clearance_bare(62.5 - 1e-9, LengthUnit::mm), "62.5");
  EXPECT_EQ(shown_clearance_bare(25.4 * 3 / 8 - 1e-9, LengthUnit::inch), "3/8");
  EXPECT_EQ(shown_clearance_bare(0, LengthUnit::mm), "0");
}

TEST(ShownClearance, WhatIsNeededIsRoundedUp) {
  EXPECT_EQ(shown_least_bare(9.525, LengthUnit::mm), "10");
  EXPECT_EQ(shown_least_bare(10.0005, LengthUnit::mm), "10");
  EXPECT_EQ(shown_least_bare(10, LengthUnit::inch), "13/32");
}

TEST(ShownPlace, IsInTheWordsOfTheSite) {
  EXPECT_EQ(shown_place({150, 498, 430}, LengthUnit::mm), "150 right, 430 up, 498 back");
  EXPECT_EQ(shown_place({-25.4, -12.7, 0}, LengthUnit::inch), "1 left, 1/2 front");
  EXPECT_EQ(shown_place(Vec3::Zero(), LengthUnit::mm), "at the origin");
  EXPECT_EQ(shown_way(-Vec3::UnitY()), "front");
  EXPECT_EQ(shown_way(Vec3(0.5, 0, std::sqrt(0.75))), "up, 30° towards right");
}

}  // namespace
}  // namespace halfhard
