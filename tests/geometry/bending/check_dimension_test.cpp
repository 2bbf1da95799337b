#include "geometry/bending/check_dimension.h"
#include "geometry/bending/bend_checks.h"

#include <gtest/gtest.h>

#include <limits>

#include "geometry/bending/bend_table.h"
#include "geometry/bending/forming.h"
#include "geometry/rules/bench_errors.h"
#include "tests/support/plans.h"

namespace halfhard {
namespace {

constexpr unsigned kSeed = 20260117;
constexpr double kOutside_mm = 7.5;

TEST(CheckDimension, TheSecondBendOfAnOffsetIsTapedOverBothOutsides) {
  const auto run = support::run_through("pipe", support::offset_points(200, 70, Angle::degrees(45), 200));
  const CheckDimension check = check_dimension(*run, 2, 3);
  EXPECT_NEAR(check.mm, 70 + 15, 1e-9);
  EXPECT_EQ(check.tolerance_mm, 3);
  EXPECT_EQ(check.text,
            "over both outsides: from a straight edge laid along the outside of the start end's leg, square across to "
            "the outside of the far end's leg; the same near its bend and at its far end");
}

TEST(CheckDimension, TheFirstBendOfAnOffsetIsTapedStraightFromEndToEnd) {
  const auto run = support::run_through("pipe", support::offset_points(200, 70, Angle::degrees(45), 200));
  const CheckDimension check = check_dimension(*run, 1, 3);
  const auto points = after_bend(*run, 1).line.points();
  EXPECT_NEAR(check.mm, (points.back() - points.front()).norm(), 1e-9);
  EXPECT_EQ(check.text, "straight from the middle of the start end to the middle of the far end");
}

TEST(CheckDimension, ASquareBendIsTapedFromTheTubesEndToTheOutside) {
  const auto run = support::run_through("pipe", support::single_bend_points());
  const CheckDimension check = check_dimension(*run, 1, 3);
  EXPECT_NEAR(check.mm, 300 + 15 + 7.5, 1e-9);  // 15 stands in the fitting
  EXPECT_EQ(check.text, "from the start end, along its leg, to the outside of the far end's leg");
}

TEST(CheckDimension, ASquareBendBesideASquareBendIsTapedOutsideToOutside) {
  const std::vector<Vec3> points = {{0, 0, 0}, {0, 0, 250}, {200, 0, 250}, {200, 300, 250}};
  const auto run = support::run_through("pipe", points);
  const CheckDimension check = check_dimension(*run, 2, 3);
  EXPECT_NEAR(check.mm, 200 + 15, 1e-9);
  EXPECT_EQ(check.text,
            "along the leg between bends 1 and 2, from the outside of the start end's leg to the outside of the far "
            "end's leg");
}

// The tube's surface, densely: every straight's points on the circle of the outside radius.
std::vector<Vec3> surface_of_leg(const CentreLine& line, int leg, double radius) {
  std::vector<Vec3> points;
  for (const Piece& piece : line.pieces()) {
    const auto* straight = std::get_if<Straight>(&piece.shape);
    if (straight == nullptr || piece.first_leg != leg) continue;
    const Vec3 along = (straight->to - straight->from).normalized();
    const Vec3 u = any_square_to(along), v = along.cross(u);
    for (int i = 0; i <= 20; ++i)
      for (int k = 0; k < 720; ++k) {
        const double t = k * std::numbers::pi / 360;
        points.push_back(straight->from + (straight->to - straight->from) * i / 20.0 +
                         radius * (std::cos(t) * u + std::sin(t) * v));
      }
  }
  return points;
}

// How far the surface points of two legs, or of a leg and an end face, spread along a direction.
double spread(const std::vector<Vec3>& a, const std::vector<Vec3>& b, const Vec3& along) {
  double low = std::numeric_limits<double>::infinity(), high = -low;
  for (const auto* points : {&a, &b})
    for (const Vec3& point : *points) {
      low = std::min(low, point.dot(along));
      high = std::max(high, point.dot(along));
    }
  return high - low;
}

// Re-measured on a dense surface, from what the text says.
double taped(const Run& run, int number, const std::string& text) {
  const FormedPiece piece = after_bend(run, run.bends[number - 1].made);
  const CentreLine& line = piece.line;
  const int at = piece.intersection_of(number);
  const auto leg_in = [&](size_t from, size_t until) {
    const std::string part = text.substr(from, until - from);
    if (part.find("start end's leg") != std::string::npos) return 0;
    if (part.find("far end's leg") != std::string::npos) return line.leg_count() - 1;
    const size_t place = part.find("between bends ");
    return piece.intersection_of(std::stoi(part.substr(place + 14)));
  };
  if (text.starts_with("over both outsides")) {
    const bool edge = text.find("straight edge") != std::string::npos;
    const size_t split = text.find(edge ? " to the outside" : " and the ");
    const int first = leg_in(0, split), second = leg_in(split, text.find(';'));
    const Vec3 along = line.leg_direction(first);
    const Vec3 apart = line.points()[second] - line.points()[first + 1];
    const Vec3 across = (apart - apart.dot(along) * along).normalized();
    return spread(surface_of_leg(line, first, kOutside_mm), surface_of_leg(line, second, kOutside_mm), across);
  }
  if (text.starts_with("from the ")) {
    const bool datum = text.starts_with("from the datum");
    const int leg = leg_in(text.find(" to the outside"), text.size());
    const Vec3 end = datum ? line.points().front() : line.points().back();
    return spread({end}, surface_of_leg(line, leg, kOutside_mm), line.leg_direction(datum ? 0 : line.leg_count() - 1));
  }
  if (text.starts_with("along ")) {
    const size_t from = text.find("from the outside of"), to = text.find("to the outside of");
    const int middle = leg_in(0, from);
    return spread(surface_of_leg(line, leg_in(from, to), kOutside_mm),
                  surface_of_leg(line, leg_in(to, text.size()), kOutside_mm), line.leg_direction(middle));
  }
  // Straight across: an end's middle, or the point of a bend's arc that is farthest from the chord of its tangents.
  const auto place = [&](const std::string& part) -> Vec3 {
    if (part.find("start end") != std::string::npos) return line.points().front();
    if (part.find("far end") != std::string::npos) return line.points().back();
    const int k = piece.intersection_of(std::stoi(part.substr(part.find("bend ") + 5)));
    const Vec3 in = line.leg_direction(k - 1), out = line.leg_direction(k);
    const Vec3 outwards = (in - out).normalized();
    double best = -1e18;
    Vec3 found = Vec3::Zero();
    for (double s = 0; s <= line.length_mm(); s += 0.02) {
      const Vec3 point = line.point_at(s);
      const Vec3 from_corner = point - line.points()[k];
      if (from_corner.norm() > 60 + 55 / std::cos(line.bend_angle(k - 1).radians() / 2) - 55) continue;
      if (from_corner.dot(outwards) > best) best = from_corner.dot(outwards), found = point;
    }
    return found + kOutside_mm * outwards;
  };
  EXPECT_TRUE(text.starts_with("straight from ")) << text;
  const size_t cut = text.find(" to the middle");
  EXPECT_GT(at, 0);
  return (place(text.substr(0, cut)) - place(text.substr(cut))).norm();
}

TEST(CheckDimension, AgreesWithADenseMeasurementOfTheSurface) {
  SCOPED_TRACE(::testing::Message() << "seed " << kSeed);
  std::mt19937 engine(kSeed);
  for (int i = 0; i < 25; ++i) {
    const int bends = 1 + static_cast<int>(engine() % 5);
    support::RunOptions options;
    for (int k = 0; k < bends; ++k) options.hook.push_back(engine() % 2 == 0 ? End::datum : End::free);
    const auto run = support::run_through("pipe", support::random_points(engine, bends), options);
    for (int number = 1; number <= bends; ++number) {
      const CheckDimension check = check_dimension(*run, number, 3);
      EXPECT_NEAR(check.mm, taped(*run, number, check.text), 0.05) << check.text;
    }
  }
}

// Bent 3 degrees wrong, a check that is not one along a square leg shows it: half a millimetre or more.
TEST(CheckDimension, AStraightLineAcrossShowsAWrongAngle) {
  SCOPED_TRACE(::testing::Message() << "seed " << kSeed);
  std::mt19937 engine(kSeed);
  int seen = 0;
  for (int i = 0; i < 100; ++i) {
    const int bends = 1 + static_cast<int>(engine() % 5);
    const auto points = support::random_points(engine, bends);
    const auto run = support::run_through("pipe", points);
    const CheckDimension right = check_dimension(*run, bends, 3);
    if (!right.text.starts_with("straight from")) continue;
    std::vector<ShapeRow> rows = shape_rows(run->line);
    rows[bends - 1].angle = rows[bends - 1].angle + Angle::degrees(-3);
    rows.back().straight_mm += 55 * Angle::degrees(3).radians();  // the tube is as long as it was
    const auto wrong_points = points_from_rows(rows, 55, Vec3::Zero(), Vec3::UnitX(), Vec3::UnitZ());
    const auto wrong = support::run_through("pipe", wrong_points);
    ++seen;
    EXPECT_GT(std::abs(check_dimension(*wrong, bends, 3).mm - right.mm), 0.5) << right.text;
  }
  EXPECT_GT(seen, 20);
}

TEST(CheckDimension, FillsEveryBendOfARun) {
  auto run = support::run_through("pipe", support::multi_plane_points());
  fill_checks(*run, 2.5);
  for (const Bend& bend : run->bends) {
    EXPECT_FALSE(bend.check.text.empty());
    EXPECT_GT(bend.check.mm, 0);
    EXPECT_EQ(bend.check.tolerance_mm, 2.5);
  }
}

// A single 90 with 345 of leg beyond the curve: half a degree there is 3.01 (C).
TEST(LikelyError, OfASingleBendIsItsLegTimesTheAngle) {
  const auto run = support::run_through("pipe", support::single_bend_points());
  const EndError error = likely_error(*run, Rules());
  EXPECT_NEAR(error.angles_mm, 3.01, 0.01);
  EXPECT_NEAR(error.marks_mm, 0.5 * std::sqrt(2.0), 1e-9);
  EXPECT_EQ(error.rotations_mm, 0);
}

TEST(LikelyError, ABenderThatWasNotMeasuredCostsMore) {
  support::RunOptions options;
  options.bender.radius_measured = false;
  options.bender.mark_offset_mm.reset();
  options.bender.spring_back.clear();
  const auto measured = support::run_through("pipe", support::single_bend_points());
  const auto guessed = support::run_through("pipe", support::single_bend_points(), options);
  EXPECT_GT(likely_error(*guessed, Rules()).total_mm(), 3 * likely_error(*measured, Rules()).total_mm());
}

}  // namespace
}  // namespace halfhard
