#include "modeller/checks/straights.h"

#include <cmath>

#include "geometry/base/tolerances.h"
#include "geometry/words/shown.h"
#include "modeller/checks/saying.h"

namespace halfhard {
namespace {

void check_fitting(const RunContext& context, const Connection& fitting, End end, double straight_mm,
                   std::vector<Finding>& findings) {
  const Run& run = context.run;
  const Job& job = context.job;
  if (straight_mm >= fitting.straight_needed_mm - kEnough_mm) return;
  const std::string name = fitting.name.empty() ? "the fitting at its " + end_in_words(end) : in_quotes(fitting.name);
  findings.push_back(at_place(
      say("straight-at-fitting", Severity::fail, run,
          in_quotes(run.name) + " runs straight for " + length_beside(straight_mm, fitting.straight_needed_mm, job) +
              " from the mouth of " + name + " where " + length(fitting.straight_needed_mm, job) +
              " is needed for its nut, jaw or olive: move the bend away.",
          {straight_mm, fitting.straight_needed_mm, "mm", "straight_needed of the connection"}),
      place_of_end(run, end)));
}

}  // namespace

bool may_be_one_pull(const Run& run, int first_bend) {
  const Bend& first = run.bends[first_bend - 1];
  const Bend& second = run.bends[first_bend];
  const Angle together = first.angle + second.angle;
  const Angle most = run.bender->most_angle.value_or(Angle::degrees(180));
  return second.straight_before_mm <= kStraightSlack_mm && std::abs(second.rotation.degrees()) < kSameDirection_deg &&
         first.hook == second.hook && together.degrees() <= most.degrees() + kEnough_deg;
}

void check_straights_between(const RunContext& context, std::vector<Finding>& findings) {
  const Run& run = context.run;
  const Job& job = context.job;
  for (int number = 2; number <= static_cast<int>(run.bends.size()); ++number) {
    const double straight = run.bends[number - 1].straight_before_mm;
    if (may_be_one_pull(run, number - 1)) {
      const Angle together = run.bends[number - 2].angle + run.bends[number - 1].angle;
      const Angle set = run.bender->set_angle(together);
      const std::string as_set = set == together ? "" : ": pull to " + shown_angle(set);
      findings.push_back(at_place(
          say("one-pull", Severity::note, run,
              in_quotes(run.name) + ": bends " + std::to_string(number - 1) + " and " + std::to_string(number) +
                  " have no straight between and may be one pull of " + shown_angle(together) + as_set + "."),
          place_of_bend(run, number)));
      continue;
    }
    const auto& needs = run.bender->shortest_between_mm;
    if (!needs || straight >= *needs - kEnough_mm) continue;
    findings.push_back(at_place(
        say("straight-between", Severity::fail, run,
            in_quotes(run.name) + " has " + length_beside(straight, *needs, job) + " of straight tube between bends " +
                std::to_string(number - 1) + " and " + std::to_string(number) + " where the bender needs " +
                length(*needs, job) + ": move them apart or take a flatter angle.",
            {straight, *needs, "mm", "shortest_between of bender " + in_quotes(run.bender->name)}),
        place_of_bend(run, number)));
  }
}

void check_straights_at_fittings(const RunContext& context, std::vector<Finding>& findings) {
  const Run& run = context.run;
  check_fitting(context, run.from, End::datum, run.line.straight_mm(0), findings);
  if (run.to) {
    check_fitting(context, *run.to, End::free, run.line.straight_mm(run.line.leg_count() - 1), findings);
  }
}

}  // namespace halfhard
