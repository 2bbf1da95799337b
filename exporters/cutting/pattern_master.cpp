#include "exporters/cutting/pattern_master.h"

#include <coin/ClpSimplex.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "exporters/cutting/pattern_search.h"

namespace halfhard::cutting {
namespace {

constexpr double kWorthMore = 1e-7;  // reduced cost, in longest stock lengths
constexpr double kWhole = 1e-6;
constexpr int kPatternsARound = 20;
constexpr int kQuickSteps = 5'000;
constexpr double kNearlyOne = 0.7;  // a share of a pattern that a dive takes as one
constexpr int kRoundsAStep = 12;    // of a dive: its relaxations need not be exact

}  // namespace

struct PatternMaster::Programme {
  ClpSimplex simplex;
};

PatternMaster::PatternMaster(const StockProblem& problem, const Bars& start, const CuttingEffort& effort)
    : problem_(problem), effort_(effort), programme_(std::make_unique<Programme>()) {
  ClpSimplex& simplex = programme_->simplex;
  simplex.setLogLevel(0);
  simplex.resize(problem.piece_types(), 0);
  for (int type = 0; type < problem.piece_types(); ++type) {
    simplex.setRowBounds(type, problem.demand[type], COIN_DBL_MAX);
    // One piece alone keeps every demand coverable.
    Pattern alone{0, std::vector<int>(problem.piece_types(), 0)};
    alone.counts[type] = 1;
    add(std::move(alone));
  }
  for (const Pattern& pattern : start) add(pattern);
}

PatternMaster::~PatternMaster() = default;

void PatternMaster::add(Pattern pattern) {
  std::vector<int> rows;
  std::vector<double> counts;
  for (int type = 0; type < problem_.piece_types(); ++type) {
    if (pattern.counts[type] == 0) continue;
    rows.push_back(type);
    counts.push_back(pattern.counts[type]);
  }
  const double cost = static_cast<double>(problem_.cost[pattern.stock]) / static_cast<double>(problem_.cost.front());
  programme_->simplex.addColumn(static_cast<int>(rows.size()), rows.data(), counts.data(), 0.0, COIN_DBL_MAX, cost);
  patterns_.push_back(std::move(pattern));
}

void PatternMaster::set_demand(const std::vector<int>& demand) {
  ClpSimplex& simplex = programme_->simplex;
  for (int type = 0; type < problem_.piece_types(); ++type) {
    simplex.setRowBounds(type, demand[type], COIN_DBL_MAX);
  }
  for (int i = 0; i < static_cast<int>(patterns_.size()); ++i) {
    bool proper = true;
    for (int type = 0; proper && type < problem_.piece_types(); ++type) {
      proper = patterns_[i].counts[type] <= demand[type];
    }
    simplex.setColumnBounds(i, 0.0, proper ? COIN_DBL_MAX : 0.0);
  }
}

// Adds patterns that are worth more than they cost: the best of each stock, then the best of what those leave, so that
// one round brings many that do not compete. Where there is none, `bound` becomes the value of the demand at prices
// scaled down until no pattern is worth more (Farley).
bool PatternMaster::add_priced(const std::vector<int>& demand, const std::vector<double>& price, double& bound) {
  bool added = false, exact = true;
  std::vector<double> worth(problem_.stock_types());
  for (int stock = 0; stock < problem_.stock_types(); ++stock) {
    const double cost = static_cast<double>(problem_.cost[stock]) / static_cast<double>(problem_.cost.front());
    std::vector<int> left = demand;
    for (int many = 0; many < kPatternsARound; ++many) {
      BestPattern best =
          best_pattern(problem_, left, price, problem_.capacity[stock], many == 0 ? kSearchSteps : kQuickSteps);
      if (many == 0) worth[stock] = best.value, exact = exact && best.exact;
      if (best.value <= cost + kWorthMore) break;
      for (int type = 0; type < problem_.piece_types(); ++type) {
        if (best.counts[type] > 0) left[type] = 0;
      }
      add({stock, std::move(best.counts)});
      added = true;
    }
  }
  if (added) return true;
  if (!exact) worth = value_bounds(problem_, demand, price);
  double share = 1;
  for (int stock = 0; stock < problem_.stock_types(); ++stock) {
    const double cost = static_cast<double>(problem_.cost[stock]) / static_cast<double>(problem_.cost.front());
    if (worth[stock] > cost) share = std::min(share, cost / worth[stock]);
  }
  bound = share * std::inner_product(price.begin(), price.end(), demand.begin(), 0.0) *
          static_cast<double>(problem_.cost.front());
  return false;
}

PatternMaster::Relaxed PatternMaster::relax(const std::vector<int>& demand, int most_rounds) {
  ClpSimplex& simplex = programme_->simplex;
  set_demand(demand);
  Relaxed relaxed;
  simplex.dual();
  for (int round = 0;; ++round) {
    simplex.primal(1);
    ++rounds_;
    std::vector<double> price(simplex.getRowPrice(), simplex.getRowPrice() + problem_.piece_types());
    for (double& one : price) one = std::max(0.0, one);
    if (round + 1 >= most_rounds || !add_priced(demand, price, relaxed.bound)) break;
  }
  const double* times = simplex.getColSolution();
  relaxed.times.assign(times, times + simplex.numberColumns());
  relaxed.times.resize(patterns_.size(), 0.0);
  return relaxed;
}

bool PatternMaster::fix_next(const std::vector<double>& times, std::vector<int>& demand, Bars& fixed, int rank) const {
  const auto fix = [&](int i, int count) {
    for (int n = 0; n < count; ++n) {
      Pattern bar = patterns_[i];
      bool useful = false;
      for (int type = 0; type < problem_.piece_types(); ++type) {
        bar.counts[type] = std::min(bar.counts[type], demand[type]);
        demand[type] -= bar.counts[type];
        useful = useful || bar.counts[type] > 0;
      }
      if (useful) fixed.push_back(std::move(bar));
    }
  };
  bool any = false;
  std::vector<int> open;
  for (int i = 0; i < static_cast<int>(times.size()); ++i) {
    const int whole = static_cast<int>(times[i] + 1 - kNearlyOne);
    if (whole > 0) fix(i, whole), any = true;
    if (times[i] - whole > kWhole) open.push_back(i);
  }
  if (any && rank == 0) return true;
  if (open.empty()) return any;
  std::stable_sort(open.begin(), open.end(), [&](int a, int b) {
    return times[a] - std::floor(times[a] + kWhole) > times[b] - std::floor(times[b] + kWhole);
  });
  fix(open[std::min<std::size_t>(rank, open.size() - 1)], 1);
  return true;
}

Bars PatternMaster::dive(Units below, int change_at, int rank) {
  std::vector<int> demand = problem_.demand;
  Bars fixed;
  for (int step = 0;; ++step) {
    for (const double favour : {0.0, 0.1}) {
      const Bars rest = fullest_bars(problem_, demand, favour);
      if (cost_of(problem_, fixed) + cost_of(problem_, rest) >= below) continue;
      fixed.insert(fixed.end(), rest.begin(), rest.end());
      return fixed;
    }
    const bool none_left = std::all_of(demand.begin(), demand.end(), [](int count) { return count == 0; });
    if (none_left || rounds_ >= effort_.most_rounds) return {};
    const Relaxed relaxed = relax(demand, kRoundsAStep);
    if (cost_of(problem_, fixed) + round_up_to_stock(problem_, relaxed.bound) >= below) return {};
    if (!fix_next(relaxed.times, demand, fixed, step == change_at ? rank : 0)) return {};
  }
}

}  // namespace halfhard::cutting
