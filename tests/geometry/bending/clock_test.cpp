#include "geometry/bending/clock.h"

#include <gtest/gtest.h>

#include "tests/support/plans.h"

namespace halfhard {
namespace {

constexpr unsigned kSeed = 20260116;

// Two 90s, the second turned by `rotation` from the plane of the first.
std::shared_ptr<Run> two_bends(double rotation_deg, support::RunOptions options = {}) {
  const std::vector<ShapeRow> rows = {{200, Angle(), Angle::degrees(90)},
                                      {150, Angle::degrees(rotation_deg), Angle::degrees(90)},
                                      {200, Angle(), Angle()}};
  return support::run_through("pipe", points_from_rows(rows, 55, Vec3(10, 20, 30), Vec3::UnitY(), Vec3::UnitX()),
                              std::move(options));
}

ClockReading only_reading(const Run& run, int made) {
  const std::vector<ClockReading> readings = clock_readings(run, made);
  EXPECT_EQ(readings.size(), 1u);
  return readings.empty() ? ClockReading{} : readings.front();
}

// +90 with the datum side on the hook: 9; with the free side on the hook: 3.
TEST(Clock, PlusNinetyWithTheDatumSideOnTheHookPutsTheBendBeforeAtNine) {
  const ClockReading reading = only_reading(*two_bends(90), 2);
  EXPECT_EQ(reading.bend, 1);
  EXPECT_TRUE(reading.behind_hook);
  EXPECT_NEAR(reading.clockwise.degrees(), 270, 1e-9);
  EXPECT_EQ(reading.hour(), "9");
  EXPECT_EQ(reading.text(), "at 9 (270°)");
}

TEST(Clock, PlusNinetyWithTheFreeSideOnTheHookPutsTheBendBeforeAtThree) {
  support::RunOptions options;
  options.hook = {End::free, End::free};
  const ClockReading reading = only_reading(*two_bends(90, options), 2);
  EXPECT_EQ(reading.bend, 1);
  EXPECT_FALSE(reading.behind_hook);
  EXPECT_NEAR(reading.clockwise.degrees(), 90, 1e-9);
  EXPECT_EQ(reading.hour(), "3");
}

TEST(Clock, AUsFirstLegLiesAtTwelveAndAnOffsetsAtSix) {
  EXPECT_EQ(only_reading(*two_bends(0), 2).hour(), "12");
  EXPECT_EQ(only_reading(*two_bends(180), 2).hour(), "6");
}

// With the datum side on the hook the bend before lies at minus the rotation; with the free side it lies at the
// rotation, as the mirror that turning the tube end for end is.
TEST(Clock, ReadsTheRotationOfTheTableBackFromTheShape) {
  SCOPED_TRACE(::testing::Message() << "seed " << kSeed);
  std::mt19937 engine(kSeed);
  for (int i = 0; i < 300; ++i) {
    const int bends = 2 + static_cast<int>(engine() % 5);
    support::RunOptions options;
    for (int k = 0; k < bends; ++k) options.hook.push_back(engine() % 2 == 0 ? End::datum : End::free);
    const auto run = support::run_through("pipe", support::random_points(engine, bends), options);
    for (int made = 2; made <= bends; ++made) {
      const Bend& bend = run->bends[made - 1];
      const ClockReading reading = only_reading(*run, made);
      const double expected = bend.hook == End::datum ? -bend.rotation.degrees() : bend.rotation.degrees();
      EXPECT_NEAR(std::remainder(reading.clockwise.degrees() - expected, 360), 0, 1e-7);
      EXPECT_GE(reading.clockwise.degrees(), 0);
      EXPECT_LT(reading.clockwise.degrees(), 360);
    }
  }
}

TEST(Clock, BothNeighboursAreReadWhenTheMiddleBendIsMadeLast) {
  support::RunOptions options;
  options.order = {1, 3, 2, 4};
  const auto run = support::run_through("pipe", support::multi_plane_points(), options);
  const std::vector<ClockReading> readings = clock_readings(*run, 3);
  ASSERT_EQ(readings.size(), 2u);
  EXPECT_EQ(readings[0].bend, 1);
  EXPECT_TRUE(readings[0].behind_hook);
  EXPECT_EQ(readings[1].bend, 3);
  EXPECT_FALSE(readings[1].behind_hook);
}

TEST(Clock, NothingIsReadOnAStraightTube) { EXPECT_TRUE(clock_readings(*two_bends(90), 1).empty()); }

TEST(Clock, HalfHoursAndTheTurnOfTheDial) {
  ClockReading reading;
  const auto hour_at = [&reading](double degrees) {
    reading.clockwise = Angle::degrees(degrees);
    return reading.hour();
  };
  EXPECT_EQ(hour_at(0), "12");
  EXPECT_EQ(hour_at(15), "half past 12");
  EXPECT_EQ(hour_at(30), "1");
  EXPECT_EQ(hour_at(137), "half past 4");
  EXPECT_EQ(hour_at(359), "12");
}

// Hook on the left, lever swinging towards the person: the tube runs to the right; right x towards = down at 3.
TEST(Clock, SaysInWordsWhereTheFormedPartPoints) {
  const BenderStands stands{"left", "towards you"};
  EXPECT_EQ(points_in_words(stands, Angle::degrees(0)), "towards you");
  EXPECT_EQ(points_in_words(stands, Angle::degrees(90)), "down");
  EXPECT_EQ(points_in_words(stands, Angle::degrees(180)), "away from you");
  EXPECT_EQ(points_in_words(stands, Angle::degrees(270)), "up");
  EXPECT_EQ(points_in_words(stands, Angle::degrees(315)), "between up and towards you");
  // Hook on the right turns the picture over: what was up is down.
  EXPECT_EQ(points_in_words({"right", "towards you"}, Angle::degrees(270)), "down");
  // Bender in a vice, pulled upwards.
  EXPECT_EQ(points_in_words({"Left", " Up "}, Angle::degrees(90)), "towards you");
}

TEST(Clock, SaysNothingWhereTheBenderIsNotDescribed) {
  EXPECT_FALSE(points_in_words({}, Angle::degrees(90)));
  EXPECT_FALSE(points_in_words({"left", ""}, Angle::degrees(90)));
  EXPECT_FALSE(points_in_words({"left", "clockwise"}, Angle::degrees(90)));
  EXPECT_FALSE(points_in_words({"left", "right"}, Angle::degrees(90)));
}

}  // namespace
}  // namespace halfhard
