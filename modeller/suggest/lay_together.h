// Several runs without a path, laid together so that none takes another's only way. Lengths mm, site frame.
#pragma once

#include <string>
#include <vector>

#include "modeller/job/job.h"
#include "modeller/suggest/suggest.h"

namespace halfhard {

struct RunSuggestions {
  std::string run;
  Suggested found;
};

// In the job's order. Each run keeps clear of the path that is taken of the others: the `take`-th (from 1), or the last
// where there are fewer. Where a run finds none, other orders are tried (all of them up to four runs, else each of the
// runs first), and other paths of the first run; the set with most runs found is kept, then with fewest bends, then the
// shortest. Requires what suggest_for() does.
std::vector<RunSuggestions> lay_together(const Job& job, const std::vector<std::string>& names, int take = 1);

}  // namespace halfhard
