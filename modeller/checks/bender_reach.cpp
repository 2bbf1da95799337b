#include "modeller/checks/bender_reach.h"

#include <cmath>

#include "geometry/words/shown.h"
#include "modeller/checks/saying.h"

namespace halfhard {

void check_most_angle(const RunContext& context, std::vector<Finding>& findings) {
  const Run& run = context.run;
  if (!run.bender->most_angle) return;
  const Angle most = *run.bender->most_angle;
  for (const Bend& bend : run.bends) {
    if (bend.set_angle.degrees() <= most.degrees() + kEnough_deg) continue;
    const std::string pulled = angle_beside(bend.set_angle, most);
    const std::string for_angle =
        bend.set_angle == bend.angle ? "" : " to keep " + shown_angle(bend.angle) + " after it springs back";
    findings.push_back(
        at_place(say("beyond-bender", Severity::fail, run,
                     at_bend(run, bend.number) + " must be pulled to " + pulled + for_angle + " and bender " +
                         in_quotes(run.bender->name) + " stops at " + shown_angle(most) + ".",
                     {bend.set_angle.degrees(), most.degrees(), "deg", "most_angle of the bender"}),
                 place_of_bend(run, bend.number)));
  }
}

void check_former(const RunContext& context, std::vector<Finding>& findings) {
  const Run& run = context.run;
  const Job& job = context.job;
  if (run.bends.empty() || !run.bender->fits_mm) return;
  const Rule& fit = job.rules.former_fit;
  const double od = run.tube->outside_diameter_mm;
  const double fits = *run.bender->fits_mm;
  if (std::abs(od - fits) <= fit.value + kEnough_mm) return;
  findings.push_back(say("former-does-not-fit", Severity::fail, run,
                         in_quotes(run.name) + " is tube of " + shown_number(od, 3) + " mm and the former of bender " +
                             in_quotes(run.bender->name) + " fits " + shown_number(fits, 3) +
                             " mm: it would crush or flatten the tube" + fit.remark + ".",
                         {od, fits, "mm", "fits of the bender; " + fit.source}));
}

void check_bender_limits(const PlanContext& context, std::vector<Finding>& findings) {
  for (const Bender& bender : context.job.benders) {
    std::string missing;
    const auto add = [&](bool given, const char* key) {
      if (!given) missing += (missing.empty() ? "" : ", ") + std::string(key);
    };
    add(bender.fits_mm.has_value(), "fits");
    add(bender.shortest_end_mm.has_value(), "shortest_end");
    add(bender.usual_end_mm.has_value(), "usual_end");
    add(bender.shortest_lever_mm.has_value(), "shortest_lever");
    add(bender.shortest_between_mm.has_value(), "shortest_between");
    add(bender.most_angle.has_value(), "most_angle");
    if (missing.empty()) continue;
    findings.push_back(say_of_job("bender-limit", Severity::note,
                                  "Bender " + in_quotes(bender.name) + " does not say " + missing +
                                      ", so that is not checked: measure it on the bender and add it.",
                                  {}, bender.pointer));
  }
}

}  // namespace halfhard
