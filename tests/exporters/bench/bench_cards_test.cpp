#include "exporters/bench/bench_cards.h"

#include <gtest/gtest.h>

#include "exporters/bench/bender_picture.h"
#include "exporters/bench/located_mark.h"
#include "exporters/bench/shortened_piece.h"
#include "exporters/pdf/pdf.h"
#include "exporters/sheet/clashes.h"
#include "exporters/sheet/text_metrics.h"
#include "geometry/bending/bend_checks.h"
#include "geometry/bending/check_dimension.h"
#include "tests/support/plans.h"

namespace halfhard {
namespace {

constexpr unsigned kSeed = 20260118;

std::shared_ptr<Run> checked(std::shared_ptr<Run> run) {
  fill_checks(*run, 3);
  return run;
}

std::string words_of(const Sheet& sheet) {
  std::string words;
  for (const Entity& entity : sheet.entities) {
    if (const Text* text = std::get_if<Text>(&entity)) words += text->content + " ";
  }
  return words;
}

void expect_readable(const std::vector<Sheet>& sheets) {
  for (const Sheet& sheet : sheets) {
    for (const Clash& clash : text_clashes(sheet))
      ADD_FAILURE() << sheet.title << ": '" << clash.first << "' runs into '" << clash.second << "' at "
                    << clash.at.transpose();
  }
}

TEST(BenchCards, OneCardABendInTheOrderMade) {
  support::RunOptions options;
  options.order = {2, 1, 4, 3};
  const Plan plan = support::plan_of({checked(support::run_through("riser", support::multi_plane_points(), options))});
  const std::vector<Sheet> cards = bench_cards(plan, *plan.runs[0]);
  ASSERT_EQ(cards.size(), 4u);
  EXPECT_NE(words_of(cards[0]).find("riser: bend 2, made 1 of 4"), std::string::npos);
  EXPECT_NE(words_of(cards[3]).find("riser: bend 3, made 4 of 4"), std::string::npos);
}

TEST(BenchCards, SayMarkHookSetAngleRuleAndCheck) {
  const Plan plan = support::plan_of(
      {checked(support::run_through("tail", support::offset_points(200, 70, Angle::degrees(45), 200)))});
  const std::string words = words_of(bench_cards(plan, *plan.runs[0])[1]);
  // Curve 2 starts 97.0 of arc and straight after curve 1: 288.8 (closed form in bend_table), set 46 for 45.
  for (const char* part : {"mark, 289 from the start end", "46°", "45°", "552.5", "554.5", "85 ±3",
                           "Hook the start end.", "square to the front edge of the former"})
    EXPECT_NE(words.find(part), std::string::npos) << part << " in " << words;
}

// However full the cards are.
TEST(BenchCards, CautionsNeverGiveWay) {
  for (const int pieces : {1, 60}) {
    std::vector<std::shared_ptr<const halfhard::Run>> runs;
    for (int k = 1; k <= pieces; ++k) {
      support::RunOptions options;
      options.service = Service::gas;
      options.bender.line_up =
          "the line that is scribed across the front edge of the former, seen square from above, with "
          "the tube drawn hard into the hook and the guide closed on it by hand before it is pulled";
      auto run = checked(support::run_through("gas tail " + std::to_string(k), support::multi_plane_points(), options));
      run->family = "gas tail";
      runs.push_back(run);
    }
    const Plan plan = support::plan_of(runs);
    std::string words;
    for (const Sheet& sheet : bench_cards(plan, *plan.runs[0])) words += words_of(sheet);
    for (const char* caution : {"fingers", "eye protection", "Gas", "Local codes"})
      EXPECT_NE(words.find(caution), std::string::npos) << caution << ", " << pieces << " pieces";
  }
}

std::vector<std::vector<Vec2>> strokes_of(const Sheet& sheet) {
  std::vector<std::vector<Vec2>> strokes;
  for (const Entity& entity : sheet.entities) {
    const Polyline* line = std::get_if<Polyline>(&entity);
    if (line != nullptr && line->pen.layer == Layer::outline && line->pen.width_mm == 0.5)
      strokes.push_back(line->points);
  }
  return strokes;
}

TEST(BenchCards, ThePictureDiffersWithTheHookSide) {
  support::RunOptions free_side;
  free_side.hook.assign(4, End::free);
  const Plan plan = support::plan_of({checked(support::run_through("a", support::multi_plane_points())),
                                      checked(support::run_through("b", support::multi_plane_points(), free_side))});
  EXPECT_NE(strokes_of(bench_cards(plan, *plan.runs[0])[1]), strokes_of(bench_cards(plan, *plan.runs[1])[1]));
}

TEST(BenchCards, OfARunThatFailsCarryTheFindingInPlaceOfMarks) {
  Plan plan = support::plan_of(
      {checked(support::run_through("tail", support::offset_points(200, 70, Angle::degrees(45), 200)))});
  plan.findings.push_back({"clearance", Severity::fail, "tail", "tail meets the trap.", -2, 0, "mm", "", ""});
  for (const Sheet& card : bench_cards(plan, *plan.runs[0])) {
    const std::string words = words_of(card);
    EXPECT_NE(words.find("NOT TO BE MADE: tail meets the trap."), std::string::npos);
    EXPECT_EQ(words.find("from the start end."), std::string::npos);
    EXPECT_EQ(words.find("289"), std::string::npos);
    EXPECT_EQ(words.find("85 ±3"), std::string::npos);
    EXPECT_EQ(words.find("Pull to"), std::string::npos);
  }
}

TEST(BenchCards, OfARunThatFailsSayAllThatFails) {
  Plan plan = support::plan_of({checked(support::run_through("elbow", support::single_bend_points()))});
  for (const char* message : {"elbow meets the trap.", "elbow misses its tap."})
    plan.findings.push_back({"any", Severity::fail, "elbow", message, -2, 0, "mm", "", ""});
  const std::string words = words_of(bench_cards(plan, *plan.runs[0])[0]);
  EXPECT_NE(words.find("NOT TO BE MADE: elbow meets the trap. Also: elbow misses its tap."), std::string::npos)
      << words;
}

TEST(BenchCards, SayWhereEveryMarkIsTapedFrom) {
  auto run = checked(support::run_through("riser", support::multi_plane_points()));
  const Plan all = support::plan_of({run});
  for (const Sheet& card : bench_cards(all, *all.runs[0]))
    EXPECT_NE(words_of(card).find(" from the start end "), std::string::npos);
  run->marking = Marking::each;
  const Plan each = support::plan_of({run});
  EXPECT_NE(words_of(bench_cards(each, *each.runs[0])[1]).find("152.5 from the back of the start end's leg "),
            std::string::npos);
}

TEST(BenchCards, SayTheTubeTheBenderAndWhatToMind) {
  const Plan plan = support::plan_of({checked(support::run_through("riser", support::multi_plane_points()))});
  for (const Sheet& card : bench_cards(plan, *plan.runs[0])) {
    for (const char* part : {"outside diameter 15 mm", "centre-line radius 55 mm", "Keep fingers clear",
                             "eye protection", "burrs", "never bend back and forth"})
      EXPECT_NE(words_of(card).find(part), std::string::npos) << part;
  }
}

TEST(BenchCards, OnePullIsTheFirstStepOfTheBendThatIsMadeFirst) {
  support::RunOptions options;
  options.order = {2, 1};
  const std::vector<Vec3> points = {{0, 0, 0}, {0, 0, 300}, {110, 0, 300}, {110, 0, 0}};
  const Plan plan = support::plan_of({checked(support::run_through("loop", points, options))});
  const std::vector<Sheet> cards = bench_cards(plan, *plan.runs[0]);
  EXPECT_NE(words_of(cards[0]).find("1 May be one pull of 180° with bend 1"), std::string::npos);
  EXPECT_EQ(words_of(cards[1]).find("May be one pull"), std::string::npos);
}

TEST(BenchCards, EverythingInAPictureStaysInItsFrame) {
  SCOPED_TRACE(::testing::Message() << "seed " << kSeed);
  std::mt19937 engine(kSeed);
  const Vec2 low(20, 30), high(107, 114);
  for (int i = 0; i < 30; ++i) {
    const int bends = 1 + static_cast<int>(engine() % 5);
    const auto run = checked(support::run_through("pipe", support::random_points(engine, bends)));
    run->marking = Marking::each;
    for (int made = 1; made <= bends; ++made) {
      const double radius = run->tube->outside_radius_mm();
      BenderPicture before{before_bend(*run, made),
                           radius,
                           run->bender->stands,
                           "mark",
                           true,
                           located_mark(*run, run->bends[made - 1]),
                           "152.5"};
      BenderPicture after{after_bend(*run, made),       radius,    run->bender->stands, {}, true,
                          located_check(*run, made, 3), "152.5 ±3"};
      for (const BenderPicture& picture : {before, after}) {
        for (const Entity& entity : bender_picture(picture, low, high)) {
          std::vector<Vec2> points;
          if (const auto* line = std::get_if<Polyline>(&entity)) points = line->points;
          if (const auto* text = std::get_if<Text>(&entity)) {
            const TextBox box = box_of(*text);
            points.assign(box.corners, box.corners + 4);
          }
          for (const Vec2& point : points) {
            EXPECT_GE((point - low).minCoeff(), -1e-6) << point.transpose();
            EXPECT_GE((high - point).minCoeff(), -1e-6) << point.transpose();
          }
        }
      }
    }
  }
}

TEST(BenchCards, TheTicksStandOnTheCardOfTheirBendWhereTheyFit) {
  const auto piece = checked(support::run_through("tail 1", support::multi_plane_points()));
  Plan plan = support::plan_of({piece});
  plan.sets = 8;
  const std::vector<Sheet> cards = bench_cards(plan, *plan.runs[0]);
  ASSERT_EQ(cards.size(), 4u);
  for (const Sheet& card : cards) EXPECT_NE(words_of(card).find("tail 1, set 8 "), std::string::npos);
}

TEST(BenchCards, OneSetOfCardsHasALineForEveryPieceOfEverySet) {
  const auto piece = checked(support::run_through("tail 1", support::offset_points(200, 70, Angle::degrees(45), 200)));
  auto second = std::make_shared<halfhard::Run>(*piece);
  second->name = "tail 2";
  Plan plan = support::plan_of({piece, second});
  auto matched = std::make_shared<halfhard::Run>(*plan.runs[1]);
  matched->same_as = 0;
  plan.runs[1] = matched;
  plan.sets = 30;
  EXPECT_TRUE(leads_its_pieces(plan, *plan.runs[0]));
  EXPECT_FALSE(leads_its_pieces(plan, *plan.runs[1]));
  const std::vector<Sheet> cards = bench_cards(plan, *plan.runs[0]);
  std::string words;
  for (const Sheet& card : cards) words += words_of(card);
  for (const char* name : {"tail 1, set 1 ", "tail 2, set 1 ", "tail 1, set 30 ", "tail 2, set 30 "})
    EXPECT_NE(words.find(name), std::string::npos) << name;
  expect_readable(cards);
}

TEST(BenchCards, NoTextRunsIntoAnotherOnRandomRuns) {
  SCOPED_TRACE(::testing::Message() << "seed " << kSeed);
  std::mt19937 engine(kSeed);
  for (int i = 0; i < 30; ++i) {
    const int bends = 1 + static_cast<int>(engine() % 6);
    support::RunOptions options;
    for (int k = 0; k < bends; ++k) options.hook.push_back(engine() % 2 == 0 ? End::datum : End::free);
    options.free_spare_mm = engine() % 2 * 50.0;
    const auto run =
        checked(support::run_through("pipe " + std::to_string(i), support::random_points(engine, bends), options));
    run->marking = engine() % 2 == 0 ? Marking::all : Marking::each;
    const Plan plan = support::plan_of({run});
    expect_readable(bench_cards(plan, *plan.runs[0]));
  }
}

TEST(BenchCards, LongStraightsAreCutShortAndKeepTheirDirections) {
  std::vector<Vec3> points = support::multi_plane_points();
  for (size_t i = 2; i < points.size(); ++i) points[i].x() += 2600;  // the second leg is 2.8 m
  const auto run = support::run_through("riser", points);
  for (int made = 1; made <= 4; ++made) {
    const FormedPiece piece = after_bend(*run, made);
    const ShortenedPiece shown(piece, 176);
    ASSERT_EQ(shown.line().leg_count(), piece.line.leg_count());
    for (int leg = 0; leg < piece.line.leg_count(); ++leg) {
      EXPECT_LT((shown.line().leg_direction(leg) - piece.line.leg_direction(leg)).norm(), 1e-9);
      EXPECT_LE(shown.line().straight_mm(leg), 2 * 1.3 * 176 + 1);
    }
    // A place on a long leg stands on what is left of it, or within a tube of it.
    for (double s = 0; s <= piece.line.length_mm(); s += 25) {
      const Vec3 moved = shown.moved(piece.line.point_at(s));
      double apart = 1e9;
      for (double at = 0; at <= shown.line().length_mm(); at += 2)
        apart = std::min(apart, (shown.line().point_at(at) - moved).norm());
      EXPECT_LT(apart, 2) << s;
    }
    // The hook point stays, and the mark stays beside it.
    EXPECT_LT(shown.line().point_at(shown.moved_along(piece.hook_at_mm)).norm(), 1e-6);
  }
}

TEST(BenchCards, TheSamePlanGivesTheSameBytes) {
  const Plan plan = support::plan_of({checked(support::run_through("riser", support::multi_plane_points()))});
  EXPECT_EQ(pdf({"cards", bench_cards(plan, *plan.runs[0])}), pdf({"cards", bench_cards(plan, *plan.runs[0])}));
}

TEST(BenchCards, AStraightPieceGetsOneCard) {
  const Plan plan = support::plan_of({support::run_through("rod", {{0, 0, 0}, {0, 0, 500}})});
  const std::vector<Sheet> cards = bench_cards(plan, *plan.runs[0]);
  ASSERT_EQ(cards.size(), 1u);
  EXPECT_NE(words_of(cards[0]).find("Cut the blank 515 mm long"), std::string::npos);
}

}  // namespace
}  // namespace halfhard
