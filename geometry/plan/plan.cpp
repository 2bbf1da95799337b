#include "geometry/plan/plan.h"

#include <algorithm>

namespace halfhard {

const Finding* Plan::failure_of(const Run& run) const {
  for (const Finding& finding : findings) {
    if (finding.severity == Severity::fail && finding.concerns(run.name)) return &finding;
  }
  return nullptr;
}

bool Plan::fails() const {
  return std::any_of(findings.begin(), findings.end(),
                     [](const Finding& finding) { return finding.severity == Severity::fail; });
}

}  // namespace halfhard
