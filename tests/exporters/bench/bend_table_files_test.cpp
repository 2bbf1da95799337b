#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "exporters/bench/bend_rows.h"
#include "exporters/bench/bend_table_files.h"
#include "geometry/bending/bend_checks.h"
#include "geometry/bending/check_dimension.h"
#include "geometry/rules/bench_errors.h"
#include "tests/support/plans.h"

namespace halfhard {
namespace {

std::shared_ptr<Run> checked(std::shared_ptr<Run> run) {
  fill_checks(*run, 3);
  return run;
}

Plan offset_plan(const std::string& name = "tail") {
  support::RunOptions options;
  options.free_spare_mm = 50;
  return support::plan_of(
      {checked(support::run_through(name, support::offset_points(200, 70, Angle::degrees(45), 200), options))});
}

// RFC 4180 cells of one file, its BOM taken off.
std::vector<std::vector<std::string>> cells_of(const std::string& csv) {
  std::vector<std::vector<std::string>> rows(1, {""});
  bool quoted = false;
  for (size_t i = 3; i < csv.size(); ++i) {
    const char c = csv[i];
    if (quoted) {
      if (c == '"' && i + 1 < csv.size() && csv[i + 1] == '"') {
        rows.back().back() += '"';
        ++i;
      } else if (c == '"') {
        quoted = false;
      } else {
        rows.back().back() += c;
      }
    } else if (c == '"') {
      quoted = true;
    } else if (c == ',') {
      rows.back().emplace_back();
    } else if (c == '\n') {
      rows.emplace_back(1, "");
    } else if (c != '\r') {
      rows.back().back() += c;
    }
  }
  rows.pop_back();
  return rows;
}

TEST(BendTableText, SaysTheBlankFirstThenTheBendsThenTheTrimAndTheLikelyErrorLast) {
  const Plan plan = offset_plan();
  const std::string text = bend_table_text(plan, *plan.runs[0]);
  size_t at = 0;
  for (const char* part : {"Bend table: tail",
                           "Cut the blank 559.5 mm long, of which 50 mm spare at the far end and 15 mm in the fitting",
                           "Lay every mark on the straight tube, each from the start end",
                           "never scribe it",
                           "1. Bend 1",
                           "Mark 192 mm from the start end.",
                           "Hold the mark to: square to the front edge of the former. Hook the start end.",
                           "Pull to 46° for 45°; a 600 mm rule hinged at 300 mm stands 552.5 mm",
                           "2. Bend 2",
                           "Mark 289 mm from the start end.",
                           "bend 1's leg lies at 6 (180°)",
                           "With the tube in the bender, turn it until",
                           "85 mm, within",
                           "Check too: lay the",
                           "Last, trim the spare: 50 mm off the far end",
                           "Likely error:",
                           "Mind: ",
                           "Keep fingers clear",
                           "burrs",
                           "overbent"}) {
    const size_t found = text.find(part, at);
    ASSERT_NE(found, std::string::npos) << part << " missing or out of place in\n" << text;
    at = found;
  }
}

TEST(BendTableText, NoLineIsLongerThanAHundredCharacters) {
  std::mt19937 engine(5);
  for (int i = 0; i < 20; ++i) {
    const Plan plan = support::plan_of({checked(support::run_through("pipe", support::random_points(engine, 5)))});
    const std::string text = bend_table_text(plan, *plan.runs[0]);
    size_t width = 0;
    for (char c : text) {
      if (c == '\n') width = 0;
      if (c != '\n' && (c & 0xC0) != 0x80) ++width;
      EXPECT_LE(width, 100u);
    }
  }
}

TEST(BendTableText, AFailingRunSaysNotToBeMadeAndGivesNoMark) {
  Plan plan = offset_plan();
  plan.findings.push_back({"clearance", Severity::fail, "tail", "tail meets the trap.", -2, 0, "mm", "", ""});
  const std::string text = bend_table_text(plan, *plan.runs[0]);
  EXPECT_EQ(text.find("NOT TO BE MADE: tail meets the trap."), 0u);
  EXPECT_EQ(text.find("Mark 192"), std::string::npos);
  EXPECT_EQ(text.find("289"), std::string::npos);
  for (const char* work : {"Cut the blank", "Lay ", "Check", "Pull to", "Hold the mark", "Last, trim", "85 ±3"})
    EXPECT_EQ(text.find(work), std::string::npos) << work << " in " << text;
}

TEST(BendTableText, OfARunThatFailsSaysAllThatFails) {
  Plan plan = offset_plan();
  for (const char* message : {"tail meets the trap.", "tail misses its tap.", "tail is too short on the hook."})
    plan.findings.push_back({"any", Severity::fail, "tail", message, -2, 0, "mm", "", ""});
  plan.findings.push_back({"any", Severity::fail, "another", "another meets the wall.", -2, 0, "mm", "", ""});
  plan.findings.push_back({"any", Severity::warn, "tail", "tail is long.", -2, 0, "mm", "", ""});
  EXPECT_EQ(
      bend_table_text(plan, *plan.runs[0])
          .find("NOT TO BE MADE: tail meets the trap.\nAlso: tail misses its tap.\nAlso: tail is too short on the "
                "hook.\n\n"),
      0u);
  EXPECT_EQ(not_to_be_made_in_short(plan, *plan.runs[0]),
            "NOT TO BE MADE: tail meets the trap. And 2 more: see the findings.");
  EXPECT_EQ(cells_of(bend_table_csv(plan, *plan.runs[0]))[2].back(),
            "NOT TO BE MADE: tail meets the trap. Also: tail misses its tap. Also: tail is too short on the hook.");
  const auto json = nlohmann::json::parse(bend_table_json(plan, *plan.runs[0]));
  EXPECT_EQ(json["not_to_be_made"]["more"].size(), 2u);
}

// The whole line of figures of a bend, its cells parted by two spaces or more.
std::string line_starting(const std::string& text, const std::string& start) {
  const size_t at = text.find("\n" + start);
  return at == std::string::npos ? "" : text.substr(at + 1, text.find('\n', at + 1) - at - 1);
}

TEST(BendTableText, EveryMarkHasItsOriginBesideIt) {
  auto run = checked(support::run_through("riser", support::multi_plane_points()));
  run->marking = Marking::each;
  const Plan plan = support::plan_of({run});
  const std::string text = bend_table_text(plan, *plan.runs[0]);
  EXPECT_NE(line_starting(text, "made  bend").find("mark   from"), std::string::npos) << text;
  EXPECT_NE(line_starting(text, "1     1   ").find("210    start end"), std::string::npos) << text;
  EXPECT_NE(line_starting(text, "2     2   ").find("152.5  back of"), std::string::npos) << text;
  EXPECT_NE(text.find("Drawings and templates give the same marks"), std::string::npos) << text;
}

// The turn by its sign meant 9 o'clock with one end on the hook and 3 with the other, and nothing when the bends are
// made out of order: people read where the formed part lies.
TEST(BendTableText, ShowsWhereTheFormedPartLiesWhateverTheOrder) {
  support::RunOptions options;
  options.order = {2, 1, 3, 4};
  const Plan plan = support::plan_of({checked(support::run_through("riser", support::multi_plane_points(), options))});
  const std::string text = bend_table_text(plan, *plan.runs[0]);
  EXPECT_NE(line_starting(text, "1     2   ").find("straight"), std::string::npos) << text;
  EXPECT_NE(line_starting(text, "2     1   ").find("bend 2 at"), std::string::npos) << text;
  EXPECT_EQ(text.find("+90°"), std::string::npos) << text;
  EXPECT_EQ(text.find("turned  "), std::string::npos) << text;
}

// Contract: `line_up` is to what the mark is held.
TEST(BendTableRows, AnyLineUpReads) {
  for (const auto& [line_up, said] :
       {std::pair("the zero line of the former", "Hold the mark to: the zero line of the former."),
        std::pair("square to the front edge of the former",
                  "Hold the mark to: square to the front edge of the former."),
        std::pair("", "The job does not say what the mark is held to: find it by a trial bend.")}) {
    support::RunOptions options;
    options.bender.line_up = line_up;
    const Plan plan =
        support::plan_of({checked(support::run_through("elbow", support::single_bend_points(), options))});
    EXPECT_EQ(bend_table_rows(plan, *plan.runs[0]).rows[0].held_text, said);
  }
}

TEST(BendTableRows, EachMarkIsTapedFromTheOutsideOfTheBendBefore) {
  auto run = checked(support::run_through("riser", support::multi_plane_points()));
  run->marking = Marking::each;
  const Plan plan = support::plan_of({run});
  const BendTableText table = bend_table_rows(plan, *plan.runs[0]);
  EXPECT_EQ(table.rows[0].mark_text, "Mark 210 mm from the start end.");
  // (55 + 7.5) tan 45 + 200 - 110 straight = 152.5 (C).
  EXPECT_EQ(table.rows[1].mark_text,
            "Hold the tape against the back of the start end's leg and measure along the far end's leg: mark at 152.5 "
            "mm.");
  EXPECT_EQ(table.rows[1].mark_from, "the back of the start end's leg");
  EXPECT_TRUE(table.rows[1].turned);
  EXPECT_EQ(table.rows[1].clock, "bend 1 at 9 (270°)");
  EXPECT_EQ(table.rows[1].points, "up");
}

// A bender that pulls a U, spring-back and all.
support::RunOptions far_reaching() {
  support::RunOptions options;
  options.bender.most_angle = Angle::degrees(190);
  return options;
}

TEST(BendTableRows, AUMayBeOnePull) {
  const std::vector<Vec3> points = {{0, 0, 0}, {0, 0, 300}, {110, 0, 300}, {110, 0, 0}};
  const Plan plan = support::plan_of({checked(support::run_through("loop", points, far_reaching()))});
  const BendTableText table = bend_table_rows(plan, *plan.runs[0]);
  EXPECT_EQ(table.rows[0].remark,
            "May be one pull of 180° with bend 2: then hold the mark of bend 1, pull to 184° and leave bend 2 out.");
  EXPECT_EQ(table.rows[1].remark, "Where bend 1 was one pull of 180°, this bend is made already: leave it out.");
  const Plan near = support::plan_of({checked(support::run_through("loop", points))});
  EXPECT_EQ(bend_table_rows(near, *near.runs[0]).rows[0].remark,
            "May be one pull of 180° with bend 2, in a bender that pulls to 184°: this one does not.");
  const Plan wider =
      support::plan_of({checked(support::run_through("loop", {{0, 0, 0}, {0, 0, 300}, {111, 0, 300}, {111, 0, 0}}))});
  EXPECT_EQ(bend_table_rows(wider, *wider.runs[0]).rows[0].remark, "");
}

// The first as made says it: from the mark on the hook's side of the two.
TEST(BendTableRows, AUMadeFromItsFarBendSaysItThere) {
  support::RunOptions options = far_reaching();
  options.order = {2, 1};
  options.hook = {End::free, End::free};
  const std::vector<Vec3> points = {{0, 0, 0}, {0, 0, 300}, {110, 0, 300}, {110, 0, 0}};
  const Plan plan = support::plan_of({checked(support::run_through("loop", points, options))});
  const BendTableText table = bend_table_rows(plan, *plan.runs[0]);
  EXPECT_EQ(table.rows[0].number, 2);
  EXPECT_TRUE(table.rows[0].remark.starts_with("May be one pull of 180° with bend 1: then hold the mark of bend 2"));
  EXPECT_TRUE(table.rows[1].remark.starts_with("Where bend 2 was one pull"));
}

TEST(BendTableRows, ARollingOffsetLeansOnTheWall) {
  auto run = checked(support::run_through("tail", support::offset_points(200, 70, Angle::degrees(45), 200)));
  run->offsets.push_back({1, 50, 70.7, 50, Angle::degrees(36.87), "right", "back"});
  const Plan plan = support::plan_of({run});
  ASSERT_EQ(bend_table_rows(plan, *plan.runs[0]).after.size(), 1u);
  EXPECT_EQ(bend_table_rows(plan, *plan.runs[0]).after[0],
            "Bends 1 and 2 are a rolling offset of 50 mm true: its plane leans 36.9° from right towards back.");
}

TEST(BendTableRows, InchJobsReadInThirtySeconds) {
  Plan plan = offset_plan();
  plan.unit = LengthUnit::inch;
  EXPECT_EQ(bend_table_rows(plan, *plan.runs[0]).rows[0].mark, "7 9/16");  // 192.22 mm = 7.568 in
}

TEST(BendTableRows, InchJobsSetATwentyFourInchRule) {
  Plan plan = support::plan_of({checked(support::run_through("elbow", support::single_bend_points()))});
  EXPECT_EQ(bend_table_rows(plan, *plan.runs[0]).rows[0].rule, "600 mm rule");
  EXPECT_EQ(bend_table_rows(plan, *plan.runs[0]).rows[0].rule_after, "424.5 mm");  // 600 cos 45 = 424.26
  plan.unit = LengthUnit::inch;
  const BendRow row = bend_table_rows(plan, *plan.runs[0]).rows[0];
  EXPECT_EQ(row.rule, "24 in rule");
  EXPECT_EQ(row.rule_hinge, "12 in");
  EXPECT_EQ(row.rule_after, "16 31/32 in");  // 24 cos 45 = 16.971
}

TEST(BendTableCsv, IsRectangularWithBomAndCrlfAndExactNumbers) {
  const Plan plan = offset_plan();
  const std::string csv = bend_table_csv(plan, *plan.runs[0]);
  EXPECT_EQ(csv.substr(0, 3), "\xEF\xBB\xBF");
  for (size_t i = 1; i < csv.size(); ++i) {
    if (csv[i] == '\n') {
      EXPECT_EQ(csv[i - 1], '\r');
    }
  }
  const auto rows = cells_of(csv);
  ASSERT_EQ(rows.size(), 1u + 1 + 2 + 1 + 1);  // head, blank, two bends, trim, likely error
  for (const auto& row : rows) EXPECT_EQ(row.size(), rows[0].size());
  EXPECT_EQ(rows[1][0], "blank");
  EXPECT_EQ(std::stod(rows[1][2]), plan.runs[0]->blank_length_mm);
  EXPECT_EQ(rows[0][5], "mark from start end (mm)");
  EXPECT_EQ(std::stod(rows[3][5]), plan.runs[0]->bends[1].mark_mm);
  EXPECT_EQ(rows[4][0], "trim far end");
  EXPECT_EQ(rows.back()[0], "likely error");
}

TEST(BendTableCsv, NoCellIsRunByASpreadsheet) {
  for (const char* name : {"=HYPERLINK(\"x\")", "+1", "-2", "@sum", "\tx"}) {
    const Plan plan = offset_plan(name);
    for (const auto& row : cells_of(bend_table_csv(plan, *plan.runs[0]))) {
      EXPECT_EQ(std::string("=+-@\t\r").find(row[1][0]), std::string::npos) << row[1];
    }
  }
}

TEST(BendTableCsv, AFailingRunHasEmptyMarksAndItsReason) {
  Plan plan = offset_plan();
  plan.findings.push_back({"clearance", Severity::fail, "tail", "tail meets the trap.", -2, 0, "mm", "", ""});
  const auto rows = cells_of(bend_table_csv(plan, *plan.runs[0]));
  EXPECT_EQ(rows[2][5], "");
  EXPECT_EQ(rows[2].back(), "NOT TO BE MADE: tail meets the trap.");
}

TEST(BendTableJson, HoldsTheExactNumbers) {
  const Plan plan = offset_plan();
  const auto json = nlohmann::json::parse(bend_table_json(plan, *plan.runs[0]));
  EXPECT_EQ(json["blank_length_mm"].get<double>(), plan.runs[0]->blank_length_mm);
  const Bend& bend = plan.runs[0]->bends[1];
  EXPECT_EQ(json["bends"][1]["mark_mm"].get<double>(), bend.mark_mm);
  EXPECT_EQ(json["bends"][1]["check"]["mm"].get<double>(), bend.check.mm);
  EXPECT_EQ(json["bends"][1]["formed"][0]["hour"], "6");
  EXPECT_EQ(json["trim"]["free_mm"], 50);
}

TEST(BendTableJson, TheLikelyErrorIsByTheRulesOfTheJob) {
  Plan plan = offset_plan();
  const auto error = [&] {
    return nlohmann::json::parse(bend_table_json(plan, *plan.runs[0]))["likely_error_mm"].get<double>();
  };
  const double usual = error();
  EXPECT_EQ(usual, likely_error(*plan.runs[0], Rules()).total_mm());
  set_limit(plan.rules, *find_limit("angle_error"), 2, "learners");
  EXPECT_GT(error(), usual + 1);
}

TEST(BendTableJson, AFailingRunHasNullMarksAndItsReason) {
  Plan plan = offset_plan();
  plan.findings.push_back({"clearance", Severity::fail, "tail", "tail meets the trap.", -2, 0, "mm", "", ""});
  const auto json = nlohmann::json::parse(bend_table_json(plan, *plan.runs[0]));
  EXPECT_TRUE(json["bends"][0]["mark_mm"].is_null());
  EXPECT_EQ(json["not_to_be_made"]["message"], "tail meets the trap.");
}

}  // namespace
}  // namespace halfhard
