// One fit of every reading of every trial bend: radius, mark offset, and of each trial its own angle, its tube and where
// its curve starts.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "modeller/bench/calibrate.h"

namespace halfhard {

struct TrialFit {
  std::optional<Estimate> radius, mark_offset;  // nothing where no reading shows it
  std::vector<std::optional<Angle>> got;        // one a trial, as all its readings have it
  bool contradictory = false;                   // by the chi-square test
  int worst_trial = 0;                          // 1-based: the one that fits the others least
};
TrialFit fit_trials(const Trial& trial);

}  // namespace halfhard
