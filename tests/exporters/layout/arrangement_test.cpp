// The arrangement sheet: everything is named once it is drawn, nothing stands on anything else.
#include "exporters/arrangement/arrangement.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <set>

#include "exporters/layout/callouts.h"
#include "exporters/layout/run_styles.h"
#include "exporters/sheet/clashes.h"
#include "exporters/svg/svg.h"
#include "tests/exporters/layout/site.h"

namespace halfhard {
namespace {

std::vector<std::string> words_on(const std::vector<Sheet>& sheets) {
  std::vector<std::string> words;
  for (const Sheet& sheet : sheets)
    for (const TextBox& box : text_boxes(sheet)) words.push_back(box.content);
  return words;
}

bool says(const std::vector<Sheet>& sheets, const std::string& part) {
  const std::vector<std::string> words = words_on(sheets);
  return std::any_of(words.begin(), words.end(),
                     [&](const std::string& word) { return word.find(part) != std::string::npos; });
}

void expect_no_clash(const std::vector<Sheet>& sheets, const std::string& where) {
  for (const Sheet& sheet : sheets) {
    for (const Clash& clash : text_clashes(sheet))
      ADD_FAILURE() << where << ", " << sheet.title << ": '" << clash.first << "' over '" << clash.second << "' at "
                    << clash.at.transpose();
    for (const Clash& clash : line_clashes(sheet))
      ADD_FAILURE() << where << ", " << sheet.title << ": '" << clash.first << "' on " << clash.second << " at "
                    << clash.at.transpose();
  }
}

TEST(Arrangement, ABankOfEightReadsWithoutOverlap) {
  expect_no_clash(arrangement_sheets(support::bank_plan(8)), "bank");
}

TEST(Arrangement, EveryPipeFixtureAndHoleIsNamed) {
  const std::vector<std::string> words = words_on(arrangement_sheets(support::bank_plan(8)));
  const std::set<std::string> all(words.begin(), words.end());
  for (int i = 1; i <= 8; ++i) {
    EXPECT_TRUE(all.count(std::to_string(i))) << i;
    EXPECT_TRUE(all.count("tail " + std::to_string(i))) << i;
    EXPECT_TRUE(all.count("trap " + std::to_string(i))) << i;
    EXPECT_TRUE(all.count("H" + std::to_string(i))) << i;
  }
  EXPECT_TRUE(all.count("panel"));
  EXPECT_TRUE(all.count("wall"));
  EXPECT_TRUE(all.count("1-8"));  // from the left they stand in one line
}

TEST(Arrangement, RandomRunsReadWithoutOverlap) {
  std::mt19937 random(2026);
  for (int i = 0; i < 40; ++i) {
    std::vector<std::shared_ptr<const halfhard::Run>> runs;
    for (int k = 0; k < 1 + i % 4; ++k)
      runs.push_back(support::run_through("run " + std::to_string(k + 1), support::random_points(random, 1 + i % 5)));
    Plan plan = support::plan_of(runs);
    plan.title_block.third_angle = i % 2 == 1;
    plan.unit = i % 3 == 2 ? LengthUnit::inch : LengthUnit::mm;
    plan.fixtures.push_back(support::fixture("cabinet", Box{{300, 300, 300}, Mat3::Identity(), {150, 100, 200}}));
    plan.fixtures.push_back(support::fixture("floor", HalfSpace{{0, 0, -400}, Vec3::UnitZ()}, FixtureKind::plane));
    expect_no_clash(arrangement_sheets(plan), "random " + std::to_string(i));
  }
}

TEST(Arrangement, AFailingJobSaysSoOnEverySheet) {
  Plan plan = support::bank_plan(2);
  plan.findings.push_back({"clearance", Severity::fail, "tail 2", "tail 2 runs into trap 2", -3, 10, "mm", "", ""});
  for (const Sheet& sheet : arrangement_sheets(plan))
    EXPECT_TRUE(says({sheet}, "NOT TO BE MADE: tail 2 runs into trap 2"));
  EXPECT_FALSE(says(arrangement_sheets(support::bank_plan(2)), "NOT TO BE MADE"));
}

TEST(Arrangement, ConnectionsStandWithTheirCoordinates) {
  const auto sheets = arrangement_sheets(support::bank_plan(2));
  const std::vector<std::string> words = words_on(sheets);
  EXPECT_GE(std::count(words.begin(), words.end(), "100"), 2);  // x of both ends of tail 2
  EXPECT_TRUE(says(sheets, "x right, y back, z up"));
}

TEST(Arrangement, SamePlanSameBytes) {
  const Plan plan = support::bank_plan(3);
  const std::vector<Sheet> first = arrangement_sheets(plan), second = arrangement_sheets(plan);
  ASSERT_EQ(first.size(), second.size());
  for (size_t i = 0; i < first.size(); ++i) EXPECT_EQ(svg(first[i]), svg(second[i]));
}

TEST(Arrangement, AScaleIsOfTheStandardSeries) {  // ISO 5455
  const auto sheets = arrangement_sheets(support::bank_plan(8));
  const std::set<double> series = {1, 2, 5, 10, 20, 50, 100, 200, 500, 1000};
  EXPECT_TRUE(series.count(sheets.front().scale));
}

TEST(RunStyles, SixFamiliesReadInBlackAndWhite) {
  std::vector<std::shared_ptr<const halfhard::Run>> runs;
  for (int i = 0; i < 6; ++i)
    runs.push_back(support::run_through("run " + std::to_string(i), support::single_bend_points()));
  std::set<LineStyle> styles;
  for (const RunStyle& style : run_styles(support::plan_of(runs))) styles.insert(style.style);
  EXPECT_EQ(styles.size(), 6u);
}

TEST(RunStyles, NumbersAreWrittenAsPeopleDo) {
  EXPECT_EQ(numbers_text({0}), "1");
  EXPECT_EQ(numbers_text({0, 1}), "1, 2");
  EXPECT_EQ(numbers_text({0, 1, 2, 3}), "1-4");
  EXPECT_EQ(numbers_text({0, 2, 4, 5, 6}), "1, 3, 5-7");
}

TEST(Callouts, ABankIsCalledOutOnceAtItsTightest) {
  const Plan plan = support::bank_plan(8);
  const std::vector<Callout> all = callouts(plan);
  ASSERT_EQ(all.size(), 1u);  // the wall is 62.5 off where 2 is needed
  EXPECT_EQ(all[0].clearance->second, "trap 1");
  EXPECT_EQ(all[0].alike, 8);
  EXPECT_EQ(all[0].letter, "A");
}

TEST(Callouts, ATighterPieceOfTheBankStandsFirst) {
  Plan plan = support::bank_plan(4);
  plan.clearances.push_back({"tail 3", "trap 2", 3, 10, 0, Vec3::Zero(), Vec3::UnitX()});
  const std::vector<Callout> all = callouts(plan);
  ASSERT_FALSE(all.empty());
  EXPECT_EQ(all[0].clearance->distance_mm, 3);
  EXPECT_LT(all[0].margin_mm(), 0);
}

TEST(Callouts, APairFarApartIsLeftOutAndARunWithItselfUnlessItFails) {
  Plan plan = support::bank_plan(1);
  plan.clearances = {{"tail 1", "wall", 50.1, 0, 0, Vec3::Zero(), Vec3::UnitX()},
                     {"tail 1", "trap 1", 59, 30, 0, Vec3::Zero(), Vec3::UnitX()},
                     {"tail 1", "tail 1", 20, 10, 0, Vec3::Zero(), Vec3::UnitX()}};
  ASSERT_EQ(callouts(plan).size(), 1u);
  EXPECT_EQ(callouts(plan)[0].clearance->second, "trap 1");
  plan.clearances[2].distance_mm = 9;
  ASSERT_EQ(callouts(plan).size(), 2u);
  EXPECT_EQ(callouts(plan)[0].clearance->second, "tail 1");
}

// Behind one another as seen along the pipe, beside one another from above.
TEST(Arrangement, EveryHoleThroughARowOfJoistsHasANameOfItsOwn) {
  Plan plan = support::plan_of({support::run_through("flow", {{0, 900, 2400}, {1500, 900, 2400}})});
  for (int i = 0; i < 3; ++i) {
    Fixture joist = *support::joist();
    joist.name += " " + std::to_string(i + 1);
    std::get<Box>(joist.body.shape).centre.x() += 400.0 * i;
    joist.joist->from.x() = joist.joist->to.x() = 400 + 400.0 * i;
    plan.fixtures.push_back(std::make_shared<const Fixture>(joist));
    plan.drillings.push_back({"flow", joist.name, {376.5 + 400 * i, 900, 2400}, Vec3::UnitX(), 19, 47});
  }
  plan.fixtures.push_back(support::fixture("boards", Box{{750, 900, 2484}, Mat3::Identity(), {900, 700, 9}}));
  const std::vector<Sheet> sheets = arrangement_sheets(plan);
  expect_no_clash(sheets, "joists");
  const std::vector<std::string> words = words_on({sheets.front()});
  for (const char* hole : {"H1", "H2", "H3"}) EXPECT_EQ(std::count(words.begin(), words.end(), hole), 1) << hole;
  int hidden = 0;  // the joists' edges below the boards
  for (const Entity& entity : sheets.front().entities)
    if (const auto* line = std::get_if<Polyline>(&entity))
      hidden += line->pen.layer == Layer::fixture && line->pen.style == LineStyle::dashed;
  EXPECT_GE(hidden, 6);
}

TEST(Arrangement, ADoorThatComesNearIsShownHoweverFarOffItRests) {
  Plan plan = support::bank_plan(1);
  Fixture door = *support::fixture("door", Box{{0, -900, 250}, Mat3::Identity(), {300, 10, 300}});
  door.body.motion = Swing{{300, -900, 0}, Vec3::UnitZ(), Angle::degrees(-100)};
  plan.fixtures.push_back(std::make_shared<const Fixture>(door));
  EXPECT_TRUE(says({arrangement_sheets(plan).front()}, "door"));
}

}  // namespace
}  // namespace halfhard
