#include "exporters/cutting/pattern_search.h"

#include <algorithm>
#include <numeric>

namespace halfhard::cutting {
namespace {

constexpr int kFillSteps = 20'000;
constexpr double kBetter = 1e-12;
constexpr Units kCoarse = 100;  // 0.1 mm

class Search {
 public:
  Search(const StockProblem& problem, const std::vector<int>& most, const std::vector<double>& price, int most_steps)
      : problem_(problem), most_(most), price_(price), most_steps_(most_steps) {
    for (int type = 0; type < problem.piece_types(); ++type) {
      if (price[type] > kBetter && most[type] > 0) order_.push_back(type);
    }
    std::stable_sort(order_.begin(), order_.end(), [&](int a, int b) { return density(a) > density(b); });
    smallest_after_.assign(order_.size() + 1, INT64_MAX);
    for (int i = static_cast<int>(order_.size()) - 1; i >= 0; --i) {
      smallest_after_[i] = std::min(smallest_after_[i + 1], problem.pieces[order_[i]]);
    }
    counts_.assign(problem.piece_types(), 0);
    best_.counts = counts_;
  }

  BestPattern run(Units capacity) {
    best_.exact = true;
    visit(0, capacity, 0);
    return best_;
  }

 private:
  double density(int type) const { return price_[type] / static_cast<double>(problem_.pieces[type]); }

  void visit(std::size_t at, Units left, double value) {
    if (value > best_.value + kBetter) best_.value = value, best_.counts = counts_;
    if (at == order_.size() || left < smallest_after_[at]) return;
    if (value + static_cast<double>(left) * density(order_[at]) <= best_.value + kBetter) return;
    if (++steps_ > most_steps_) {
      best_.exact = false;
      return;
    }
    const int type = order_[at];
    const int fits = static_cast<int>(std::min<Units>(most_[type], left / problem_.pieces[type]));
    for (int n = fits; n >= 0 && (best_.exact || n == fits); --n) {
      counts_[type] = n;
      visit(at + 1, left - n * problem_.pieces[type], value + n * price_[type]);
    }
    counts_[type] = 0;
  }

  const StockProblem& problem_;
  const std::vector<int>& most_;
  const std::vector<double>& price_;
  const int most_steps_;
  std::vector<int> order_;
  std::vector<Units> smallest_after_;
  std::vector<int> counts_;
  BestPattern best_;
  int steps_ = 0;
};

}  // namespace

BestPattern best_pattern(const StockProblem& problem, const std::vector<int>& most, const std::vector<double>& price,
                         Units capacity, int most_steps) {
  return Search(problem, most, price, most_steps).run(capacity);
}

std::vector<double> value_bounds(const StockProblem& problem, const std::vector<int>& most,
                                 const std::vector<double>& price) {
  const Units largest = problem.capacity.front() / kCoarse;
  std::vector<double> best(largest + 1, 0.0);
  for (int type = 0; type < problem.piece_types(); ++type) {
    if (price[type] <= 0) continue;
    const Units length = problem.pieces[type] / kCoarse;
    const Units fits = length == 0 ? most[type] : std::min<Units>(most[type], largest / length);
    // Bounded pieces in lots of 1, 2, 4, ... and the rest.
    Units lot = 1;
    for (Units left = fits; left > 0; left -= lot, lot *= 2) {
      lot = std::min(lot, left);
      const double gain = static_cast<double>(lot) * price[type];
      for (Units at = largest; at >= lot * length; --at) best[at] = std::max(best[at], best[at - lot * length] + gain);
    }
  }
  std::vector<double> bounds;
  for (const Units capacity : problem.capacity) bounds.push_back(best[capacity / kCoarse]);
  return bounds;
}

Bars fullest_bars(const StockProblem& problem, std::vector<int> demand, double favour) {
  Bars bars;
  const double longest = static_cast<double>(problem.capacity.front());
  std::vector<double> price;
  for (const Units piece : problem.pieces) {
    const double length = static_cast<double>(piece);
    price.push_back(length * (1 + favour * length / longest));
  }
  for (int type = 0; type < problem.piece_types();) {
    if (demand[type] == 0) {
      ++type;
      continue;
    }
    --demand[type];
    Pattern fullest;
    double best = -1;
    for (int stock = 0; stock < problem.stock_types() && problem.capacity[stock] >= problem.pieces[type]; ++stock) {
      Pattern bar{
          stock,
          best_pattern(problem, demand, price, problem.capacity[stock] - problem.pieces[type], kFillSteps).counts};
      ++bar.counts[type];
      const double share = static_cast<double>(used(problem, bar)) / static_cast<double>(problem.cost[stock]);
      if (share > best) best = share, fullest = std::move(bar);
    }
    for (int other = 0; other < problem.piece_types(); ++other) demand[other] -= fullest.counts[other];
    ++demand[type];  // it was set aside before the search
    bars.push_back(std::move(fullest));
  }
  use_shortest_stock(problem, bars);
  return bars;
}

}  // namespace halfhard::cutting
