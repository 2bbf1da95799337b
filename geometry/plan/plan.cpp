#include "geometry/plan/plan.h"

#include <algorithm>

namespace halfhard {

const Finding* Plan::failure_of(const Run& run) const {
  for (const Finding& finding : findings) {
    if (finding.severity == Severity::fail && finding.concerns(run.name)) return &finding;
  }
  return nullptr;
}

const Run* Plan::run_named(const std::string& name) const {
  const auto found = std::find_if(runs.begin(), runs.end(), [&](const auto& run) { return run->name == name; });
  return found == runs.end() ? nullptr : found->get();
}

bool Plan::fails() const {
  return std::any_of(findings.begin(), findings.end(),
                     [](const Finding& finding) { return finding.severity == Severity::fail; });
}

}  // namespace halfhard
