// Paths for runs that have a `from` and a `to` and no `path`. A pure function of the job and its plan.
//
// Looked for, in this order: straight; one bend; offsets, passovers; every sequence of legs at standard angles (90, 45, 30,
// 60, 22.5, 120) with two, three and four bends, lengths solved exactly and what stays free tried at a stated step; legs
// from both ends joined at whatever angles; square legs with up to six bends laid beside what is in the way.
// Each is held to the bender and to every clearance by the same code as a run in the job, at last by the planner itself:
// what is suggested, put into the job, gives no failing finding. Ranked by fewest bends, then standard angles, then
// shortest cut length, then greatest least clearance. None found proves that there is none with kCompleteToBends bends or fewer, for ends whose
// lines meet within 0.05 mm; for more it proves nothing. A budget of work, not of time: the same job gives the same
// paths. Lengths mm, site frame.
#pragma once

#include <string>
#include <vector>

#include "modeller/job/job.h"

namespace halfhard {

struct SuggestedPath {
  std::vector<PathStep> steps;
  int bends = 0;
  std::vector<double> angles_deg;  // finished, from the start end
  std::string why;                 // why it stands where it does, a sentence
  double cut_length_mm = 0;
  double least_clearance_mm = 0;    // to whatever is nearest, drilled bodies left out; infinite where there is nothing
  std::string nearest;              // what that is
  std::vector<std::string> drills;  // fixtures that the run goes through
};

inline constexpr int kMostSuggestions = 5;

inline constexpr int kCompleteToBends = 1;

struct Suggested {
  std::vector<SuggestedPath> paths;     // best first, at most kMostSuggestions
  std::vector<std::string> stopped_by;  // where there are none: what would have to give, in words
};

// Requires that the job plans without problems and that the run has a `to`.
Suggested suggest_for(const Job& job, const std::string& run_name);
// The paths alone.
std::vector<SuggestedPath> suggest_paths(const Job& job, const std::string& run_name);

}  // namespace halfhard
