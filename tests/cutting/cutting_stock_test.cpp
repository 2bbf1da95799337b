#include "exporters/cutting/cutting_stock.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "exporters/cutting/cut_list.h"
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

}  // namespace
}  // namespace halfhard
