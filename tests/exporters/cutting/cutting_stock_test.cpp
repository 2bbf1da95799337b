#include "exporters/cutting/cutting_stock.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "exporters/cutting/cut_list.h"
#include "exporters/sheet/clashes.h"
#include "tests/support/plans.h"

namespace halfhard {
namespace {

double drawn_between(std::mt19937& engine, double low, double high) {
  return low + (high - low) * (engine() / 4294967296.0);
}

// Every piece once, no length overfilled.
void expect_sound(const CuttingPlan& plan, const std::vector<CutDemand>& demands, double loss_mm) {
  std::vector<int> cut(demands.size(), 0);
  double stock = 0;
  for (const CutPattern& pattern : plan.patterns) {
    double taken = -loss_mm;
    for (std::size_t i = 0; i < demands.size(); ++i) {
      cut[i] += pattern.counts[i] * pattern.times;
      taken += pattern.counts[i] * (demands[i].length_mm + loss_mm);
    }
    EXPECT_LE(taken, pattern.stock_mm + 1e-5);
    stock += pattern.stock_mm * pattern.times;
  }
  for (std::size_t i = 0; i < demands.size(); ++i) EXPECT_EQ(cut[i], demands[i].count) << i;
  EXPECT_NEAR(stock, plan.stock_used_mm, 1e-9);
  EXPECT_LE(plan.lower_bound_mm, plan.stock_used_mm + 1e-9);
}

TEST(PlanCuts, PiecesThatFillALengthExactlyNeedNoLastCut) {
  const std::vector<CutDemand> demands = {{999, 3}};
  const CuttingPlan plan = plan_cuts(demands, {3000}, 1.5);
  EXPECT_EQ(plan.stock_used_mm, 3000);
  EXPECT_TRUE(plan.proven);
  EXPECT_EQ(plan_cuts(demands, {3000}, 1.6).stock_used_mm, 6000);
}

TEST(PlanCuts, WhatBestFitWastesIsFound) {
  // Best fit decreasing takes three lengths; 6+4, 5+3+2 of ten takes two.
  const std::vector<CutDemand> demands = {{600, 1}, {500, 1}, {400, 1}, {300, 1}, {200, 1}};
  const CuttingPlan plan = plan_cuts(demands, {1000}, 0);
  EXPECT_EQ(plan.stock_used_mm, 2000);
  EXPECT_TRUE(plan.proven);
}

TEST(PlanCuts, TheShorterStockIsUsedWhereItWillDo) {
  const CuttingPlan plan = plan_cuts({{2900, 1}, {1900, 1}}, {3000, 2000}, 2);
  EXPECT_EQ(plan.stock_used_mm, 5000);
  EXPECT_TRUE(plan.proven);
}

TEST(PlanCuts, APieceLongerThanAnyStockIsNamedAndTheRestIsCut) {
  const CuttingPlan plan = plan_cuts({{3000.1, 1}, {3000, 1}}, {3000}, 2);
  EXPECT_EQ(plan.too_long, std::vector<int>{0});
  EXPECT_EQ(plan.stock_used_mm, 3000);
}

TEST(PlanCuts, TwoHundredUnlikePiecesAreProven) {
  for (unsigned start = 1; start <= 4; ++start) {
    SCOPED_TRACE("random start " + std::to_string(start));
    std::mt19937 engine(start);
    std::vector<CutDemand> demands;
    for (int i = 0; i < 200; ++i) demands.push_back({drawn_between(engine, 300, 1500), 1});
    const CuttingPlan plan = plan_cuts(demands, {3000}, 1);
    expect_sound(plan, demands, 1);
    EXPECT_TRUE(plan.proven);
  }
}

TEST(PlanCuts, RandomPiecesAreEachCutOnceWithinTheirLengths) {
  for (unsigned start = 1; start <= 20; ++start) {
    SCOPED_TRACE("random start " + std::to_string(start));
    std::mt19937 engine(start);
    std::vector<CutDemand> demands;
    for (int i = 0; i < 40; ++i)
      demands.push_back({drawn_between(engine, 200, 1500), 1 + static_cast<int>(engine() % 4)});
    const CuttingPlan plan = plan_cuts(demands, {3000, 6000}, 2);
    expect_sound(plan, demands, 2);
    EXPECT_TRUE(plan.proven);
  }
}

TEST(CutList, SetsMultiplyThePieces) {
  Plan plan = support::plan_of({support::run_through("rail", {{0, 0, 0}, {900, 0, 0}})});
  plan.sets = 10;
  const CutList list = cut_list({&plan});
  ASSERT_EQ(list.tubes.size(), 1u);
  EXPECT_NEAR(list.tubes[0].pieces_mm, 10 * 915, 1e-6);
  EXPECT_EQ(list.tubes[0].stock_used_mm, 4 * 3000);
  EXPECT_TRUE(list.tubes[0].proven);
  EXPECT_NE(cut_list_text(list).find("no plan uses less stock"), std::string::npos);
  EXPECT_EQ(cut_list_json(list), cut_list_json(cut_list({&plan})));
  EXPECT_EQ(cut_list_csv(list).substr(0, 3), "\xEF\xBB\xBF");
  EXPECT_FALSE(cut_list_document(list, plan).sheets.empty());
}

TEST(CutList, WhatIsLeftOverHasLostACutForEveryPiece) {
  // One piece of 1100 with 2 lost: 1898, worth keeping and no waste but the cut.
  Plan plan = support::plan_of({support::run_through("rail", {{0, 0, 0}, {1085, 0, 0}})});
  plan.stock.cutter_loss_mm = 2;
  const TubeCutList one = cut_list({&plan}).tubes[0];
  ASSERT_EQ(one.bars.size(), 1u);
  EXPECT_NEAR(one.bars[0].left_over_mm, 1898, 1e-6);
  EXPECT_NEAR(one.kept_mm, 1898, 1e-6);
  EXPECT_NEAR(one.waste_mm(), 2, 1e-6);
  EXPECT_NE(cut_list_text(cut_list({&plan})).find("left over 1898 mm, keep"), std::string::npos);

  // Two pieces that end with the bar need one cut; a hair less, two, and nothing is left of it.
  for (const double spare : {0.0, 1.0, 2.0, 10.0}) {
    plan.stock.lengths_mm = {2 * 1100 + 2 + spare};
    plan.sets = 2;
    const TubeCutList two = cut_list({&plan}).tubes[0];
    ASSERT_EQ(two.bars.size(), 1u) << spare;
    EXPECT_NEAR(two.bars[0].left_over_mm, std::max(0.0, spare - 2), 1e-6) << spare;
    EXPECT_EQ(two.kept_mm, 0) << spare;
    EXPECT_NEAR(two.waste_mm(), 2 + spare, 1e-6) << spare;
  }
}

TEST(CutList, NoStockIsAllottedToWhatIsNotToBeMade) {
  Plan plan = support::plan_of(
      {support::run_through("good rail", {{0, 0, 0}, {900, 0, 0}}),
       support::run_through("a tail of a rather long name behind the washing machine", {{0, 0, 0}, {0, 340, 0}})});
  plan.findings.push_back(
      {"clearance", Severity::fail, plan.runs[1]->name, "It runs into the trap.", 0, 0, "", "", ""});
  const CutList list = cut_list({&plan});
  ASSERT_EQ(list.tubes.size(), 1u);
  ASSERT_EQ(list.tubes[0].bars.size(), 1u);
  EXPECT_EQ(list.tubes[0].bars[0].pieces.size(), 1u);
  EXPECT_EQ(list.tubes[0].bars[0].pieces[0].run, "good rail");
  ASSERT_EQ(list.tubes[0].not_to_be_made.size(), 1u);
  EXPECT_NE(cut_list_csv(list).find("NOT TO BE MADE: It runs into the trap."), std::string::npos);
  EXPECT_NE(cut_list_json(list).find("It runs into the trap."), std::string::npos);
  const std::string text = cut_list_text(list);
  EXPECT_NE(text.find("NOT TO BE MADE: 355 mm  a tail of a rather long name"), std::string::npos) << text;
  std::string drawn;
  for (const Sheet& sheet : cut_list_document(list, plan).sheets) {
    EXPECT_TRUE(text_clashes(sheet).empty());
    for (const TextBox& box : text_boxes(sheet)) drawn += box.content + " ";
  }
  EXPECT_NE(drawn.find("NOT TO BE MADE: " + plan.runs[1]->name), std::string::npos) << drawn;
  EXPECT_NE(drawn.find("It runs into the trap."), std::string::npos) << drawn;

  plan.findings[0].where = "";
  EXPECT_TRUE(cut_list({&plan}).tubes[0].bars.empty());
  EXPECT_EQ(cut_list({&plan}).tubes[0].not_to_be_made.size(), 2u);
}

TEST(CutList, EveryPieceIsNamedInFullHoweverShort) {
  std::vector<std::shared_ptr<const halfhard::Run>> runs;
  for (int i = 0; i < 9; ++i)
    runs.push_back(support::run_through("short tail number " + std::to_string(i), {{0, 0, 0}, {0, 85.0 + i, 0}}));
  Plan plan = support::plan_of(runs);
  std::string drawn;
  for (const Sheet& sheet : cut_list_document(cut_list({&plan}), plan).sheets) {
    for (const Clash& clash : text_clashes(sheet)) ADD_FAILURE() << clash.first << " over " << clash.second;
    for (const TextBox& box : text_boxes(sheet)) drawn += box.content + "\n";
  }
  for (int i = 0; i < 9; ++i) EXPECT_NE(drawn.find("short tail number " + std::to_string(i)), std::string::npos) << i;
  EXPECT_EQ(drawn.find("..."), std::string::npos) << drawn;
}

}  // namespace
}  // namespace halfhard
