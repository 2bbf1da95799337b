// The linear relaxation over all patterns, by column generation, and dives from it to whole numbers.
#pragma once

#include <memory>
#include <vector>

#include "exporters/cutting/cutting_stock.h"
#include "exporters/cutting/stock_problem.h"

namespace halfhard::cutting {

class PatternMaster {
 public:
  // `start` holds patterns to begin with; every piece fits the longest stock.
  PatternMaster(const StockProblem& problem, const Bars& start, const CuttingEffort& effort);
  ~PatternMaster();

  struct Relaxed {
    double bound = 0;           // in units; no plan for this demand costs less
    std::vector<double> times;  // one a pattern, fractions
  };
  // Generates patterns until none is worth more than its length; bound 0 where the rounds run out before.
  Relaxed relax(const std::vector<int>& demand, int most_rounds);

  // Fixes patterns one after another, the fullest share first, at step `change_at` the one of rank `rank` instead;
  // leaves the rest to fullest bars where that is good enough. Empty where nothing below `below` came of it.
  Bars dive(Units below, int change_at, int rank);

  const std::vector<Pattern>& patterns() const { return patterns_; }

 private:
  struct Programme;
  void add(Pattern pattern);
  bool add_priced(const std::vector<int>& demand, const std::vector<double>& price, double& bound);
  void set_demand(const std::vector<int>& demand);
  bool fix_next(const std::vector<double>& times, std::vector<int>& demand, Bars& fixed, int rank) const;

  const StockProblem& problem_;
  const CuttingEffort& effort_;
  int rounds_ = 0;
  std::vector<Pattern> patterns_;
  std::unique_ptr<Programme> programme_;
};

}  // namespace halfhard::cutting
