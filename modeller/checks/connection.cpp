#include "modeller/checks/connection.h"

#include <algorithm>

#include "geometry/words/shown.h"
#include "modeller/checks/saying.h"

namespace halfhard {
namespace {

// `into` is the tube's direction away from its end, which the fitting's `towards` should be.
// Why the far end of a further piece of a bank at equal gaps misses: its last point moves by another shift than its fitting.
std::string at_gaps(const RunContext& context, End end) {
  const Run& run = context.run;
  const Job& job = context.job;
  const bool further = end == End::free && run.name != run.family && run.name != run.family + " 1";
  for (const JobBank& bank : job.banks)
    if (further && bank.of == run.family && bank.equal_gaps)
      return "; in a bank at equal gaps the fittings step by the bank's step and this end moves by what keeps the "
             "gaps: "
             "leave out `to`, or give these pieces as runs of their own";
  return "";
}

void check_end(const RunContext& context, const Connection& fitting, End end, const Vec3& at, const Vec3& into,
               std::vector<Finding>& findings) {
  const Run& run = context.run;
  const Job& job = context.job;
  const std::string named = fitting.name.empty() ? "" : " " + in_quotes(fitting.name);
  const std::string begins = in_quotes(run.name) + ": its " + end_in_words(end);
  const double off = (at - fitting.at).norm();
  const Rule& place_rule = job.rules.end_out_of_place;
  if (off > place_rule.value) {
    findings.push_back(
        at_place(say("connection", Severity::fail, run,
                     begins + " misses its connection" + named + " by " + length_beside(off, place_rule.value, job) +
                         ": it ends at " + place(at, job) + " and the mouth is at " + place(fitting.at, job) +
                         at_gaps(context, end) + place_rule.remark + ".",
                     {off, place_rule.value, "mm", place_rule.source}),
                 at));
  }
  const Angle turned = angle_between(into, fitting.towards);
  const Rule& line_rule = job.rules.end_out_of_line;
  if (turned.degrees() > line_rule.value) {
    findings.push_back(at_place(say("connection", Severity::fail, run,
                                    begins + " stands " + angle_beside(turned, Angle::degrees(line_rule.value)) +
                                        " away from the direction of its connection" + named + line_rule.remark + ".",
                                    {turned.degrees(), line_rule.value, "deg", line_rule.source}),
                                at));
  }
}

// A last step that leads to a connection which the run does not name as its end: nothing of it counts but its place.
void check_named_end(const RunContext& context, std::vector<Finding>& findings) {
  const Run& run = context.run;
  const Job& job = context.job;
  if (run.to) return;
  const auto written =
      std::find_if(job.runs.begin(), job.runs.end(), [&](const JobRun& each) { return each.name == run.family; });
  if (written == job.runs.end() || written->path.empty()) return;
  const auto* last = std::get_if<ToStep>(&written->path.back());
  const auto* name = last ? std::get_if<std::string>(&last->to) : nullptr;
  if (!name) return;
  findings.push_back(
      say("end-not-named", Severity::warn, run,
          in_quotes(run.name) + " ends at " + in_quotes(*name) +
              " by its last step but has no `to`, so that the fitting's insertion is not in the cut length "
              "and its direction is not checked: write \"to\": \"" +
              *name + "\" in the run.",
          {0, 0, "", "what the job leaves out"}));
}

}  // namespace

void check_connections(const RunContext& context, std::vector<Finding>& findings) {
  const Run& run = context.run;
  const CentreLine& line = run.line;
  check_named_end(context, findings);
  check_end(context, run.from, End::datum, line.points().front(), line.leg_direction(0), findings);
  if (run.to) {
    check_end(context, *run.to, End::free, line.points().back(), -line.leg_direction(line.leg_count() - 1), findings);
  }
}

}  // namespace halfhard
