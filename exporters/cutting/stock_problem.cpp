#include "exporters/cutting/stock_problem.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace halfhard::cutting {
namespace {

// Sums of stock lengths are listed up to this many steps of their common divisor.
constexpr Units kMostSteps = 1'000'000;

struct OpenBar {
  Pattern pattern;
  Units left = 0;
};

Bars best_fit(const StockProblem& problem, const std::vector<int>& demand, bool shortest_first) {
  std::vector<OpenBar> open;
  const auto open_for = [&](Units piece) {
    int stock = 0;
    for (int s = 0; s < problem.stock_types(); ++s) {
      if (shortest_first && problem.capacity[s] >= piece) stock = s;
    }
    open.push_back({{stock, std::vector<int>(problem.piece_types(), 0)}, problem.capacity[stock]});
    return static_cast<int>(open.size()) - 1;
  };
  for (int type = 0; type < problem.piece_types(); ++type) {
    const Units piece = problem.pieces[type];
    for (int n = 0; n < demand[type]; ++n) {
      int best = -1;
      for (int i = 0; i < static_cast<int>(open.size()); ++i) {
        if (open[i].left >= piece && (best < 0 || open[i].left < open[best].left)) best = i;
      }
      if (best < 0) best = open_for(piece);
      open[best].left -= piece;
      ++open[best].pattern.counts[type];
    }
  }
  Bars bars;
  for (OpenBar& bar : open) bars.push_back(std::move(bar.pattern));
  use_shortest_stock(problem, bars);
  return bars;
}

}  // namespace

Units used(const StockProblem& problem, const Pattern& pattern) {
  return std::inner_product(problem.pieces.begin(), problem.pieces.end(), pattern.counts.begin(), Units{0});
}

Units cost_of(const StockProblem& problem, const Bars& bars) {
  return std::accumulate(bars.begin(), bars.end(), Units{0},
                         [&](Units sum, const Pattern& bar) { return sum + problem.cost[bar.stock]; });
}

Bars best_fit_decreasing(const StockProblem& problem, const std::vector<int>& demand) {
  Bars longest = best_fit(problem, demand, false);
  if (problem.stock_types() == 1) return longest;
  Bars shortest = best_fit(problem, demand, true);
  return cost_of(problem, shortest) < cost_of(problem, longest) ? shortest : longest;
}

void use_shortest_stock(const StockProblem& problem, Bars& bars) {
  for (Pattern& bar : bars) {
    const Units needs = used(problem, bar);
    while (bar.stock + 1 < problem.stock_types() && problem.capacity[bar.stock + 1] >= needs) ++bar.stock;
  }
}

Units round_up_to_stock(const StockProblem& problem, double bound) {
  Units step = 0;
  for (const Units cost : problem.cost) step = std::gcd(step, cost);
  // A bound that rounding has lifted by a hair must not cost a length.
  const double steps = std::max(0.0, bound / static_cast<double>(step));
  const Units least = static_cast<Units>(std::ceil(steps - 1e-7 * std::max(1.0, steps)));
  const Units longest = problem.cost.front() / step;
  if (least + longest > kMostSteps) return least * step;
  std::vector<char> reached(least + longest + 1, 0);
  reached[0] = 1;
  for (Units sum = 0; sum < static_cast<Units>(reached.size()); ++sum) {
    if (!reached[sum]) continue;
    if (sum >= least) return sum * step;
    for (const Units cost : problem.cost) {
      const Units next = sum + cost / step;
      if (next < static_cast<Units>(reached.size())) reached[next] = 1;
    }
  }
  return least * step;
}

}  // namespace halfhard::cutting
