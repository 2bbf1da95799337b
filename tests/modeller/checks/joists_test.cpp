#include "modeller/checks/joists.h"

#include <gtest/gtest.h>

#include "modeller/checks/joist_rules.h"

namespace halfhard {
namespace {

JoistCut cut(double span_mm, double depth_mm, double along_mm, double off_centre_mm, double diameter_mm) {
  JoistCut made;
  made.span_mm = span_mm;
  made.depth_mm = depth_mm;
  made.along_mm = along_mm;
  made.off_centre_mm = off_centre_mm;
  made.diameter_mm = diameter_mm;
  return made;
}

JoistCut notch(double span_mm, double depth_mm, double along_mm, double deep_mm) {
  const double diameter = deep_mm;
  return cut(span_mm, depth_mm, along_mm, depth_mm / 2 - deep_mm / 2, diameter);
}

// LABC / Approved Document A method, span 3.0 m, depth 150: notch 210-750, 18.8 deep; hole 750-1200, 37.5.
TEST(Joists, TheWorkedExampleOfApprovedDocumentAIsMetAtItsEdges) {
  const Job job;
  EXPECT_TRUE(british_breaches(cut(3000, 150, 750, 0, 37.5), job).empty());
  EXPECT_TRUE(british_breaches(cut(3000, 150, 1200, 0, 37.5), job).empty());
  EXPECT_EQ(british_breaches(cut(3000, 150, 749.9, 0, 37.5), job).size(), 1u);
  EXPECT_EQ(british_breaches(cut(3000, 150, 1200.1, 0, 37.6), job).size(), 2u);
  EXPECT_TRUE(british_breaches(notch(3000, 150, 210, 18.75), job).empty());
  EXPECT_TRUE(british_breaches(notch(3000, 150, 750, 18.75), job).empty());
  EXPECT_EQ(british_breaches(notch(3000, 150, 209.9, 18.76), job).size(), 2u);
}

TEST(Joists, BothEndsOfASpanCountAlike) {
  const Job job;
  EXPECT_TRUE(british_breaches(cut(3000, 150, 3000 - 750, 0, 30), job).empty());
  EXPECT_FALSE(british_breaches(cut(3000, 150, 3000 - 749, 0, 30), job).empty());
}

// LABC / Approved Document A method: at most 65 mm and 35 mm, whatever the depth.
TEST(Joists, DeepJoistsAreHeldToTheLargestHoleAndNotch) {
  const Job job;
  EXPECT_TRUE(british_breaches(cut(4000, 300, 1200, 0, 65), job).empty());
  EXPECT_EQ(british_breaches(cut(4000, 300, 1200, 0, 65.1), job).size(), 1u);
  EXPECT_TRUE(british_breaches(notch(4000, 300, 500, 35), job).empty());
  EXPECT_EQ(british_breaches(notch(4000, 300, 500, 35.1), job).size(), 1u);
}

// NHBC 6.4.18: notch 0.1-0.2 of span, 0.15 of depth.
TEST(Joists, TheSecondBritishRuleDiffers) {
  EXPECT_TRUE(second_british_breaches(notch(3000, 150, 300, 22.5)).empty());
  EXPECT_EQ(second_british_breaches(notch(3000, 150, 299.9, 22.6)).size(), 2u);
  EXPECT_TRUE(second_british_breaches(cut(3000, 150, 100, 0, 60)).empty()) << "it says nothing of holes";
}

// IRC R502.8.1: 2x10 (9.25 in deep): notch 1.54 in, hole 3.08 in, 2 in from the edges, none in the middle third.
TEST(Joists, TheAmericanRuleIsMetAtItsEdges) {
  const double in = 25.4;
  const double depth = 9.25 * in;
  EXPECT_TRUE(american_breaches(cut(3600, depth, 1700, 0, 3.08 * in)).empty()) << "holes anywhere along the span";
  EXPECT_EQ(american_breaches(cut(3600, depth, 1700, 0, 3.09 * in)).size(), 1u);
  EXPECT_TRUE(american_breaches(cut(3600, depth, 1700, depth / 2 - 2 * in - in / 2, in)).empty());
  EXPECT_EQ(american_breaches(cut(3600, depth, 1700, depth / 2 - 1.9 * in - in / 2, in)).size(), 1u);
  EXPECT_TRUE(american_breaches(notch(3600, depth, 1200, 1.54 * in)).empty());
  EXPECT_EQ(american_breaches(notch(3600, depth, 1201, 1.55 * in)).size(), 2u);
}

TEST(Joists, AHoleAlongTheJoistBreaksEveryRule) {
  JoistCut slanting = cut(3000, 150, 900, 0, 20);
  slanting.off_square = Angle::degrees(31);
  EXPECT_EQ(british_breaches(slanting, Job()).size(), 1u);
  EXPECT_EQ(american_breaches(slanting).size(), 1u);
}

TEST(Joists, ACutFromTheEdgeIsANotchAsDeepAsItsFarSide) {
  EXPECT_FALSE(cut(3000, 150, 900, 0, 37.5).is_notch());
  EXPECT_FALSE(cut(3000, 150, 900, 0, 100).is_notch()) << "too large, but a hole";
  EXPECT_TRUE(cut(3000, 150, 900, 0, 151).is_notch());
  const JoistCut at_top = cut(3000, 150, 400, 75 - 8, 19);
  EXPECT_TRUE(at_top.is_notch());
  EXPECT_NEAR(at_top.notch_depth_mm(), 17.5, 1e-12);
}

TEST(Joists, TheTextShowsEveryRule) {
  Fixture fixture;
  fixture.name = "joist 2";
  JoistCut made = cut(3000, 150, 900, 0, 19);
  made.fixture = &fixture;
  EXPECT_EQ(
      joist_rules_text(made, Job()),
      "'joist 2' (span 3000 mm, depth 150 mm): the Approved Document A method allows a hole up to 37.5 mm "
      "on the centre line 750 mm to 1200 mm from a support and a notch up to 18.5 mm deep 210 mm to 750 mm from a "
      "support; NHBC 6.4.18 a notch up to 22.5 mm deep 300 mm to 600 mm from a support; IRC R502.8.1 a hole up "
      "to 50 mm, 51 mm from the edges, and a notch up to 25 mm deep outside the middle third; solid timber "
      "only, and ask before cutting any other or one cut already.");
}

}  // namespace
}  // namespace halfhard
