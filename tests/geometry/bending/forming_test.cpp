#include "geometry/bending/forming.h"

#include <gtest/gtest.h>

#include "geometry/bending/bend_table.h"
#include "tests/support/plans.h"

namespace halfhard {
namespace {

constexpr unsigned kSeed = 20260115;

// Straights, rotations and angles are all that a rigid move keeps, and they fix the shape.
void expect_same_shape(const CentreLine& a, const CentreLine& b) {
  const std::vector<ShapeRow> left = shape_rows(a), right = shape_rows(b);
  ASSERT_EQ(left.size(), right.size());
  for (size_t i = 0; i < left.size(); ++i) {
    EXPECT_NEAR(left[i].straight_mm, right[i].straight_mm, 1e-6);
    EXPECT_NEAR(left[i].angle.degrees(), right[i].angle.degrees(), 1e-8);
    const double turned = std::remainder(left[i].rotation.degrees() - right[i].rotation.degrees(), 360);
    EXPECT_NEAR(turned, 0, 1e-7);
  }
}

// Hooks and order at random.
support::RunOptions any_way(std::mt19937& engine, int bends) {
  support::RunOptions options;
  options.datum_spare_mm = engine() % 2 * 40.0;
  options.free_spare_mm = engine() % 2 * 60.0;
  options.free_insertion_mm = engine() % 2 * 18.0;
  for (int i = 0; i < bends; ++i) options.hook.push_back(engine() % 2 == 0 ? End::datum : End::free);
  options.order.resize(bends);
  std::iota(options.order.begin(), options.order.end(), 1);
  for (int i = bends - 1; i > 0; --i) std::swap(options.order[i], options.order[engine() % (i + 1)]);
  return options;
}

TEST(Forming, AllBendsMadeGiveTheRunsOwnShapeWithSpareAndInsertions) {
  SCOPED_TRACE(::testing::Message() << "seed " << kSeed);
  std::mt19937 engine(kSeed);
  for (int i = 0; i < 300; ++i) {
    const int bends = 1 + static_cast<int>(engine() % 7);
    const auto run = support::run_through("pipe", support::random_points(engine, bends), any_way(engine, bends));
    expect_same_shape(after_bend(*run, bends).line, whole_piece(*run));
  }
}

TEST(Forming, EveryStateUpToTheWantedAngleHasTheBlanksLength) {
  SCOPED_TRACE(::testing::Message() << "seed " << kSeed);
  std::mt19937 engine(kSeed);
  for (int i = 0; i < 100; ++i) {
    const int bends = 1 + static_cast<int>(engine() % 6);
    const auto run = support::run_through("pipe", support::random_points(engine, bends), any_way(engine, bends));
    for (int made = 1; made <= bends; ++made) {
      EXPECT_NEAR(before_bend(*run, made).line.length_mm(), run->blank_length_mm, 1e-7);
      EXPECT_NEAR(while_pulling(*run, made, 0.5).line.length_mm(), run->blank_length_mm, 1e-7);
      EXPECT_NEAR(after_bend(*run, made).line.length_mm(), run->blank_length_mm, 1e-7);
    }
  }
}

TEST(Forming, TheHookSideStandsStillAndTheOtherSwingsToTwelve) {
  SCOPED_TRACE(::testing::Message() << "seed " << kSeed);
  std::mt19937 engine(kSeed);
  for (int i = 0; i < 200; ++i) {
    const int bends = 1 + static_cast<int>(engine() % 6);
    const auto run = support::run_through("pipe", support::random_points(engine, bends), any_way(engine, bends));
    for (int made = 1; made <= bends; ++made) {
      for (double fraction : {0.0, 0.3, 1.0}) {
        const FormedPiece piece = while_pulling(*run, made, fraction);
        // The hook point is the origin, whatever is pulled; the tube runs along x there.
        EXPECT_LT(piece.line.point_at(piece.hook_at_mm).norm(), 1e-6);
        const double sign = piece.hook == End::datum ? 1 : -1;
        EXPECT_NEAR(sign * piece.line.direction_at(piece.hook_at_mm - sign * 0.001).x(), 1, 1e-4);
        const Vec3 still_end = piece.hook == End::datum ? piece.line.points().front() : piece.line.points().back();
        const CentreLine straight = before_bend(*run, made).line;
        EXPECT_LT(
            (still_end - (piece.hook == End::datum ? straight.points().front() : straight.points().back())).norm(),
            1e-6);
        if (fraction == 0) continue;
        // Just beyond the curve the tube points to the swing side by the angle pulled.
        const double arc = run->line.radius_mm() * piece.pulled.radians();
        const Vec3 beyond = sign * piece.line.direction_at(piece.hook_at_mm + sign * (arc + 1e-4));
        EXPECT_NEAR(beyond.x(), piece.pulled.cos(), 1e-3);
        EXPECT_NEAR(beyond.y(), piece.pulled.sin(), 1e-3);
        EXPECT_NEAR(beyond.z(), 0, 1e-6);
      }
    }
  }
}

TEST(Forming, MovingTheRunOnSiteChangesNothingAtTheBender) {
  const std::vector<Vec3> points = support::multi_plane_points();
  std::vector<Vec3> moved;
  const Eigen::AngleAxisd turned(1.1, Vec3(1, 2, -2).normalized());
  for (const Vec3& point : points) moved.push_back(turned * point + Vec3(40, -700, 12));
  const auto here = support::run_through("pipe", points), there = support::run_through("pipe", moved);
  for (int made = 1; made <= 4; ++made) {
    const FormedPiece a = after_bend(*here, made), b = after_bend(*there, made);
    for (size_t i = 0; i < a.line.points().size(); ++i)
      EXPECT_LT((a.line.points()[i] - b.line.points()[i]).norm(), 1e-8);
  }
}

TEST(Forming, TheMarkLiesWhereTheTableSaysAlongTheStraightTube) {
  const auto run = support::run_through("pipe", support::single_bend_points());
  const FormedPiece before = before_bend(*run, 1);
  // Leg 300 with 15 in the fitting, setback 55: the curve starts at 260.
  EXPECT_NEAR(before.mark_at_mm, 260, 1e-9);
  EXPECT_NEAR((before.line.point_at(before.mark_at_mm) - before.line.points().front()).norm(), 260, 1e-9);
}

}  // namespace
}  // namespace halfhard
