// The published rules for holes and notches in solid timber joists, each by itself.
#pragma once

#include <string>
#include <vector>

#include "modeller/checks/joists.h"

namespace halfhard {

struct JoistBreach {
  std::string tells;  // "is nearer to the support than 750 mm"
  double value = 0, limit = 0;
  std::string unit;
  std::string source;
  std::string remark;  // the job's own reason, where it sets the limit
  bool never = false;  // this joist is not to be cut at all
};

// Approved Document A method (LABC): notch 0.07-0.25 of span from the support, no deeper than 0.125 of the depth and
// 35 mm; hole 0.25-0.40 of span, on the centre line within the job's length tolerance, no larger than 0.25 of the depth
// and 65 mm; joists of 100 mm or less left whole. The job's limits apply.
std::vector<JoistBreach> british_breaches(const JoistCut& cut, const Job& job);
// NHBC 6.4.18, notches only: 0.1-0.2 of span, no deeper than 0.15 of the depth.
std::vector<JoistBreach> second_british_breaches(const JoistCut& cut);
// IRC R502.8.1: notch no deeper than a sixth of the depth, none in the middle third; hole no larger than a third, 2 in
// from the edges.
std::vector<JoistBreach> american_breaches(const JoistCut& cut);

// One sentence with the figures of all of them for this joist.
std::string joist_rules_text(const JoistCut& cut, const Job& job);

}  // namespace halfhard
