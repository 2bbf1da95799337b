#include "modeller/checks/wall.h"

#include "geometry/words/shown.h"
#include "modeller/checks/saying.h"

namespace halfhard {
namespace {

// The table's 14.3 is 1/7 shown to a decimal: a 3 D bend itself passes.
constexpr double kPercentSlack = 1e-6;

}  // namespace

double wall_thinning_percent(double radius_mm, double outside_diameter_mm) {
  return 100 * (1 - radius_mm / (radius_mm + outside_diameter_mm / 2));
}

double ovality_percent(double radius_mm, double outside_diameter_mm) { return 20 * outside_diameter_mm / radius_mm; }

void check_wall(const RunContext& context, std::vector<Finding>& findings) {
  const Run& run = context.run;
  const Job& job = context.job;
  if (run.bends.empty()) return;
  const double radius = run.line.radius_mm();
  const double od = run.tube->outside_diameter_mm;

  const Rule& thinning = job.rules.wall_thinning;
  const double thinned = wall_thinning_percent(radius, od);
  if (thinned > thinning.value + kPercentSlack) {
    findings.push_back(say("wall-thinning", Severity::warn, run,
                           in_quotes(run.name) + ": the outer wall of its bends thins by about " + per_cent(thinned) +
                               ", to " + shown_number(run.tube->wall_mm * (1 - thinned / 100), 2) +
                               " mm, more than the " + per_cent(thinning.value) + " that is usual: use thicker tube " +
                               "or a larger former" + thinning.remark + ".",
                           {thinned, thinning.value, "%", thinning.source}));
  }

  const Rule& ovality = job.rules.ovality;
  const double oval = ovality_percent(radius, od);
  if (oval > ovality.value + kPercentSlack) {
    findings.push_back(say("ovality", Severity::warn, run,
                           in_quotes(run.name) + ": its bends may come out of round by " + per_cent(oval) + " (" +
                               shown_number(od * oval / 100, 1) + " mm), more than " + per_cent(ovality.value) +
                               ": use a larger former and measure across a trial bend" + ovality.remark + ".",
                           {oval, ovality.value, "%", ovality.source}));
  }
}

}  // namespace halfhard
