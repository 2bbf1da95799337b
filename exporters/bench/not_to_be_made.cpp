#include "exporters/bench/not_to_be_made.h"

namespace halfhard {

std::vector<const Finding*> failures_of(const Plan& plan, const Run& run) {
  std::vector<const Finding*> found;
  for (const Finding& finding : plan.findings) {
    if (finding.severity == Severity::fail && finding.concerns(run.name)) found.push_back(&finding);
  }
  return found;
}

std::vector<std::string> reasons_not_to_make(const Plan& plan, const Run& run) {
  std::vector<std::string> reasons;
  for (const Finding* finding : failures_of(plan, run))
    reasons.push_back((reasons.empty() ? "NOT TO BE MADE: " : "Also: ") + finding->message);
  return reasons;
}

std::string not_to_be_made(const Plan& plan, const Run& run) {
  std::string text;
  for (const std::string& reason : reasons_not_to_make(plan, run)) text += (text.empty() ? "" : " ") + reason;
  return text;
}

std::string not_to_be_made_in_short(const Plan& plan, const Run& run) {
  const std::vector<std::string> reasons = reasons_not_to_make(plan, run);
  if (reasons.empty()) return "";
  if (reasons.size() == 1) return reasons[0];
  return reasons[0] + " And " + std::to_string(reasons.size() - 1) + " more: see the findings.";
}

}  // namespace halfhard
