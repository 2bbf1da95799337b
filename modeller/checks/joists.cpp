#include "modeller/checks/joists.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "geometry/rules/joist_limits.h"
#include "geometry/words/shown.h"
#include "modeller/checks/joist_rules.h"
#include "modeller/checks/saying.h"

namespace halfhard {
namespace {

template <typename Things>
const typename Things::value_type::element_type* named(const Things& things, const std::string& name) {
  const auto found = std::find_if(things.begin(), things.end(), [&](const auto& thing) { return thing->name == name; });
  return found == things.end() ? nullptr : found->get();
}

JoistCut cut_of(const Run& run, const Fixture& fixture, const Drilling& hole) {
  const Joist& joist = *fixture.joist;
  JoistCut cut;
  cut.run = &run;
  cut.fixture = &fixture;
  const Vec3 along = (joist.to - joist.from).normalized();
  const Vec3 out = hole.centre + hole.depth_mm * hole.direction;
  const auto height = [&](const Vec3& at) { return (at - joist.from).dot(joist.depth_direction); };
  cut.span_mm = (joist.to - joist.from).norm();
  cut.depth_mm = joist.depth_mm;
  cut.along_mm = ((hole.centre + out) / 2 - joist.from).dot(along);
  cut.off_centre_mm = std::abs(height(hole.centre)) > std::abs(height(out)) ? height(hole.centre) : height(out);
  cut.diameter_mm = hole.diameter_mm;
  cut.off_square = Angle::radians(std::acos(std::min(1.0, std::abs(hole.direction.dot(joist.breadth_direction)))));
  return cut;
}

Finding broken(const JoistCut& cut, const JoistBreach& breach, Severity severity, const std::string& also,
               const Job& job) {
  const bool notch = cut.is_notch();
  const std::string figure = breach.unit == "mm" ? length_beside(breach.value, breach.limit, job)
                                                 : shown_number(breach.value, 2) + " " + breach.unit;
  return say(notch ? "joist-notch" : "joist-hole", severity, *cut.run,
             in_quotes(cut.run->name) + ": the " + (notch ? "notch" : "hole") + " in " + in_quotes(cut.fixture->name) +
                 " " + breach.tells + " (" + figure + ")" + also + breach.remark + ".",
             {breach.value, breach.limit, breach.unit, breach.source});
}

void check_cut(const JoistCut& cut, const Job& job, std::vector<Finding>& findings) {
  if (job.unit == LengthUnit::inch) {
    for (const JoistBreach& breach : american_breaches(cut)) {
      findings.push_back(broken(cut, breach, Severity::fail, "", job));
    }
    return;
  }
  const std::vector<JoistBreach> breaches = british_breaches(cut, job);
  if (!cut.is_notch()) {
    for (const JoistBreach& breach : breaches) findings.push_back(broken(cut, breach, Severity::fail, "", job));
    return;
  }
  const std::vector<JoistBreach> others = second_british_breaches(cut);
  const bool whole =
      std::any_of(breaches.begin(), breaches.end(), [](const JoistBreach& breach) { return breach.never; });
  const bool both = whole || (!breaches.empty() && !others.empty());
  const Severity severity = both ? Severity::fail : Severity::warn;
  for (const JoistBreach& breach : breaches) {
    findings.push_back(broken(cut, breach, severity, both ? "" : ", though NHBC 6.4.18 would let it pass", job));
  }
  for (const JoistBreach& breach : others) {
    findings.push_back(
        broken(cut, breach, severity, both ? "" : ", though the Approved Document A method would let it pass", job));
  }
}

// Two cuts in one joist that lie too near each other.
void check_two(const JoistCut& a, const JoistCut& b, const Job& job, std::vector<Finding>& findings) {
  if (a.fixture != b.fixture || (a.is_notch() && b.is_notch())) return;
  const bool mixed = a.is_notch() != b.is_notch();
  const Rule& limit = mixed ? job.rules.joist_notch_to_hole : job.rules.joist_holes_apart;
  const double needs = mixed ? limit.value : limit.value * std::max(a.diameter_mm, b.diameter_mm);
  const double apart = std::abs(a.along_mm - b.along_mm);
  if (apart >= needs - kEnough_mm) return;
  const bool american = job.unit == LengthUnit::inch;
  findings.push_back(
      say(a.is_notch() ? "joist-notch" : "joist-hole", american ? Severity::warn : Severity::fail, *a.run,
          in_quotes(a.run->name) + " and " + in_quotes(b.run->name) + " go through " + in_quotes(a.fixture->name) +
              " " + length_beside(apart, needs, job) + " apart where " +
              (mixed ? "notch and hole keep " : "hole centres keep ") + length(needs, job) + limit.remark + ".",
          {apart, needs, "mm", limit.source}));
}

}  // namespace

bool JoistCut::is_notch() const {
  const double cover = depth_mm / 2 - std::abs(off_centre_mm) - diameter_mm / 2;
  const bool near_edge =
      cover < std::min(diameter_mm, irc(span_mm, depth_mm).hole_from_edge_mm) && std::abs(off_centre_mm) > depth_mm / 6;
  return cover < -kEnough_mm || near_edge;
}

double JoistCut::notch_depth_mm() const { return depth_mm / 2 - std::abs(off_centre_mm) + diameter_mm / 2; }

double JoistCut::from_support_mm() const { return std::min(along_mm, span_mm - along_mm); }

std::vector<JoistCut> joist_cuts(const Plan& plan) {
  std::vector<JoistCut> cuts;
  for (const Drilling& hole : plan.drillings) {
    const Run* run = named(plan.runs, hole.run);
    const Fixture* fixture = named(plan.fixtures, hole.fixture);
    if (run && fixture && fixture->joist) cuts.push_back(cut_of(*run, *fixture, hole));
  }
  return cuts;
}

void check_joists(const PlanContext& context, std::vector<Finding>& findings) {
  const std::vector<JoistCut> cuts = joist_cuts(context.plan);
  std::set<const Fixture*> shown;
  for (const JoistCut& cut : cuts) {
    check_cut(cut, context.job, findings);
    if (!shown.insert(cut.fixture).second) continue;
    findings.push_back({"joist-rules", Severity::note, cut.fixture->name, joist_rules_text(cut, context.job), 0, 0, "",
                        "Approved Document A method (LABC); NHBC 6.4.18; IRC R502.8.1", cut.fixture->pointer});
  }
  for (std::size_t i = 0; i < cuts.size(); ++i) {
    for (std::size_t j = i + 1; j < cuts.size(); ++j) check_two(cuts[i], cuts[j], context.job, findings);
  }
}

}  // namespace halfhard
