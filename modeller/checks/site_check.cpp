#include "modeller/checks/site_check.h"

#include <cmath>

#include "modeller/checks/saying.h"

namespace halfhard {

void check_site_checks(const PlanContext& context, std::vector<Finding>& findings) {
  const auto& [plan, job] = context;
  const Rule& tape = job.rules.tape_error;
  for (const SiteCheck& check : plan.site_checks) {
    const bool own = check.within_mm > 0;
    const double within = own ? check.within_mm : tape.value;
    const double off = std::abs(check.computed_mm - check.measured_mm);
    if (off <= within + kEnough_mm) continue;
    findings.push_back(say_of_job(
        "site-check", Severity::fail,
        "From " + check.from_text + " to " + check.to_text + " was taped as " +
            length_beside(check.measured_mm, check.computed_mm, job) + " and the job's coordinates make it " +
            length(check.computed_mm, job) + ", " + length_beside(off, within, job) + " out where " +
            length(within, job) + " is allowed: measure again before anything is cut" + (own ? "" : tape.remark) + ".",
        {off, within, "mm", own ? "`within` of the site check" : tape.source}, check.pointer));
  }
}

}  // namespace halfhard
