// Chooses whole numbers of given patterns: a mixed integer programme, solved by CBC.
#pragma once

#include <vector>

#include "exporters/cutting/stock_problem.h"

namespace halfhard::cutting {

struct PatternChoice {
  std::vector<int> times;  // one a pattern; empty where nothing better than `below` was found
  double bound = 0;        // no choice of these patterns costs less, in units
};

// Least total cost of patterns that cover `demand`, below `below`; given up after `most_nodes` nodes.
PatternChoice choose_patterns(const StockProblem& problem, const std::vector<Pattern>& patterns,
                              const std::vector<int>& demand, Units below, int most_nodes);

// Every pattern that no further piece fits into, or nothing where there are more than `most`.
std::vector<Pattern> all_full_patterns(const StockProblem& problem, int most);

}  // namespace halfhard::cutting
