#include "exporters/cutting/cutting_stock.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "exporters/cutting/pattern_choice.h"
#include "exporters/cutting/pattern_master.h"
#include "exporters/cutting/pattern_search.h"
#include "exporters/cutting/stock_problem.h"
#include "geometry/base/require.h"

namespace halfhard {
namespace {

using namespace cutting;

constexpr double kUnitsPerMm = 1000;
constexpr double kRounding = 1e-3;  // of a unit: what arithmetic leaves on a length that is meant to be whole

Units rounded_up(double mm) { return static_cast<Units>(std::ceil(mm * kUnitsPerMm - kRounding)); }
Units rounded_down(double mm) { return static_cast<Units>(std::floor(mm * kUnitsPerMm + kRounding)); }

// The problem, and which demands each of its piece lengths stands for.
struct Grouped {
  StockProblem problem;
  std::vector<std::vector<int>> demands;
  std::vector<int> too_long;
};

Grouped grouped(const std::vector<CutDemand>& demands, std::vector<double> stock_mm, double loss_mm) {
  Grouped group;
  std::sort(stock_mm.begin(), stock_mm.end(), std::greater<>());
  stock_mm.erase(std::unique(stock_mm.begin(), stock_mm.end()), stock_mm.end());
  const Units loss = rounded_up(loss_mm);
  for (const double stock : stock_mm) {
    group.problem.cost.push_back(rounded_down(stock));
    group.problem.capacity.push_back(rounded_down(stock) + loss);
  }
  std::map<Units, std::vector<int>, std::greater<>> by_length;
  for (int i = 0; i < static_cast<int>(demands.size()); ++i) {
    HALFHARD_REQUIRE(demands[i].length_mm > 0 && demands[i].count > 0);
    const Units length = rounded_up(demands[i].length_mm) + loss;
    if (stock_mm.empty() || length > group.problem.capacity.front()) {
      group.too_long.push_back(i);
    } else {
      by_length[length].push_back(i);
    }
  }
  for (auto& [length, indices] : by_length) {
    group.problem.pieces.push_back(length);
    group.problem.demand.push_back(
        std::accumulate(indices.begin(), indices.end(), 0, [&](int sum, int i) { return sum + demands[i].count; }));
    group.demands.push_back(std::move(indices));
  }
  return group;
}

struct Solved {
  Bars bars;
  Units bound = 0;
  bool proven(const StockProblem& problem) const { return cost_of(problem, bars) <= bound; }
};

Bars bars_of(const std::vector<Pattern>& patterns, const std::vector<int>& times, std::vector<int> demand) {
  Bars bars;
  for (std::size_t i = 0; i < patterns.size(); ++i) {
    for (int n = 0; n < times[i]; ++n) {
      Pattern bar = patterns[i];
      int pieces = 0;
      for (std::size_t type = 0; type < demand.size(); ++type) {
        bar.counts[type] = std::min(bar.counts[type], demand[type]);
        demand[type] -= bar.counts[type];
        pieces += bar.counts[type];
      }
      if (pieces > 0) bars.push_back(std::move(bar));
    }
  }
  return bars;
}

void take_if_better(const StockProblem& problem, Bars bars, Solved& solved) {
  if (bars.empty()) return;
  use_shortest_stock(problem, bars);
  if (cost_of(problem, bars) < cost_of(problem, solved.bars)) solved.bars = std::move(bars);
}

void choose(const StockProblem& problem, const std::vector<Pattern>& patterns, bool all, const CuttingEffort& effort,
            Solved& solved) {
  const PatternChoice choice =
      choose_patterns(problem, patterns, problem.demand, cost_of(problem, solved.bars), effort.most_nodes);
  if (!choice.times.empty()) take_if_better(problem, bars_of(patterns, choice.times, problem.demand), solved);
  if (all) solved.bound = std::max(solved.bound, round_up_to_stock(problem, choice.bound));
}

Solved solve(const StockProblem& problem, const CuttingEffort& effort) {
  Solved solved;
  solved.bars = best_fit_decreasing(problem, problem.demand);
  // No plan uses less than the pieces measure; loss is part of capacity, so it is scaled alike.
  const double pieces = static_cast<double>(
      std::inner_product(problem.pieces.begin(), problem.pieces.end(), problem.demand.begin(), Units{0}));
  double best_share = 0;
  for (int s = 0; s < problem.stock_types(); ++s) {
    best_share = std::max(best_share, static_cast<double>(problem.capacity[s]) / static_cast<double>(problem.cost[s]));
  }
  solved.bound = round_up_to_stock(problem, pieces / best_share);
  for (const double favour : {0.0, 0.05, 0.2, 1.0}) {
    if (solved.proven(problem)) return solved;
    take_if_better(problem, fullest_bars(problem, problem.demand, favour), solved);
  }
  if (solved.proven(problem)) return solved;

  PatternMaster master(problem, solved.bars, effort);
  solved.bound =
      std::max(solved.bound, round_up_to_stock(problem, master.relax(problem.demand, effort.most_rounds / 2).bound));
  for (int dive = 0; dive < effort.most_dives && !solved.proven(problem); ++dive) {
    // The plain dive, then second and third choices at the first steps.
    take_if_better(problem,
                   master.dive(cost_of(problem, solved.bars), (dive - 1) / 2, dive == 0 ? 0 : 1 + (dive - 1) % 2),
                   solved);
  }
  if (!solved.proven(problem)) choose(problem, master.patterns(), false, effort, solved);
  if (!solved.proven(problem)) {
    const std::vector<Pattern> all = all_full_patterns(problem, effort.most_whole_patterns);
    if (!all.empty()) choose(problem, all, true, effort, solved);
  }
  return solved;
}

// Gives the grouped pieces back to their demands, in the order of the demands.
std::vector<CutPattern> handed_back(const Grouped& group, const std::vector<CutDemand>& demands, Bars bars,
                                    const std::vector<double>& stock_mm) {
  const StockProblem& problem = group.problem;
  std::sort(bars.begin(), bars.end(), [&](const Pattern& a, const Pattern& b) {
    if (a.stock != b.stock) return a.stock < b.stock;
    const Units used_a = used(problem, a), used_b = used(problem, b);
    return used_a != used_b ? used_a > used_b : a.counts > b.counts;
  });
  std::vector<int> left;
  for (const CutDemand& demand : demands) left.push_back(demand.count);
  std::vector<CutPattern> patterns;
  for (const Pattern& bar : bars) {
    CutPattern pattern;
    pattern.stock_mm = stock_mm[bar.stock];
    pattern.counts.assign(demands.size(), 0);
    for (int type = 0; type < problem.piece_types(); ++type) {
      int needs = bar.counts[type];
      for (const int i : group.demands[type]) {
        const int taken = std::min(needs, left[i]);
        pattern.counts[i] += taken;
        left[i] -= taken;
        needs -= taken;
      }
      HALFHARD_REQUIRE(needs == 0);
    }
    if (!patterns.empty() && patterns.back().stock_mm == pattern.stock_mm && patterns.back().counts == pattern.counts) {
      ++patterns.back().times;
    } else {
      patterns.push_back(std::move(pattern));
    }
  }
  return patterns;
}

}  // namespace

CuttingPlan plan_cuts(const std::vector<CutDemand>& demands, const std::vector<double>& stock_lengths_mm,
                      double cutter_loss_mm, const CuttingEffort& effort) {
  HALFHARD_REQUIRE(cutter_loss_mm >= 0);
  const Grouped group = grouped(demands, stock_lengths_mm, cutter_loss_mm);
  CuttingPlan plan;
  plan.too_long = group.too_long;
  if (group.problem.pieces.empty()) {
    plan.proven = true;
    return plan;
  }
  const Solved solved = solve(group.problem, effort);
  std::vector<double> stock_mm = stock_lengths_mm;
  std::sort(stock_mm.begin(), stock_mm.end(), std::greater<>());
  stock_mm.erase(std::unique(stock_mm.begin(), stock_mm.end()), stock_mm.end());
  plan.patterns = handed_back(group, demands, solved.bars, stock_mm);
  for (const CutPattern& pattern : plan.patterns) plan.stock_used_mm += pattern.stock_mm * pattern.times;
  plan.proven = solved.proven(group.problem);
  plan.lower_bound_mm = plan.proven ? plan.stock_used_mm : static_cast<double>(solved.bound) / kUnitsPerMm;
  return plan;
}

}  // namespace halfhard
