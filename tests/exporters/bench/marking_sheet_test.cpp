#include "exporters/bench/marking_sheet.h"

#include <gtest/gtest.h>

#include "exporters/sheet/clashes.h"
#include "tests/support/plans.h"

namespace halfhard {
namespace {

std::shared_ptr<Run> offset_run() {
  auto run = support::run_through("tail", support::offset_points(200, 70, Angle::degrees(45), 200));
  run->offsets.push_back({1, 70, 70 * std::sqrt(2.0), 70, Angle(), "right", ""});
  return run;
}

// 70 at 45 degrees and 3 mm: 2.4.
TEST(MarkingSheet, SaysHowFarAnAngleMayBeOutBeforeTheOffsetIs) {
  EXPECT_NEAR(angle_that_uses_up(70, Angle::degrees(45), 3).degrees(), 2.4, 0.05);
  // At 90 the offset is the travel itself: it can only get less; acos(97/100) (C).
  EXPECT_NEAR(angle_that_uses_up(100, Angle::degrees(90), 3).degrees(), 14.07, 0.01);
}

const MarkingLine* line_with(const std::vector<MarkingLine>& lines, const std::string& part) {
  for (const MarkingLine& line : lines)
    if (line.what.find(part) != std::string::npos) return &line;
  return nullptr;
}

TEST(MarkingSheet, HasALineForEverythingThatIsMeasured) {
  auto run = offset_run();
  run->bank = 0;
  run->piece = 1;
  Plan plan = support::plan_of({run});
  plan.banks.push_back({"tail", 2, Vec3(-60, 0, 0), false, {0}, ""});
  const std::vector<MarkingLine> lines = marking_lines(plan, *plan.runs[0]);
  ASSERT_NE(line_with(lines, "over both outsides, near the bend"), nullptr);
  EXPECT_EQ(line_with(lines, "over both outsides, near the bend")->target, "85 mm");
  EXPECT_EQ(line_with(lines, "far end of the leg")->target, "85 mm");
  EXPECT_EQ(line_with(lines, "legs parallel")->tolerance, "±3 mm");
  EXPECT_EQ(line_with(lines, "angle of bend 2")->target, "45°");
  EXPECT_EQ(line_with(lines, "angle of bend 2")->tolerance, "±3°");
  // 200 and 15 in the fitting to the centre; 7.5 tan 22.5 = 3.107 more to where the backs cross, 98.995 of travel and
  // twice that between.
  EXPECT_EQ(line_with(lines, "from the start end")->target, "218 mm");
  EXPECT_NE(line_with(lines, "from the start end")->what.find("(215 mm to the centre)"), std::string::npos);
  EXPECT_EQ(line_with(lines, "between bends 1 and 2")->target, "105 mm");
  EXPECT_NE(line_with(lines, "between bends 1 and 2")->what.find("(99 mm centre to centre)"), std::string::npos);
  EXPECT_EQ(line_with(lines, "twist")->target, "0 mm");
  EXPECT_EQ(line_with(lines, "gap to the next piece")->target, "45 mm");  // 60 less one tube
  EXPECT_EQ(line_with(lines, "flattening")->tolerance, "at least 13.8 mm");
  EXPECT_NE(line_with(lines, "ripple"), nullptr);
}

// Taped on the solid: the backs of both neighbours of a leg between two 90s.
TEST(MarkingSheet, ALegIsTapedOverTheBacksOfItsNeighbours) {
  const Plan plan = support::plan_of({support::run_through("riser", support::multi_plane_points())});
  const std::vector<MarkingLine> lines = marking_lines(plan, *plan.runs[0]);
  EXPECT_EQ(line_with(lines, "between bends 1 and 2")->target, "215 mm");  // 200 and half a tube at either end
}

TEST(MarkingSheet, GivesNoTargetsForAPieceThatIsNotToBeMade) {
  Plan plan = support::plan_of({offset_run()});
  plan.findings.push_back({"clearance", Severity::fail, "tail", "tail meets the trap.", -2, 0, "mm", "", ""});
  const std::vector<Sheet> sheets = marking_sheets(plan);
  ASSERT_EQ(sheets.size(), 1u);
  std::string words;
  for (const Entity& entity : sheets[0].entities) {
    EXPECT_FALSE(std::holds_alternative<Table>(entity));
    if (const auto* text = std::get_if<Text>(&entity)) words += text->content + " ";
  }
  EXPECT_NE(words.find("NOT TO BE MADE: tail meets the trap."), std::string::npos);
}

size_t tables_in(const std::vector<Sheet>& sheets) {
  size_t tables = 0;
  for (const Sheet& sheet : sheets)
    for (const Entity& entity : sheet.entities) tables += std::holds_alternative<Table>(entity) ? 1 : 0;
  return tables;
}

TEST(MarkingSheet, SetsMultiplyTheTablesAndNothingRunsIntoAnything) {
  Plan plan = support::plan_of({offset_run(), support::run_through("riser", support::multi_plane_points())});
  EXPECT_EQ(tables_in(marking_sheets(plan)), 2u);
  plan.sets = 10;
  const std::vector<Sheet> sheets = marking_sheets(plan);
  EXPECT_EQ(tables_in(sheets), 20u);
  for (const Sheet& sheet : sheets)
    for (const Clash& clash : text_clashes(sheet))
      ADD_FAILURE() << sheet.title << ": '" << clash.first << "' runs into '" << clash.second << "'";
}

TEST(MarkingSheet, ARunOfManyBendsGoesOnOnTheNextSheet) {
  std::mt19937 engine(7);
  const Plan plan = support::plan_of({support::run_through("long", support::random_points(engine, 40))});
  const std::vector<Sheet> sheets = marking_sheets(plan);
  EXPECT_GT(sheets.size(), 1u);
  for (const Sheet& sheet : sheets) EXPECT_TRUE(text_clashes(sheet).empty());
}

}  // namespace
}  // namespace halfhard
