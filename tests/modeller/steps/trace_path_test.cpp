#include "modeller/steps/trace_path.h"

#include <gtest/gtest.h>

#include "geometry/curve/centreline.h"

namespace halfhard {
namespace {

const Vec3 kUp(0, 0, 1), kRight(1, 0, 0), kBack(0, 1, 0);

PathContext context(const Vec3& start = Vec3::Zero(), double radius_mm = 55, double od_mm = 15) {
  PathContext made;
  made.start = start;
  made.radius_mm = radius_mm;
  made.outside_diameter_mm = od_mm;
  made.target = [](const ToStep& step) { return std::get<Vec3>(std::get<JobPoint>(step.to)); };
  return made;
}

GoStep go(const Vec3& direction, LegLength by, Measured measured = {}) { return {direction, by, measured, "/go"}; }
OffsetStep offset(std::vector<WordShift> shift, Angle angle) {
  return {false, std::move(shift), angle, OffsetTape::centre, "/offset"};
}

void expect_points(const TracedPath& path, const std::vector<Vec3>& expected) {
  ASSERT_TRUE(path.problems.empty()) << path.problems[0].found;
  ASSERT_EQ(path.points.size(), expected.size());
  for (std::size_t i = 0; i < expected.size(); ++i) {
    EXPECT_LT((path.points[i] - expected[i]).norm(), 1e-9) << "point " << i << ": " << path.points[i].transpose();
  }
}

TEST(TracePath, LegsMeetAnOffsetAtItsFirstAndLastIntersections) {
  const TracedPath path =
      trace_path(context(), {go(kUp, 150.0), offset({{"right", 50}}, Angle::degrees(45)), go(kUp, 150.0)}, std::nullopt,
                 "/runs/0");
  expect_points(path, {{0, 0, 0}, {0, 0, 150}, {50, 0, 200}, {50, 0, 350}});
  ASSERT_EQ(path.offsets.size(), 1u);
  EXPECT_EQ(path.offsets[0].first_point, 1);
}

// A published rolling offset: rise 8, roll 12 by the published article: true 14.42; at 45 the same along the
// line.
TEST(TracePath, ARollingOffsetShiftsByTheRootOfTheSumOfSquares) {
  const TracedPath path = trace_path(
      context({0, 0, 0}, 1, 0.5),
      {go(kRight, 42.0), offset({{"back", 12}, {"up", 8}}, Angle::degrees(45)), go(kRight, 61.0)}, std::nullopt, "");
  ASSERT_TRUE(path.problems.empty());
  EXPECT_NEAR(path.offsets[0].true_mm, 14.42, 0.005);
  EXPECT_NEAR((path.points[2] - path.points[1]).norm(), 20.39, 0.01);  // printed cut short, not rounded
}

TEST(TracePath, RestIsWhatTheConnectionLeaves) {
  const TracedPath path = trace_path(
      context(), {go(kUp, 150.0), offset({{"right", 50}}, Angle::degrees(30)), go(kUp, Rest{})}, Vec3(50, 0, 500), "");
  expect_points(path, {{0, 0, 0}, {0, 0, 150}, {50, 0, 150 + 50 / std::tan(M_PI / 6)}, {50, 0, 500}});
}

TEST(TracePath, RestMayStandAtTheStartAndInTheMiddle) {
  const TracedPath first = trace_path(context(), {go(kUp, Rest{}), go(kRight, 300.0)}, Vec3(300, 0, 400), "");
  expect_points(first, {{0, 0, 0}, {0, 0, 400}, {300, 0, 400}});
  const TracedPath middle =
      trace_path(context(), {go(kUp, 200.0), go(kRight, Rest{}), go(kBack, 150.0)}, Vec3(300, 150, 200), "");
  expect_points(middle, {{0, 0, 0}, {0, 0, 200}, {300, 0, 200}, {300, 150, 200}});
}

TEST(TracePath, AnOffsetToTheConnectionTakesWhatIsSquareToTravel) {
  const OffsetStep to{true, {}, Angle::degrees(45), OffsetTape::centre, "/offset"};
  const TracedPath path =
      trace_path(context({300, 250, 900}, 77, 22), {go(kUp, 250.0), to, go(kUp, Rest{})}, Vec3(420, 330, 1600), "");
  const double true_mm = std::hypot(120, 80);
  expect_points(path, {{300, 250, 900}, {300, 250, 1150}, {420, 330, 1150 + true_mm}, {420, 330, 1600}});
  ASSERT_EQ(path.offsets[0].shift.size(), 2u);
  EXPECT_EQ(path.offsets[0].shift[0].word, "right");
  EXPECT_EQ(path.offsets[0].shift[1].word, "back");
}

TEST(TracePath, AnOffsetTapedOverTheOutsidesIsOneDiameterLess) {
  OffsetStep step = offset({{"right", 65}}, Angle::degrees(45));
  step.measured = OffsetTape::outside;
  const TracedPath path = trace_path(context(), {go(kUp, 150.0), step, go(kUp, 150.0)}, std::nullopt, "");
  expect_points(path, {{0, 0, 0}, {0, 0, 150}, {50, 0, 200}, {50, 0, 350}});
}

// Textbook: Plumbing Book 1 (Hodder 2019) p. 93, 600 mm rule; angles C: 50 mm takes 47.11 degrees.
TEST(TracePath, TheRuleSettingGivesTheAngle) {
  OffsetStep step = offset({{"right", 50}}, Angle());
  step.steepness = RuleSetting{};
  const TracedPath path = trace_path(context(), {go(kUp, 150.0), step, go(kUp, 150.0)}, std::nullopt, "");
  ASSERT_TRUE(path.problems.empty());
  EXPECT_NEAR(path.offsets[0].angle.degrees(), 47.11, 0.005);
}

TEST(TracePath, APassoverToTheCrownRaisesItsIntersectionByTheBendsOwnRounding) {
  const PassoverStep step{{"front", 60}, Angle::degrees(30), std::nullopt, true, "/passover"};
  const TracedPath path =
      trace_path(context({0, 0, 0}, 77, 22), {go(kRight, 300.0), step, go(kRight, 300.0)}, std::nullopt, "");
  ASSERT_TRUE(path.problems.empty());
  const CentreLine line = CentreLine::through(path.points, 77);
  EXPECT_NEAR(line.point_at(line.length_mm() / 2).y(), -60, 1e-9);
  EXPECT_EQ(line.bend_count(), 3);
}

TEST(TracePath, APassoverWithAFlatHasFourEqualBends) {
  const PassoverStep step{{"front", 60}, Angle::degrees(45), 120.0, false, "/passover"};
  const TracedPath path = trace_path(context(), {go(kRight, 200.0), step, go(kRight, 200.0)}, std::nullopt, "");
  expect_points(path, {{0, 0, 0}, {200, 0, 0}, {260, -60, 0}, {380, -60, 0}, {440, 0, 0}, {640, 0, 0}});
}

// The outside lines of two legs meet (OD/2)*tan(A/2) beyond the centre lines.
TEST(TracePath, ATapeOverTheOutsideOfABendIsTakenToTheCentreLine) {
  const Measured over{TapeTouch::centre, TapeTouch::outside};
  const TracedPath path = trace_path(context(), {go(kUp, 307.5, over), go(kRight, 200.0)}, std::nullopt, "");
  expect_points(path, {{0, 0, 0}, {0, 0, 300}, {200, 0, 300}});
  const Measured throat{TapeTouch::inside, TapeTouch::centre};
  const TracedPath inside = trace_path(context(), {go(kUp, 300.0), go(kRight, 192.5, throat)}, std::nullopt, "");
  expect_points(inside, {{0, 0, 0}, {0, 0, 300}, {200, 0, 300}});
}

TEST(TracePath, ATapeAtTheTubesEndChangesNothingAndSaysSo) {
  const TracedPath path = trace_path(
      context(), {go(kUp, 300.0, {TapeTouch::outside, TapeTouch::centre}), go(kRight, 200.0)}, std::nullopt, "");
  expect_points(path, {{0, 0, 0}, {0, 0, 300}, {200, 0, 300}});
  ASSERT_EQ(path.notes.size(), 1u);
  EXPECT_EQ(path.notes[0].id, "tape-without-bend");
}

TEST(TracePath, ATapeOnALegThatTakesTheRestSaysThatItIsLeftOut) {
  const TracedPath path = trace_path(
      context(), {go(kUp, 300.0), go(kRight, Rest{}, {TapeTouch::outside, TapeTouch::centre})}, Vec3(200, 0, 300), "");
  expect_points(path, {{0, 0, 0}, {0, 0, 300}, {200, 0, 300}});
  ASSERT_EQ(path.notes.size(), 1u);
  EXPECT_EQ(path.notes[0].id, "tape-on-rest");
}

TEST(TracePath, TheFirstBendTurnsUpAndARollTurnsItsPlane) {
  const BendStep flat{Angle::degrees(90), Angle(), 200.0, {}, "/bend"};
  expect_points(trace_path(context(), {go(kRight, 200.0), flat}, std::nullopt, ""),
                {{0, 0, 0}, {200, 0, 0}, {200, 0, 200}});
  // Travel up: roll 0 turns towards back.
  expect_points(trace_path(context(), {go(kUp, 200.0), flat}, std::nullopt, ""),
                {{0, 0, 0}, {0, 0, 200}, {0, 200, 200}});
  // Right-handed about travel: from up, a quarter about right goes to front.
  const BendStep rolled{Angle::degrees(90), Angle::degrees(90), 200.0, {}, "/bend"};
  expect_points(trace_path(context(), {go(kRight, 200.0), rolled}, std::nullopt, ""),
                {{0, 0, 0}, {200, 0, 0}, {200, -200, 0}});
  // Roll 0 turns the same way again.
  expect_points(trace_path(context(), {go(kRight, 200.0), flat, flat}, std::nullopt, ""),
                {{0, 0, 0}, {200, 0, 0}, {200, 0, 200}, {0, 0, 200}});
}

TEST(TracePath, TurnsUnderAHundredthOfADegreeAreLeftOutWithANote) {
  const Vec3 nearly = Vec3(std::sin(0.0001), 0, std::cos(0.0001));
  const TracedPath path =
      trace_path(context(), {go(kUp, 150.0), go(nearly, 100.0), go(kRight, 150.0)}, std::nullopt, "");
  ASSERT_TRUE(path.problems.empty());
  EXPECT_EQ(path.points.size(), 3u);  // 0.0057 degrees are left out, the 90 stays
  EXPECT_EQ(path.notes.size(), 1u);
}

TEST(TracePath, WhatCannotBeBentIsRefusedWithItsPlace) {
  const auto first_problem = [](const std::vector<PathStep>& steps, std::optional<Vec3> end = std::nullopt) {
    const TracedPath path = trace_path(context(), steps, end, "/runs/0");
    return path.problems.empty() ? std::string("none") : path.problems[0].pointer + ": " + path.problems[0].found;
  };
  EXPECT_EQ(first_problem({go(kUp, 60.0), go(kRight, 54.0)}),
            "/go: leg 2 of 54 mm between intersections, too short for the tangents of its bends");
  EXPECT_EQ(first_problem({go(kUp, 60.0), go(-kUp, 54.0)}), "/go: a leg that turns straight back");
  EXPECT_EQ(first_problem({offset({{"right", 50}}, Angle::degrees(45)), go(kUp, 90.0)}),
            "/offset: an offset with no leg before it");
  EXPECT_EQ(first_problem({go(kUp, 90.0), offset({{"right", 50}}, Angle::degrees(45))}),
            "/offset: an offset with no leg after it");
  EXPECT_EQ(first_problem({go(kUp, 90.0), offset({{"right", 50}}, Angle::degrees(45)), go(kRight, 90.0)}),
            "/go: a leg after an offset turned 90 degrees from the leg before it");
  EXPECT_EQ(first_problem({go(kUp, 90.0), offset({{"up", 50}}, Angle::degrees(45)), go(kUp, 90.0)}),
            "/offset/offset/up: a shift up that is not square to the travel (0 degrees)");
  EXPECT_EQ(first_problem({go(kUp, 90.0), go(kUp, Rest{})}, Vec3(0, 0, 80)), "/go/by: \"rest\" comes out as -10 mm");
}

TEST(TracePath, TwoNinetiesWithNothingBetweenAreAUAndBendable) {
  const TracedPath path = trace_path(context(), {go(kUp, 150.0), go(kRight, 110.0), go(-kUp, 150.0)}, std::nullopt, "");
  ASSERT_TRUE(path.problems.empty());
  EXPECT_EQ(CentreLine::through(path.points, 55).straight_mm(1), 0);
}

}  // namespace
}  // namespace halfhard
