#include "geometry/bending/end_error.h"

#include <gtest/gtest.h>

#include "geometry/rules/bench_errors.h"
#include "tests/modeller/checks/samples.h"

namespace halfhard {
namespace {

// The far end of a blank bent at fixed marks, all bends with the start end on the hook.
struct AtTheBench {
  std::vector<double> starts_mm, angles_deg, rotations_deg;
  double radius_mm = 0, blank_mm = 0;

  Vec3 free_end(const Vec3& start, const Vec3& direction, const Vec3& normal) const {
    std::vector<ShapeRow> rows;
    double until = 0;
    for (std::size_t i = 0; i < starts_mm.size(); ++i) {
      rows.push_back({starts_mm[i] - until, Angle::degrees(rotations_deg[i]), Angle::degrees(angles_deg[i])});
      until = starts_mm[i] + radius_mm * Angle::degrees(angles_deg[i]).radians();
    }
    rows.push_back({blank_mm - until, Angle(), Angle()});
    return points_from_rows(rows, radius_mm, start, direction, normal).back();
  }
};

class EndErrorBySteps : public ::testing::Test {
 protected:
  EndErrorBySteps() {
    support::RunOptions options;
    options.datum_insertion_mm = 0;
    run_ = support::run_through("pipe", support::multi_plane_points(), options);
    bench_.radius_mm = 55;
    bench_.blank_mm = run_->line.length_mm();
    for (const Bend& bend : run_->bends) {
      bench_.starts_mm.push_back(bend.start_of_bend_mm);
      bench_.angles_deg.push_back(bend.angle.degrees());
      bench_.rotations_deg.push_back(bend.rotation.degrees());
    }
    const auto& p = run_->line.points();
    direction_ = run_->line.leg_direction(0);
    normal_ = direction_.cross(run_->line.leg_direction(1)).normalized();
    start_ = p[0];
  }
  double moved(const AtTheBench& other) const {
    return (other.free_end(start_, direction_, normal_) - bench_.free_end(start_, direction_, normal_)).norm();
  }

  std::shared_ptr<halfhard::Run> run_;
  AtTheBench bench_;
  Vec3 start_, direction_, normal_;
};

constexpr double kSmall = 1e-4;

TEST_F(EndErrorBySteps, OneAngleMovesTheEndAsTheWholePipeRebuiltDoes) {
  double squares = 0;
  for (std::size_t i = 0; i < bench_.angles_deg.size(); ++i) {
    AtTheBench other = bench_;
    other.angles_deg[i] += kSmall;
    squares += moved(other) * moved(other);
  }
  BenchErrors errors;
  errors.angle = Angle::degrees(kSmall);
  EXPECT_NEAR(end_error(*run_, errors).angles_mm / std::sqrt(squares), 1, 1e-4);
}

TEST_F(EndErrorBySteps, RotationsMarksAndRadiusDoToo) {
  double turns = 0, marks = 0;
  for (std::size_t i = 0; i < bench_.angles_deg.size(); ++i) {
    AtTheBench turned = bench_, marked = bench_;
    turned.rotations_deg[i] += kSmall;
    if (i > 0) turns += moved(turned) * moved(turned);
    marked.starts_mm[i] += kSmall;
    marks += moved(marked) * moved(marked);
  }
  AtTheBench larger = bench_;
  larger.radius_mm += kSmall;
  BenchErrors errors;
  errors.rotation = Angle::degrees(kSmall);
  errors.mark_mm = errors.radius_mm = kSmall;
  const EndError error = end_error(*run_, errors);
  EXPECT_NEAR(error.rotations_mm / std::sqrt(turns), 1, 1e-4);
  EXPECT_NEAR(error.marks_mm / std::sqrt(marks), 1, 1e-4);
  EXPECT_NEAR(error.radius_mm / moved(larger), 1, 1e-4);
}

TEST_F(EndErrorBySteps, SpringBackTurnsEveryBendInProportion) {
  AtTheBench other = bench_;
  for (double& angle : other.angles_deg) angle += kSmall * angle / 90;
  BenchErrors errors;
  errors.spring_back_at_90 = Angle::degrees(kSmall);
  EXPECT_NEAR(end_error(*run_, errors).spring_back_mm / moved(other), 1, 1e-4);
}

// A single 90: 1 degree at a leg of 345 beyond the bend; 1 mm of mark moves the end by sqrt(2).
TEST(EndError, ASingleBendIsAsTheBookSays) {
  support::RunOptions options;
  options.datum_insertion_mm = 0;
  const auto run = support::run_through("elbow", {{0, 0, 0}, {0, 0, 300}, {400, 0, 300}}, options);
  BenchErrors errors;
  errors.angle = Angle::degrees(1);
  errors.mark_mm = 1;
  EXPECT_NEAR(end_error(*run, errors).angles_mm, 345 * Angle::degrees(1).radians(), 1e-9);
  EXPECT_NEAR(end_error(*run, errors).marks_mm, std::sqrt(2), 1e-9);
}

// Gain at 90 is R * (2 - pi/2): a radius 1 mm out makes each leg as much out as the tangent, less the tube used.
TEST(EndError, ARadiusErrorMovesTheEndByWhatTheBendReachesLessWhatItUses) {
  support::RunOptions options;
  options.datum_insertion_mm = 0;
  const auto run = support::run_through("elbow", {{0, 0, 0}, {0, 0, 300}, {400, 0, 300}}, options);
  BenchErrors errors;
  errors.radius_mm = 1;
  EXPECT_NEAR(end_error(*run, errors).radius_mm, std::hypot(1, 1 - std::numbers::pi / 2), 1e-9);
}

TEST(EndError, AStraightTubeHasNone) {
  const auto run = support::run_through("rail", {{0, 0, 0}, {500, 0, 0}});
  EXPECT_EQ(end_error(*run, bench_errors(*run, Rules())).total_mm(), 0);
}

TEST(EndError, WhatIsNotMeasuredCountsForMore) {
  support::RunOptions vague;
  vague.bender.radius_measured = false;
  vague.bender.mark_offset_mm.reset();
  vague.bender.spring_back.clear();
  const Job job;
  const BenchErrors better = bench_errors(*good_offset(), job.rules),
                    worse = bench_errors(*good_offset(vague), job.rules);
  EXPECT_GT(worse.radius_mm, better.radius_mm);
  EXPECT_GT(worse.mark_offset_mm, better.mark_offset_mm);
  EXPECT_GT(worse.spring_back_at_90, better.spring_back_at_90);
}

}  // namespace
}  // namespace halfhard
