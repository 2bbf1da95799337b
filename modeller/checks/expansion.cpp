#include "modeller/checks/expansion.h"

#include "geometry/flow/growth.h"
#include "modeller/checks/saying.h"

namespace halfhard {
namespace {

bool runs_hot(Service service) {
  return service == Service::hot || service == Service::heating_flow || service == Service::heating_return;
}

}  // namespace

void check_expansion(const RunContext& context, std::vector<Finding>& findings) {
  const Run& run = context.run;
  const Job& job = context.job;
  if (!run.to || !runs_hot(run.service)) return;
  const Rule& rise = job.rules.temperature_rise;
  const Rule& most = job.rules.expansion_movement;
  for (const LegGrowth& leg : run_growth(run, rise.value)) {
    const double moves = leg.grows_mm - run.from.loose_mm - run.to->loose_mm;
    if (moves <= most.value + kEnough_mm) continue;
    const double needs = leg_that_gives_mm(run.tube->outside_diameter_mm, moves), has = leg.has_mm;
    if (has >= needs - kEnough_mm) continue;
    findings.push_back(
        say("expansion", Severity::warn, run,
            in_quotes(run.name) + ": leg " + std::to_string(leg.leg) + " grows by " + length(leg.grows_mm, job) +
                " when hot between fixed ends and needs a leg of " + length_at_least(needs, job) +
                " square to it to take that up, where the longest is " + length_beside(has, needs, job) + rise.remark +
                most.remark + ".",
            {has, needs, "mm",
             "Copper Development Association (UK) publication 88, Table 6; Copper Tube Handbook, Table 14.8"}));
  }
}

}  // namespace halfhard
