#include "geometry/flow/growth.h"

#include <algorithm>
#include <cmath>

namespace halfhard {
namespace {

constexpr double kGrowth_per_k = 16.8e-6;
constexpr double kGivingLeg = 88.8;

}  // namespace

double growth_mm(double length_mm, double warmer_k) { return kGrowth_per_k * warmer_k * length_mm; }

double leg_that_gives_mm(double outside_diameter_mm, double movement_mm) {
  return kGivingLeg * std::sqrt(outside_diameter_mm * std::max(0.0, movement_mm));
}

std::vector<LegGrowth> run_growth(const Run& run, double warmer_k) {
  const CentreLine& line = run.line;
  std::vector<LegGrowth> legs;
  for (int leg = 0; leg < line.leg_count(); ++leg) {
    LegGrowth growth{leg + 1, line.leg_length_mm(leg), growth_mm(line.leg_length_mm(leg), warmer_k)};
    growth.needs_mm = leg_that_gives_mm(run.tube->outside_diameter_mm, growth.grows_mm);
    for (int other = 0; other < line.leg_count(); ++other) {
      const double across = line.leg_direction(other).cross(line.leg_direction(leg)).norm();
      if (across >= Angle::degrees(45).sin() - 1e-9)
        growth.has_mm = std::max(growth.has_mm, line.leg_length_mm(other) * across);
    }
    legs.push_back(growth);
  }
  return legs;
}

}  // namespace halfhard
