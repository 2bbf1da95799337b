#include "modeller/checks/joist_rules.h"

#include <cmath>

#include "modeller/checks/saying.h"
#include "modeller/rules/limits.h"

namespace halfhard {
namespace {

constexpr const char* kNhbc = "NHBC 6.4.18";
constexpr const char* kIrc = "IRC R502.8.1";
constexpr double kNhbcFrom = 0.1, kNhbcTo = 0.2, kNhbcDepth = 0.15;
constexpr double kMostOffSquare_deg = 30;  // beyond it a hole is no hole across the joist

// Gathers what is broken; each line is one rule.
struct Rules {
  std::vector<JoistBreach> breaches;

  void at_most(double value, double limit, const std::string& tells, const std::string& source,
               const std::string& remark = "", const char* unit = "mm") {
    if (value > limit + kEnough_mm) breaches.push_back({tells, value, limit, unit, source, remark, false});
  }
  void at_least(double value, double limit, const std::string& tells, const std::string& source,
                const std::string& remark = "") {
    if (value < limit - kEnough_mm) breaches.push_back({tells, value, limit, "mm", source, remark, false});
  }
  void across(const JoistCut& cut, const char* source) {
    at_most(cut.off_square.degrees(), kMostOffSquare_deg, "does not go square across the joist", source, "", "deg");
  }
};

std::string zone(double from, double to, double span_mm, const Job& job) {
  return length(from * span_mm, job) + " to " + length(to * span_mm, job) + " from a support";
}

}  // namespace

std::vector<JoistBreach> british_breaches(const JoistCut& cut, const Job& job) {
  const auto limit = [&](const char* name) { return limit_in_use(job, name); };
  Rules rules;
  const LimitInUse least = limit("joist_least_depth");
  if (cut.depth_mm <= least.value + kEnough_mm) {
    return {{"should not be: joists of " + length(least.value, job) + " or less are left whole", cut.depth_mm,
             least.value, "mm", least.source, least.remark, true}};
  }
  const bool notch = cut.is_notch();
  const LimitInUse from = limit(notch ? "joist_notch_from" : "joist_hole_from");
  const LimitInUse to = limit(notch ? "joist_notch_to" : "joist_hole_to");
  const LimitInUse size = limit(notch ? "joist_notch_size" : "joist_hole_size");
  const LimitInUse most = limit(notch ? "joist_notch_most" : "joist_hole_most");
  const double near_mm = from.value * cut.span_mm, far_mm = to.value * cut.span_mm;
  const double size_mm = size.value * cut.depth_mm;
  const double is_mm = notch ? cut.notch_depth_mm() : cut.diameter_mm;
  const std::string large = notch ? "is deeper than " : "is larger than ";
  rules.at_least(cut.from_support_mm(), near_mm, "is nearer to a support than " + length(near_mm, job), from.source,
                 from.remark);
  rules.at_most(cut.from_support_mm(), far_mm, "is farther from both supports than " + length(far_mm, job), to.source,
                to.remark);
  rules.at_most(is_mm, size_mm, large + length(size_mm, job), size.source, size.remark);
  rules.at_most(is_mm, most.value, large + length(most.value, job), most.source, most.remark);
  if (!notch) {
    rules.at_most(std::abs(cut.off_centre_mm), job.tolerance.length_mm, "is not on the centre line of the joist",
                  from.source);
  }
  rules.across(cut, "Approved Document A method (LABC)");
  return rules.breaches;
}

std::vector<JoistBreach> second_british_breaches(const JoistCut& cut) {
  Rules rules;
  if (!cut.is_notch()) return {};
  rules.at_least(cut.from_support_mm(), kNhbcFrom * cut.span_mm, "is nearer to a support than a tenth of the span",
                 kNhbc);
  rules.at_most(cut.from_support_mm(), kNhbcTo * cut.span_mm, "is farther from both supports than a fifth of the span",
                kNhbc);
  rules.at_most(cut.notch_depth_mm(), kNhbcDepth * cut.depth_mm, "is deeper than 0.15 of the joist's depth", kNhbc);
  return rules.breaches;
}

std::vector<JoistBreach> american_breaches(const JoistCut& cut) {
  Rules rules;
  if (cut.is_notch()) {
    rules.at_most(cut.notch_depth_mm(), cut.depth_mm / 6, "is deeper than a sixth of the joist's depth", kIrc);
    rules.at_most(cut.from_support_mm(), cut.span_mm / 3, "is in the middle third of the span", kIrc);
  } else {
    rules.at_most(cut.diameter_mm, cut.depth_mm / 3, "is larger than a third of the joist's depth", kIrc);
    rules.at_least(cut.depth_mm / 2 - std::abs(cut.off_centre_mm) - cut.diameter_mm / 2, kIrcEdge_mm,
                   "is nearer to an edge than 2 in", kIrc);
  }
  rules.across(cut, kIrc);
  return rules.breaches;
}

std::string joist_rules_text(const JoistCut& cut, const Job& job) {
  const auto value = [&](const char* name) { return limit_in_use(job, name).value; };
  const double span = cut.span_mm, depth = cut.depth_mm;
  const std::string begins =
      in_quotes(cut.fixture->name) + " (span " + length(span, job) + ", depth " + length(depth, job) + "): ";
  const std::string american = "IRC R502.8.1 a hole up to " + length(depth / 3, job) + ", " + length(kIrcEdge_mm, job) +
                               " from the edges, and a notch up to " + length(depth / 6, job) +
                               " deep outside the middle third";
  const std::string care = "; solid timber only, and ask before cutting any other or one cut already.";
  if (depth <= value("joist_least_depth") + kEnough_mm) {
    return begins + "the Approved Document A method leaves it whole; " + american + care;
  }
  const double hole = std::min(value("joist_hole_size") * depth, value("joist_hole_most"));
  const double notch = std::min(value("joist_notch_size") * depth, value("joist_notch_most"));
  return begins + "the Approved Document A method allows a hole up to " + length(hole, job) + " on the centre line " +
         zone(value("joist_hole_from"), value("joist_hole_to"), span, job) + " and a notch up to " +
         length(notch, job) + " deep " + zone(value("joist_notch_from"), value("joist_notch_to"), span, job) +
         "; NHBC 6.4.18 a notch up to " + length(kNhbcDepth * depth, job) + " deep " +
         zone(kNhbcFrom, kNhbcTo, span, job) + "; " + american + care;
}

}  // namespace halfhard
