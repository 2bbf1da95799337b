#include "modeller/checks/joist_rules.h"

#include <cmath>

#include "geometry/rules/joist_limits.h"
#include "modeller/checks/saying.h"

namespace halfhard {
namespace {

constexpr double kMostOffSquare_deg = 30;  // beyond it a hole is no hole across the joist

// Gathers what is broken; each line is one rule.
struct Breaches {
  std::vector<JoistBreach> all;

  void at_most(double value, double limit, const std::string& tells, const std::string& source,
               const std::string& remark = "", const char* unit = "mm") {
    if (value > limit + kEnough_mm) all.push_back({tells, value, limit, unit, source, remark, false});
  }
  void at_least(double value, double limit, const std::string& tells, const std::string& source,
                const std::string& remark = "") {
    if (value < limit - kEnough_mm) all.push_back({tells, value, limit, "mm", source, remark, false});
  }
  void across(const JoistCut& cut, const char* source) {
    at_most(cut.off_square.degrees(), kMostOffSquare_deg, "does not go square across the joist", source, "", "deg");
  }
};

std::string zone(const CutLimits& cut, const Job& job) {
  return length_at_least(cut.from_mm, job) + " to " + length_at_most(cut.to_mm, job) + " from a support";
}

}  // namespace

std::vector<JoistBreach> british_breaches(const JoistCut& cut, const Job& job) {
  const JoistLimits limits = approved_document_a(cut.span_mm, cut.depth_mm, job.rules);
  const Rule& least = job.rules.joist_least_depth;
  if (limits.left_whole) {
    return {{"should not be: joists of " + length(least.value, job) + " or less are left whole", cut.depth_mm,
             least.value, "mm", least.source, least.remark, true}};
  }
  const Rules& rules = job.rules;
  const bool notch = cut.is_notch();
  const CutLimits& allowed = notch ? *limits.notch : *limits.hole;
  const Rule& from = notch ? rules.joist_notch_from : rules.joist_hole_from;
  const Rule& to = notch ? rules.joist_notch_to : rules.joist_hole_to;
  const Rule& size = notch ? rules.joist_notch_size : rules.joist_hole_size;
  const Rule& most = notch ? rules.joist_notch_most : rules.joist_hole_most;
  const double size_mm = size.value * cut.depth_mm;
  const double is_mm = notch ? cut.notch_depth_mm() : cut.diameter_mm;
  const std::string large = notch ? "is deeper than " : "is larger than ";
  Breaches found;
  found.at_least(cut.from_support_mm(), allowed.from_mm,
                 "is nearer to a support than " + length_at_least(allowed.from_mm, job), from.source, from.remark);
  found.at_most(cut.from_support_mm(), allowed.to_mm,
                "is farther from both supports than " + length_at_most(allowed.to_mm, job), to.source, to.remark);
  found.at_most(is_mm, size_mm, large + length_at_most(size_mm, job), size.source, size.remark);
  found.at_most(is_mm, most.value, large + length_at_most(most.value, job), most.source, most.remark);
  if (!notch) {
    found.at_most(std::abs(cut.off_centre_mm), job.tolerance.length_mm, "is not on the centre line of the joist",
                  from.source);
  }
  found.across(cut, limits.name);
  return found.all;
}

std::vector<JoistBreach> second_british_breaches(const JoistCut& cut) {
  if (!cut.is_notch()) return {};
  const JoistLimits limits = nhbc(cut.span_mm, cut.depth_mm);
  Breaches found;
  found.at_least(cut.from_support_mm(), limits.notch->from_mm, "is nearer to a support than a tenth of the span",
                 limits.name);
  found.at_most(cut.from_support_mm(), limits.notch->to_mm, "is farther from both supports than a fifth of the span",
                limits.name);
  found.at_most(cut.notch_depth_mm(), limits.notch->most_mm, "is deeper than 0.15 of the joist's depth", limits.name);
  return found.all;
}

std::vector<JoistBreach> american_breaches(const JoistCut& cut) {
  const JoistLimits limits = irc(cut.span_mm, cut.depth_mm);
  Breaches found;
  if (cut.is_notch()) {
    found.at_most(cut.notch_depth_mm(), limits.notch->most_mm, "is deeper than a sixth of the joist's depth",
                  limits.name);
    found.at_most(cut.from_support_mm(), limits.notch->to_mm, "is in the middle third of the span", limits.name);
  } else {
    found.at_most(cut.diameter_mm, limits.hole->most_mm, "is larger than a third of the joist's depth", limits.name);
    found.at_least(cut.depth_mm / 2 - std::abs(cut.off_centre_mm) - cut.diameter_mm / 2, limits.hole_from_edge_mm,
                   "is nearer to an edge than 2 in", limits.name);
  }
  found.across(cut, limits.name);
  return found.all;
}

std::string joist_rules_text(const JoistCut& cut, const Job& job) {
  const double span = cut.span_mm, depth = cut.depth_mm;
  const JoistLimits british = approved_document_a(span, depth, job.rules), second = nhbc(span, depth),
                    american = irc(span, depth);
  const std::string begins =
      in_quotes(cut.fixture->name) + " (span " + length(span, job) + ", depth " + length(depth, job) + "): ";
  const std::string across_the_sea =
      std::string(american.name) + " a hole up to " + length_at_most(american.hole->most_mm, job) + ", " +
      length_at_least(american.hole_from_edge_mm, job) + " from the edges, and a notch up to " +
      length_at_most(american.notch->most_mm, job) + " deep outside the middle third";
  const std::string care = "; solid timber only, and ask before cutting any other or one cut already.";
  if (british.left_whole) return begins + "the Approved Document A method leaves it whole; " + across_the_sea + care;
  return begins + "the Approved Document A method allows a hole up to " + length_at_most(british.hole->most_mm, job) +
         " on the centre line " + zone(*british.hole, job) + " and a notch up to " +
         length_at_most(british.notch->most_mm, job) + " deep " + zone(*british.notch, job) + "; " + second.name +
         " a notch up to " + length_at_most(second.notch->most_mm, job) + " deep " + zone(*second.notch, job) + "; " +
         across_the_sea + care;
}

}  // namespace halfhard
