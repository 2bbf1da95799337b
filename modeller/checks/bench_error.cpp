#include "modeller/checks/bench_error.h"

#include <algorithm>
#include <cmath>

#include "geometry/rules/bench_errors.h"
#include "geometry/words/shown.h"
#include "modeller/checks/saying.h"

namespace halfhard {
namespace {

// Below this nothing is lost that a tape could show: errors of two bends that cancel.
constexpr double kNothing_mm = 0.25;

// The run of this bender that one error hurts most, and by how much at its far end.
struct Worst {
  const Run* run = nullptr;
  double mm = 0;
  bool costs() const { return !run || mm >= kNothing_mm; }
  std::string told(const Job& job) const {
    if (!run) return ", every run bent on it is out";
    if (!costs()) return ", no pipe of this job ends out of place by it";
    return ", the far end of " + in_quotes(run->name) + " may miss by " + length(mm, job);
  }
};

BenchErrors radius_out(double mm) {
  BenchErrors errors;
  errors.radius_mm = mm;
  return errors;
}

BenchErrors mark_offset_out(double mm) {
  BenchErrors errors;
  errors.mark_offset_mm = mm;
  return errors;
}

BenchErrors spring_back_out(double degrees_at_90) {
  BenchErrors errors;
  errors.spring_back_at_90 = Angle::degrees(degrees_at_90);
  return errors;
}

template <typename Errors>
Worst worst_of(const Plan& plan, const Bender& bender, const Errors& errors_of) {
  Worst worst;
  for (const auto& run : plan.runs) {
    if (run->bends.empty() || run->bender->name != bender.name) continue;
    const double mm = end_error(*run, errors_of(*run)).total_mm();
    if (!worst.run || mm > worst.mm) worst = {run.get(), mm};
  }
  return worst;
}

bool same_tube(const Tube& a, const Tube& b) {
  return a.outside_diameter_mm == b.outside_diameter_mm && a.wall_mm == b.wall_mm && a.temper == b.temper;
}

void warn(const char* id, const Bender& bender, const Job& job, std::string message, const Worst& worst,
          std::string source, std::vector<Finding>& findings) {
  findings.push_back(say_of_job(id, worst.costs() ? Severity::warn : Severity::note, message + worst.told(job) + ".",
                                {worst.mm, job.tolerance.length_mm, "mm", std::move(source)}, bender.pointer));
}

void check_radius_measured(const PlanContext& context, const Bender& bender, std::vector<Finding>& findings) {
  if (bender.radius_measured) return;
  const Rule& share = context.job.rules.radius_error_unmeasured;
  const Worst worst =
      worst_of(context.plan, bender, [&](const Run& run) { return radius_out(share.value * run.line.radius_mm()); });
  warn("radius-not-measured", bender, context.job,
       "The radius of bender " + in_quotes(bender.name) + " has not been measured, and if it is " +
           per_cent(share.value * 100) + " out" + share.remark,
       worst, share.source, findings);
}

void check_mark_offset(const PlanContext& context, const Bender& bender, std::vector<Finding>& findings) {
  if (bender.mark_offset_mm) return;
  const Rule& error = context.job.rules.mark_offset_unmeasured;
  Worst worst = worst_of(context.plan, bender, [&](const Run&) { return mark_offset_out(error.value); });
  const std::string out = length(error.value, context.job);
  std::string message = "Bender " + in_quotes(bender.name) +
                        " has no mark_offset, so marks are taken to sit where the curve starts; if that is " + out +
                        " out" + error.remark + ", every bend stands " + out + " from its place along the tube, and";
  // Equal errors of an offset's two bends cancel at its end, yet the offset stands in the wrong place.
  std::string told = worst.told(context.job).substr(1);
  worst.mm = std::max(worst.mm, error.value);
  findings.push_back(say_of_job("mark-offset-not-measured", Severity::warn, message + told + ".",
                                {worst.mm, context.job.tolerance.length_mm, "mm", error.source}, bender.pointer));
}

void check_spring_back(const PlanContext& context, const Bender& bender, std::vector<Finding>& findings) {
  const Rule& error = context.job.rules.spring_back_unmeasured;
  const auto errors = [&](const Run&) { return spring_back_out(error.value); };
  const std::string costs =
      "if it springs back " + shown_number(error.value, 1) + "° from a 90 more than is allowed for" + error.remark;
  if (bender.spring_back.empty()) {
    warn("spring-back-not-measured", bender, context.job,
         "The spring-back of bender " + in_quotes(bender.name) + " has not been measured, and " + costs,
         worst_of(context.plan, bender, errors), error.source, findings);
    return;
  }
  Worst worst;
  for (const auto& run : context.plan.runs) {
    if (run->bends.empty() || run->bender->name != bender.name || calibrated_with_this_tube(*run, context.job))
      continue;
    const double mm = end_error(*run, errors(*run)).total_mm();
    if (!worst.run || mm > worst.mm) worst = {run.get(), mm};
  }
  if (!worst.run) return;
  warn("calibrated-with-another-tube", bender, context.job,
       "Bender " + in_quotes(bender.name) + " was calibrated with tube " + in_quotes(bender.calibrated_with) +
           ", not with " + in_quotes(worst.run->tube->name) + ", and " + costs,
       worst, error.source, findings);
}

}  // namespace

bool calibrated_with_this_tube(const Run& run, const Job& job) {
  const std::string& name = run.bender->calibrated_with;
  if (name.empty() || name == run.tube->name) return true;
  const auto found =
      std::find_if(job.tubes.begin(), job.tubes.end(), [&](const Tube& tube) { return tube.name == name; });
  return found != job.tubes.end() && same_tube(*found, *run.tube);
}

void check_free_end(const RunContext& context, std::vector<Finding>& findings) {
  const Run& run = context.run;
  const Job& job = context.job;
  if (run.bends.empty()) return;
  const EndError error = likely_error(run, job.rules);
  const double miss = error.total_mm();
  const double allowed = job.tolerance.length_mm + (run.to ? run.to->loose_mm : 0);
  const bool warn_of_it = run.to && miss > allowed;
  std::string message =
      in_quotes(run.name) + ": with each bend checked as it is made, the far end may still come out " +
      (warn_of_it ? length_at_least(miss, job) : length(miss, job)) +
      " from where it belongs (angles and spring-back " +
      length(std::hypot(error.angles_mm, error.spring_back_mm), job) + ", turns " + length(error.rotations_mm, job) +
      ", marks " + length(std::hypot(error.marks_mm, error.mark_offset_mm), job) + ", radius " +
      length(error.radius_mm, job) + ")";
  message += warn_of_it ? ", more than its connection takes up (" + length(allowed, job) +
                              "): leave spare and offer it up before the last cut."
                        : ".";
  findings.push_back(say("free-end", warn_of_it ? Severity::warn : Severity::note, run, std::move(message),
                         {miss, allowed, "mm", "bench errors in the table of limits; job's tolerance and `loose`"}));
}

void check_calibration(const PlanContext& context, std::vector<Finding>& findings) {
  for (const Bender& bender : context.job.benders) {
    check_radius_measured(context, bender, findings);
    check_mark_offset(context, bender, findings);
    check_spring_back(context, bender, findings);
  }
}

}  // namespace halfhard
