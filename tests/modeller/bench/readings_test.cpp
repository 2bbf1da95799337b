// What each kind of measurement shows of shapes written out by hand.
#include "modeller/bench/readings.h"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/support/plans.h"

namespace halfhard {
namespace {

using support::run_through;
using support::RunOptions;

// An offset of 50 at 45, 15 mm tube at R 55, insertion 15 at both ends and 40 spare at the far one.
std::shared_ptr<Run> offset() {
  RunOptions options;
  options.free_insertion_mm = 15;
  options.free_spare_mm = 40;
  return run_through("offset", {{0, 0, 0}, {0, 0, 200}, {50, 0, 250}, {50, 0, 500}}, options);
}

double shown(const PieceModel& model, const ReadingOfPiece& reading) {
  return reading.shows(model.shape(model.planned()));
}

TEST(Readings, OfAnOffsetAsPlanned) {
  const auto run = offset();
  const PieceModel model(*run, 2);
  EXPECT_NEAR(shown(model, angle_reading(0)), 45, 1e-9);
  EXPECT_NEAR(std::abs(shown(model, turn_reading(1))), 180, 1e-9);
  EXPECT_NEAR(shown(model, leg_reading(model, 0)), 200, 1e-9);  // from the fitting face, insertion left out
  EXPECT_NEAR(shown(model, leg_reading(model, 1)), std::hypot(50, 50), 1e-9);
  EXPECT_NEAR(shown(model, leg_reading(model, 2)), 250, 1e-9);
  for (const bool far : {false, true}) {
    EXPECT_NEAR(shown(model, gap_reading(model, {1, 3}, Over::centre, far)), 50, 1e-9);
    EXPECT_NEAR(shown(model, gap_reading(model, {1, 3}, Over::outside, far)), 65, 1e-9);
    EXPECT_NEAR(shown(model, gap_reading(model, {3, 1}, Over::inside, far)), 35, 1e-9);
  }
  EXPECT_NEAR(shown(model, ends_apart_reading(model)), std::hypot(50, 530), 1e-9);                // spare cut off
  EXPECT_NEAR(shown(model, distance_reading(End::datum, End::free)), std::hypot(50, 570), 1e-9);  // spare on
}

// Bend 2 short by 2 degrees: its leg leaves by as much, from where its bend ends to its far end.
TEST(Readings, AGapOpensAlongALegThatIsNotParallel) {
  const auto run = offset();
  const PieceModel model(*run, 2);
  Eigen::VectorXd at = model.planned();
  at[model.angle_at(1)] -= 2;
  const MadeShape shape = model.shape(at);
  const double near = gap_reading(model, {1, 3}, Over::centre, false).shows(shape);
  const double far = gap_reading(model, {1, 3}, Over::centre, true).shows(shape);
  const double setback = 55 * std::tan(Angle::degrees(22.5).radians());
  // The straight of leg 3 with the arc that the bend did not use, which is on its lever side.
  const double straight = 250 - setback + 55 * Angle::degrees(2).radians();
  EXPECT_NEAR(far - near, straight * std::sin(Angle::degrees(2).radians()), 1e-9);
}

TEST(Readings, ABackIsMeasuredToTheOutsideOfItsMiddle) {
  const auto run = run_through("elbow", {{0, 0, 0}, {200, 0, 0}, {200, 300, 0}}, [] {
    RunOptions options;
    options.datum_insertion_mm = 0;
    return options;
  }());
  const PieceModel model(*run, 1);
  const double in = 62.5 / std::sqrt(2);  // R + OD/2 along 45 degrees from the centre (145, 55)
  EXPECT_NEAR(shown(model, distance_reading(End::datum, AtBend{1})), std::hypot(145 + in, 55 - in), 1e-9);
}

// Legs 1 and 2 lie flat in x and y; leg 3 stands up along z from it, towards D(1) x D(2).
TEST(Readings, AHeightIsTakenOffThePlaneOfTwoLegsTowardsTheirCross) {
  const auto run = run_through("rise", {{0, 0, 0}, {200, 0, 0}, {200, 300, 0}, {200, 300, 180}});
  const PieceModel model(*run, 2);
  EXPECT_NEAR(shown(model, height_reading({1, 2}, End::free)), 180, 1e-9);
  EXPECT_NEAR(shown(model, height_reading({2, 3}, End::datum)), -215, 1e-9);  // D(2) x D(3) is along x; insertion 15
}

TEST(Readings, OfAHalfBentPieceTheRestIsStraight) {
  const auto run = offset();
  const PieceModel model(*run, 1);
  const MadeShape shape = model.shape(model.planned());
  EXPECT_TRUE(shape.along[1].isApprox(shape.along[2], 1e-12));
  EXPECT_FALSE(leg_can_be_read(model, 1));
  EXPECT_TRUE(leg_can_be_read(model, 0));
  EXPECT_FALSE(legs_are_parallel(model, {1, 3}));
  // All the tube is there: straights and the one arc.
  const double straights = shape.straight_mm[0] + shape.straight_mm[1] + shape.straight_mm[2];
  EXPECT_NEAR(straights + 55 * Angle::degrees(45).radians(), run->blank_length_mm, 1e-9);
}

}  // namespace
}  // namespace halfhard
