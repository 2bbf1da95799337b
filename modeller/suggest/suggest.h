// Paths for runs that have a `from` and a `to` and no `path`. A pure function of the job and its plan.
//
// Candidates come from families that a plumber would try: straight; one bend; an offset between ends in one direction; a
// passover between ends in line; legs along three square directions with 90s, laid beside fixtures and other pipes at their clearances; an offset of 45,
// 30 or 60 in a leg of an L or beside a dog-leg of two 90s; and, where the ends are askew or nothing else does, three legs at whatever angles.
// Each is held to the bender and to every clearance by the same code as a run in the job, at last by the planner itself:
// what is suggested, put into the job, gives no failing finding. Ranked by fewest bends, then shortest cut length, then
// greatest least clearance. Not every possible path is tried, so none found does not prove that there is none.
// Lengths mm, site frame.
#pragma once

#include <string>
#include <vector>

#include "modeller/job/job.h"

namespace halfhard {

struct SuggestedPath {
  std::vector<PathStep> steps;
  int bends = 0;
  double cut_length_mm = 0;
  double least_clearance_mm = 0;    // to whatever is nearest, drilled bodies left out; infinite where there is nothing
  std::string nearest;              // what that is
  std::vector<std::string> drills;  // fixtures that the run goes through
};

inline constexpr int kMostSuggestions = 5;

// Best first, at most kMostSuggestions. Requires that the job plans without problems and that the run has a `to`.
std::vector<SuggestedPath> suggest_paths(const Job& job, const std::string& run_name);

}  // namespace halfhard
