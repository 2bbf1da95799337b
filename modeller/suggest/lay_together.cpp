#include "modeller/suggest/lay_together.h"

#include <algorithm>
#include <numeric>
#include <optional>
#include <tuple>

namespace halfhard {
namespace {

struct Set {
  std::vector<RunSuggestions> runs;  // in the order of the names
  int missing = 0, bends = 0;
  double length_mm = 0;
  auto rank() const { return std::tuple(missing, bends, length_mm); }
};

void put_into(Job& job, const std::string& name, const std::vector<PathStep>& steps) {
  for (JobRun& run : job.runs) {
    if (run.name != name) continue;
    run.path = steps;
    run.has_path = true;
  }
}

// The first of the order takes path number `first_takes`, all others number `take`, both from 1.
Set laid(const Job& job, const std::vector<std::string>& names, const std::vector<std::size_t>& order, int first_takes,
         int take) {
  Set set;
  set.runs.resize(names.size());
  Job now = job;
  bool first = true;
  for (const std::size_t index : order) {
    RunSuggestions& run = set.runs[index];
    run = {names[index], suggest_for(now, names[index])};
    const int wanted = first ? first_takes : take;
    first = false;
    if (run.found.paths.empty()) {
      ++set.missing;
      continue;
    }
    const std::size_t taken = std::min<std::size_t>(wanted, run.found.paths.size()) - 1;
    set.bends += run.found.paths[taken].bends;
    set.length_mm += run.found.paths[taken].cut_length_mm;
    put_into(now, names[index], run.found.paths[taken].steps);
    // What is taken in the end stands first.
    if (wanted != take) std::swap(run.found.paths[0], run.found.paths[taken]);
  }
  return set;
}

}  // namespace

std::vector<RunSuggestions> lay_together(const Job& job, const std::vector<std::string>& names, int take) {
  std::vector<std::size_t> order(names.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  Set best = laid(job, names, order, take, take);
  if (best.missing == 0 || names.size() < 2) return best.runs;
  const auto offer = [&](const std::vector<std::size_t>& tried, int first_takes) {
    Set set = laid(job, names, tried, first_takes, take);
    if (set.rank() < best.rank()) best = std::move(set);
    return best.missing == 0;
  };
  if (names.size() <= 4) {
    while (std::next_permutation(order.begin(), order.end())) {
      if (offer(order, take)) return best.runs;
    }
  } else {
    for (std::size_t first = 1; first < names.size(); ++first) {
      std::rotate(order.begin(), order.begin() + static_cast<std::ptrdiff_t>(first),
                  order.begin() + static_cast<std::ptrdiff_t>(first) + 1);
      if (offer(order, take)) return best.runs;
      std::iota(order.begin(), order.end(), std::size_t{0});
    }
  }
  std::iota(order.begin(), order.end(), std::size_t{0});
  for (int first_takes = 2; take == 1 && first_takes <= kMostSuggestions; ++first_takes) {
    if (offer(order, first_takes)) break;
  }
  return best.runs;
}

}  // namespace halfhard
