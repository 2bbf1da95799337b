// The cutting problem in whole numbers (0.001 mm): every piece with one cutter loss added, every stock length too, so
// that a pattern fits where its pieces sum to no more than the stock.
#pragma once

#include <cstdint>
#include <vector>

namespace halfhard::cutting {

using Units = std::int64_t;  // 0.001 mm

struct StockProblem {
  std::vector<Units> pieces;    // distinct, descending, loss added
  std::vector<int> demand;      // one a piece length
  std::vector<Units> capacity;  // of each stock length, loss added; descending
  std::vector<Units> cost;      // the stock lengths themselves

  int piece_types() const { return static_cast<int>(pieces.size()); }
  int stock_types() const { return static_cast<int>(capacity.size()); }
};

struct Pattern {
  int stock = 0;
  std::vector<int> counts;
  friend bool operator==(const Pattern&, const Pattern&) = default;
};

// A pattern for every length cut.
using Bars = std::vector<Pattern>;

Units used(const StockProblem& problem, const Pattern& pattern);
Units cost_of(const StockProblem& problem, const Bars& bars);

// Each piece, longest first, goes where it leaves least; a new length is the shortest that it fits where
// `shortest_first`, else the longest. The better of both.
Bars best_fit_decreasing(const StockProblem& problem, const std::vector<int>& demand);

// Puts each length's pieces into the shortest stock that holds them.
void use_shortest_stock(const StockProblem& problem, Bars& bars);

// The least total of whole stock lengths that is at least `bound`. Bounds above it round up to it.
Units round_up_to_stock(const StockProblem& problem, double bound);

}  // namespace halfhard::cutting
