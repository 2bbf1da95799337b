// The most valuable way to cut one length, when every piece has a price: a bounded knapsack.
#pragma once

#include <vector>

#include "exporters/cutting/stock_problem.h"

namespace halfhard::cutting {

struct BestPattern {
  std::vector<int> counts;
  double value = 0;
  bool exact = false;  // no pattern is worth more
};

inline constexpr int kSearchSteps = 100'000;

// Branch and bound by value for length, given up after a number of steps.
BestPattern best_pattern(const StockProblem& problem, const std::vector<int>& most, const std::vector<double>& price,
                         Units capacity, int most_steps = kSearchSteps);

// For each stock a value that no pattern exceeds: the knapsack with lengths rounded down to 0.1 mm, by dynamic
// programming.
std::vector<double> value_bounds(const StockProblem& problem, const std::vector<int>& most,
                                 const std::vector<double>& price);

// Bar after bar: the longest piece left, then what fills the bar best. `favour` above 0 fills with long pieces first.
Bars fullest_bars(const StockProblem& problem, std::vector<int> demand, double favour);

}  // namespace halfhard::cutting
