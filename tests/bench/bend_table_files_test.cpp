#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "exporters/bench/bend_rows.h"
#include "exporters/bench/bend_table.h"
#include "geometry/check_dimension.h"
#include "tests/support/plans.h"

namespace halfhard {
namespace {

std::shared_ptr<Run> checked(std::shared_ptr<Run> run) {
  fill_check_dimensions(*run, 3);
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
  for (const char* part :
       {"Bend table: tail",
        "Cut the blank 559.5 mm long, of which 50 mm spare at the free end and 15 mm in the fitting",
        "Lay every mark on the straight tube, each from the datum end", "never scribe it", "1. Bend 1",
        "Mark 192 mm from the datum end.", "Hold the mark square to the front edge of the former. Datum end's side on",
        "Pull to 46° for 45°; a 600 mm rule stands 552.5", "2. Bend 2", "Mark 289 mm from the datum end.",
        "bend 1's leg lies at 6 (180°)", "85 mm, within", "Last, trim the spare: 50 mm off the free end",
        "Likely error:"}) {
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
  EXPECT_EQ(text.find("Cut the blank"), std::string::npos);
}

TEST(BendTableRows, EachMarkIsTapedFromTheOutsideOfTheBendBefore) {
  auto run = checked(support::run_through("riser", support::multi_plane_points()));
  run->marking = Marking::each;
  const Plan plan = support::plan_of({run});
  const BendTableText table = bend_table_rows(plan, *plan.runs[0]);
  EXPECT_EQ(table.rows[0].mark_text, "Mark 210 mm from the datum end.");
  // (55 + 7.5) tan 45 + 200 - 110 straight = 152.5 (C).
  EXPECT_EQ(table.rows[1].mark_text, "Mark 152.5 mm from the outside of bend 1 (the back of the leg beyond it).");
  EXPECT_TRUE(table.rows[1].turned);
  EXPECT_EQ(table.rows[1].clock, "bend 1 at 9 (270°)");
  EXPECT_EQ(table.rows[1].points, "up");
}

TEST(BendTableRows, AUMayBeOnePull) {
  const std::vector<Vec3> points = {{0, 0, 0}, {0, 0, 300}, {110, 0, 300}, {110, 0, 0}};
  const Plan plan = support::plan_of({checked(support::run_through("loop", points))});
  const BendTableText table = bend_table_rows(plan, *plan.runs[0]);
  EXPECT_EQ(table.rows[0].remark, "May be one pull of 180° with bend 2.");
  EXPECT_EQ(table.rows[1].remark, "May be one pull of 180° with bend 1.");
  const Plan wider =
      support::plan_of({checked(support::run_through("loop", {{0, 0, 0}, {0, 0, 300}, {111, 0, 300}, {111, 0, 0}}))});
  EXPECT_EQ(bend_table_rows(wider, *wider.runs[0]).rows[0].remark, "");
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
  EXPECT_EQ(rows[0][5], "mark from datum end (mm)");
  EXPECT_EQ(std::stod(rows[3][5]), plan.runs[0]->bends[1].mark_mm);
  EXPECT_EQ(rows[4][0], "trim free end");
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

TEST(BendTableJson, TheLikelyErrorIsTheFindingsWhereThePlanHasOne) {
  Plan plan = offset_plan();
  plan.findings.push_back(
      {"free-end", Severity::note, "tail", "the free end may miss by 7 mm.", 7.25, 3, "mm", "", ""});
  EXPECT_EQ(nlohmann::json::parse(bend_table_json(plan, *plan.runs[0]))["likely_error_mm"], 7.25);
  EXPECT_NE(bend_table_text(plan, *plan.runs[0]).find("Likely error: the free end may miss by 7 mm."),
            std::string::npos);
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
