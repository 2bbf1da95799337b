#include "modeller/checks/clearance.h"

#include <algorithm>

#include "geometry/base/tolerances.h"
#include "geometry/words/shown.h"
#include "modeller/checks/saying.h"

namespace halfhard {
namespace {

template <typename Things>
const typename Things::value_type::element_type* named(const Things& things, const std::string& name) {
  const auto found = std::find_if(things.begin(), things.end(), [&](const auto& thing) { return thing->name == name; });
  return found == things.end() ? nullptr : found->get();
}

// How a run meets a body: "runs through", "cuts into", "touches", or "" where they are apart.
std::string fixture_meeting(const Clearance& pair, const Run& run, const Fixture& fixture, const Job& job) {
  const std::string name = in_quotes(pair.second);
  if (pair.distance_mm < -run.outside_radius_mm()) {
    if (fixture.may_drill && !std::holds_alternative<std::monostate>(fixture.body.motion))
      return " runs into " + name + ", which moves, so it cannot be drilled";
    return fixture.may_drill ? " runs inside " + name + " without passing straight in and out, so it cannot be drilled"
                             : " runs through " + name + ", which may not be drilled";
  }
  if (pair.distance_mm < 0) {
    return " cuts " + length_beside(-pair.distance_mm, 0, job) + " into " + name +
           (fixture.may_drill ? ", grazing it: a hole there would break its face" : "");
  }
  return "";
}

std::string message_of(const PlanContext& context, const Clearance& pair, const Run& run) {
  const Job& job = context.job;
  const std::string begins = in_quotes(run.name);
  const std::string apart = shown_clearance(pair.distance_mm, job.unit);
  const std::string kept = " where " + length(pair.required_mm, job) + " must be kept clear";
  const std::string near = "; nearest at " + place(pair.at_first, job) + ".";
  if (pair.first == pair.second) {
    if (pair.distance_mm < 0) return begins + " crosses itself, by " + length_beside(-pair.distance_mm, 0, job) + near;
    return begins + " comes within " + apart + " of itself" + kept + near;
  }
  if (const Fixture* fixture = named(context.plan.fixtures, pair.second)) {
    const std::string meets = fixture_meeting(pair, run, *fixture, job);
    if (!meets.empty()) return begins + meets + near;
  } else if (pair.distance_mm < 0) {
    return begins + " and " + in_quotes(pair.second) + " run into each other by " +
           length_beside(-pair.distance_mm, 0, job) + near;
  }
  return begins + " comes within " + apart + " of " + in_quotes(pair.second) + kept + near;
}

}  // namespace

void check_clearances(const PlanContext& context, std::vector<Finding>& findings) {
  for (const Clearance& pair : context.plan.clearances) {
    const bool fails = pair.distance_mm < pair.required_mm - kClearanceSlack_mm;
    const bool open = pair.uncertainty_mm > 0 && pair.distance_mm < pair.required_mm + pair.uncertainty_mm;
    if (!fails && !open) continue;
    const Figure figure{pair.distance_mm, pair.required_mm, "mm",
                        "keep_clear of the job, or the rule between services"};
    const Run* run = named(context.plan.runs, pair.first);
    if (!run) continue;
    Finding finding =
        fails ? say("clearance", Severity::fail, *run, message_of(context, pair, *run), figure)
              : say("clearance-uncertain", Severity::warn, *run,
                    in_quotes(pair.first) + " keeps its clearance to " + in_quotes(pair.second) + " by less than the " +
                        shown_number(pair.uncertainty_mm, 2) + " mm that the STEP body is known to.",
                    figure);
    if (pair.second != pair.first && named(context.plan.runs, pair.second)) finding.also = pair.second;
    findings.push_back(at_place(std::move(finding), pair.at_first));
  }
}

void check_drillings(const PlanContext& context, std::vector<Finding>& findings) {
  const auto& [plan, job] = context;
  for (const Drilling& hole : plan.drillings) {
    const Run* run = named(plan.runs, hole.run);
    if (!run) continue;
    findings.push_back(say("drilling", Severity::note, *run,
                           "Drill " + in_quotes(hole.fixture) + " for " + in_quotes(hole.run) + ": " +
                               length_at_least(hole.diameter_mm, job) + " across, centre " +
                               shown_place(hole.centre, job.unit) + ", going " + shown_way(hole.direction) +
                               ": find cables and pipes behind it first.",
                           {hole.diameter_mm, 0, "mm", "outside of the tube with its lagging and drill_clearance"}));
  }
}

}  // namespace halfhard
