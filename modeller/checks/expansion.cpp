#include "modeller/checks/expansion.h"

#include <algorithm>
#include <cmath>

#include "modeller/checks/saying.h"

namespace halfhard {
namespace {

constexpr double kExpansion_per_k = 16.8e-6;
constexpr double kOffsetLegFactor = 88.8;

bool runs_hot(Service service) {
  return service == Service::hot || service == Service::heating_flow || service == Service::heating_return;
}

// What the longest leg square to this one (45 degrees at least) measures square to it.
double giving_leg_mm(const CentreLine& line, int leg) {
  const Vec3 along = line.leg_direction(leg);
  double longest = 0;
  for (int other = 0; other < line.leg_count(); ++other) {
    const double across = line.leg_direction(other).cross(along).norm();
    if (across >= Angle::degrees(45).sin() - 1e-9) longest = std::max(longest, line.leg_length_mm(other) * across);
  }
  return longest;
}

}  // namespace

double expansion_mm(double length_mm, double temperature_rise_k) {
  return kExpansion_per_k * temperature_rise_k * length_mm;
}

double offset_leg_mm(double outside_diameter_mm, double movement_mm) {
  return kOffsetLegFactor * std::sqrt(outside_diameter_mm * std::max(0.0, movement_mm));
}

void check_expansion(const RunContext& context, std::vector<Finding>& findings) {
  const auto& [run, job] = context;
  if (!run.to || !runs_hot(run.service)) return;
  const Rule& rise = job.rules.temperature_rise;
  const Rule& most = job.rules.expansion_movement;
  for (int leg = 0; leg < run.line.leg_count(); ++leg) {
    const double grows = expansion_mm(run.line.leg_length_mm(leg), rise.value);
    const double moves = grows - run.from.loose_mm - run.to->loose_mm;
    if (moves <= most.value + kEnough_mm) continue;
    const double needs = offset_leg_mm(run.tube->outside_diameter_mm, moves);
    const double has = giving_leg_mm(run.line, leg);
    if (has >= needs - kEnough_mm) continue;
    findings.push_back(
        say("expansion", Severity::warn, run,
            in_quotes(run.name) + ": leg " + std::to_string(leg + 1) + " grows by " + length(grows, job) +
                " when hot between fixed ends and needs a leg of " + length_at_least(needs, job) +
                " square to it to take that up, where the longest is " + length_beside(has, needs, job) + rise.remark +
                most.remark + ".",
            {has, needs, "mm",
             "Copper Development Association (UK) publication 88, Table 6; Copper Tube Handbook, Table 14.8"}));
  }
}

}  // namespace halfhard
