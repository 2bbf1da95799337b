// Cutting pieces from stock lengths with the least stock used: which pieces from which length.
// A saw or pipe cutter takes `cutter_loss_mm` between two pieces and between a piece and what is left over; a piece that
// uses a length up to its end needs no last cut. Lengths count to 0.001 mm, pieces rounded up.
// Guarantees: every piece that fits any stock is cut exactly once; `lower_bound_mm` is never above the least possible;
// `proven` only where the two meet. Deterministic: effort is limited by counts, never by the clock, on one thread.
// Method: identical pieces grouped; best fit decreasing; the linear relaxation over all patterns by column generation
// (Gilmore and Gomory 1961; bound by Farley 1990); diving with few changes of mind; a mixed integer programme over the
// patterns met, and over all patterns where those are few, by CBC.
#pragma once

#include <string>
#include <vector>

namespace halfhard {

struct CutDemand {
  double length_mm = 0;  // above 0
  int count = 1;         // at least 1
};

// One way to cut a length, and how many lengths are cut so.
struct CutPattern {
  double stock_mm = 0;
  std::vector<int> counts;  // one a demand
  int times = 1;
};

// Counts, not seconds; 200 pieces take milliseconds, seconds where hardly any waste is possible.
struct CuttingEffort {
  int most_rounds = 4000;  // of column generation, a linear programme each
  int most_dives = 24;
  int most_nodes = 2000;           // of a mixed integer programme
  int most_whole_patterns = 3000;  // up to which all patterns are listed
};

struct CuttingPlan {
  std::vector<CutPattern> patterns;  // longest stock first, then fullest; leftovers last
  std::vector<int> too_long;         // indices of demands that no stock is long enough for
  double stock_used_mm = 0;
  double lower_bound_mm = 0;  // no plan uses less stock
  bool proven = false;        // stock_used_mm is the least possible
};

// Requires: stock lengths above 0, cutter loss not negative. Empty stock: every piece is too long.
CuttingPlan plan_cuts(const std::vector<CutDemand>& demands, const std::vector<double>& stock_lengths_mm,
                      double cutter_loss_mm, const CuttingEffort& effort = {});

}  // namespace halfhard
