#include "exporters/bench/mark_words.h"

#include <gtest/gtest.h>

#include <limits>

#include "exporters/bench/located_mark.h"
#include "geometry/bending/forming.h"
#include "tests/support/plans.h"

namespace halfhard {
namespace {

constexpr unsigned kSeed = 20261126;

// Two bends of this angle, the second made from the first; the start end is on the hook, or the far end.
std::shared_ptr<Run> two_bends(double degrees, End hook) {
  support::RunOptions options;
  options.hook.assign(2, hook);
  if (hook == End::free) options.order = {2, 1};
  const std::vector<ShapeRow> rows = {{200, Angle(), Angle::degrees(degrees)},
                                      {150, Angle::degrees(90), Angle::degrees(degrees)},
                                      {200, Angle(), Angle()}};
  auto run = support::run_through("pipe", points_from_rows(rows, 55, Vec3::Zero(), Vec3::UnitY(), Vec3::UnitX()),
                                  std::move(options));
  run->marking = Marking::each;
  return run;
}

TEST(MarkWords, TheTapeStartsAtTheBackOfTheLegOnTheOtherSideOfTheBend) {
  const auto datum = two_bends(90, End::datum), free = two_bends(90, End::free);
  EXPECT_EQ(mark_words(*datum, datum->bends[1], LengthUnit::mm).sentence,
            "Hold the tape against the back of the start end's leg and measure along the far end's leg: mark at 212.5 "
            "mm.");
  EXPECT_EQ(mark_words(*free, free->bends[0], LengthUnit::mm).sentence,
            "Hold the tape against the back of the far end's leg and measure along the start end's leg: mark at 212.5 "
            "mm.");
}

TEST(MarkWords, AtOtherAnglesTheTapeStartsWhereTheOutsideLinesMeet) {
  const auto run = two_bends(45, End::datum);
  const MarkWords words = mark_words(*run, run->bends[1], LengthUnit::mm);
  EXPECT_EQ(words.from, "where the backs cross at bend 1");
  // 62.5 tan 22.5 + 150 = 175.89
  EXPECT_EQ(
      words.sentence,
      "Lay straight edges along the backs of the start end's leg and the far end's leg: the tape starts where they "
      "cross at bend 1. Measure along the far end's leg: mark at 176 mm.");
}

TEST(MarkWords, AllMarksAreTapedFromTheDatumEnd) {
  auto run = two_bends(90, End::free);
  run->marking = Marking::all;
  EXPECT_EQ(mark_words(*run, run->bends[0], LengthUnit::mm).from, "the start end");
  EXPECT_FALSE(located_mark(*run, run->bends[0]));
}

int leg_named(const FormedPiece& piece, const std::string& text) {
  if (text.find("the start end's leg") != std::string::npos) return 0;
  if (text.find("the far end's leg") != std::string::npos) return piece.line.leg_count() - 1;
  const size_t place = text.find("between bends ");
  return place == std::string::npos ? -1 : piece.intersection_of(std::stoi(text.substr(place + 14)));
}

// How far a leg's straight tube reaches along a direction: its two ends' circles.
double reach(const CentreLine& line, int leg, double radius, const Vec3& along) {
  double most = -std::numeric_limits<double>::infinity();
  for (const Piece& piece : line.pieces()) {
    const auto* straight = std::get_if<Straight>(&piece.shape);
    if (straight == nullptr || piece.first_leg != leg) continue;
    const Vec3 way = (straight->to - straight->from).normalized();
    const double across = std::sqrt(std::max(0.0, 1 - std::pow(way.dot(along), 2)));
    for (const Vec3& end : {straight->from, straight->to}) most = std::max(most, end.dot(along) + radius * across);
  }
  return most;
}

// Laid on the solid as the sentence says, on random runs in any order with either end on the hook.
TEST(MarkWords, FollowedOnTheFormedPieceTheyHitTheMark) {
  SCOPED_TRACE(::testing::Message() << "seed " << kSeed);
  std::mt19937 engine(kSeed);
  int square = 0, other = 0;
  for (int i = 0; i < 200; ++i) {
    const int bends = 2 + static_cast<int>(engine() % 5);
    support::RunOptions options;
    for (int k = 0; k < bends; ++k) options.hook.push_back(engine() % 2 == 0 ? End::datum : End::free);
    options.order.resize(bends);
    std::iota(options.order.begin(), options.order.end(), 1);
    for (int k = bends - 1; k > 0; --k) std::swap(options.order[k], options.order[engine() % (k + 1)]);
    options.bender.mark_offset_mm = 4;
    const auto run = support::run_through("pipe", support::random_points(engine, bends), options);
    run->marking = Marking::each;
    for (const Bend& bend : run->bends) {
      if (bend.mark_from_bend == 0) continue;
      const MarkWords words = mark_words(*run, bend, LengthUnit::mm);
      const FormedPiece piece = before_bend(*run, bend.made);
      const Vec3 mark = piece.line.point_at(piece.mark_at_mm);
      const auto tape = located_mark(*run, bend);
      ASSERT_TRUE(tape);
      EXPECT_LT((tape->to - mark).norm(), 1e-9);
      EXPECT_NEAR((tape->to - tape->from).norm(), words.mm, 1e-7);
      const size_t split = words.sentence.find("easure along");
      ASSERT_NE(split, std::string::npos);
      const int along_leg = leg_named(piece, words.sentence.substr(split));
      const int corner = piece.intersection_of(bend.mark_from_bend);
      ASSERT_TRUE(along_leg == corner || along_leg == corner - 1) << words.sentence;
      Vec3 along = piece.line.leg_direction(along_leg);
      if (along_leg == corner - 1) along = -along;  // away from the bend before
      const int behind = along_leg == corner ? corner - 1 : corner;
      if (words.sentence.starts_with("Hold the tape against the back of ")) {
        ++square;
        EXPECT_EQ(leg_named(piece, words.sentence.substr(0, split)), behind) << words.sentence;
        EXPECT_NEAR(mark.dot(along) + reach(piece.line, behind, 7.5, -along), words.mm, 1e-7) << words.sentence;
      } else {
        ++other;
        // The outside lines of both legs, in the plane of the bend: half a tube outwards of each.
        const Vec3 in = piece.line.leg_direction(corner - 1), out = piece.line.leg_direction(corner);
        const Vec3 outwards_in = (out.dot(in) * in - out).normalized(),
                   outwards_out = (in - in.dot(out) * out).normalized();
        const Vec3 start = tape->from + 7.5 * (along_leg == corner ? outwards_out : outwards_in);
        EXPECT_NEAR((start - piece.line.points()[corner]).dot(outwards_in), 7.5, 1e-7);
        EXPECT_NEAR((start - piece.line.points()[corner]).dot(outwards_out), 7.5, 1e-7);
      }
    }
  }
  EXPECT_GT(square, 50);
  EXPECT_GT(other, 50);
}

}  // namespace
}  // namespace halfhard
