// Another way to bend a piece that meets something while it is bent: other ends on the hook, another order.
#pragma once

#include <optional>
#include <vector>

#include "geometry/plan/run.h"

namespace halfhard {

struct WayToBend {
  std::vector<End> hook;   // one a bend, by number
  std::vector<int> order;  // bend numbers in the order made
};

inline constexpr int kMostBendsReordered = 6;  // every order of so many is looked through

// The run bent so; its shape stays.
Run bent_that_way(const Run& run, const WayToBend& way);
// The way nearest to the run's own in which nothing touches and the tube is long enough at hook and lever; nothing where
// there is none, or where the piece has more bends than kMostBendsReordered.
std::optional<WayToBend> clear_way(const Run& run);

}  // namespace halfhard
