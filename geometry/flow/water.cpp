#include "geometry/flow/water.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace halfhard {
namespace {

constexpr double kLaminarUntil = 2300;

struct Known {
  double celsius, density, viscosity;
};
constexpr std::array<Known, 7> kWater = {{{0, 999.8, 1.787e-6},
                                          {10, 999.7, 1.307e-6},
                                          {20, 998.2, 1.004e-6},
                                          {40, 992.2, 0.658e-6},
                                          {60, 983.2, 0.474e-6},
                                          {80, 971.8, 0.365e-6},
                                          {100, 958.4, 0.294e-6}}};

double pressure_of_velocity_kpa(double velocity, const Water& water) {
  return water.density_kg_per_m3 * velocity * velocity / 2 / 1000;
}

}  // namespace

Water water_at(double celsius) {
  const double at = std::clamp(celsius, kWater.front().celsius, kWater.back().celsius);
  std::size_t i = 1;
  while (i + 1 < kWater.size() && at > kWater[i].celsius) ++i;
  const Known &a = kWater[i - 1], &b = kWater[i];
  const double share = (at - a.celsius) / (b.celsius - a.celsius);
  return {a.density + share * (b.density - a.density), a.viscosity + share * (b.viscosity - a.viscosity)};
}

double velocity_m_per_s(double flow_l_per_s, double bore_mm) {
  return flow_l_per_s * 1e3 / (std::numbers::pi / 4 * bore_mm * bore_mm);  // l/s to mm3/s, mm/s to m/s
}

double reynolds_number(double velocity, double bore_mm, const Water& water) {
  return velocity * bore_mm / 1000 / water.kinematic_viscosity_m2_per_s;
}

double friction_factor(double reynolds, double relative_roughness) {
  if (reynolds < kLaminarUntil) return 64 / reynolds;
  double inverse_root = 6;  // 1 / sqrt(f); the formula draws it in by a tenth and more a round
  for (int round = 0; round < 100; ++round) {
    const double next = -2 * std::log10(relative_roughness / 3.7 + 2.51 / reynolds * inverse_root);
    const bool settled = std::abs(next - inverse_root) < 1e-12;
    inverse_root = next;
    if (settled) break;
  }
  return 1 / (inverse_root * inverse_root);
}

double friction_loss_kpa(double flow_l_per_s, double bore_mm, double length_mm, const Water& water,
                         double roughness_mm) {
  if (flow_l_per_s <= 0) return 0;
  const double velocity = velocity_m_per_s(flow_l_per_s, bore_mm);
  const double factor = friction_factor(reynolds_number(velocity, bore_mm, water), roughness_mm / bore_mm);
  return factor * length_mm / bore_mm * pressure_of_velocity_kpa(velocity, water);
}

double local_loss_kpa(double coefficient, double flow_l_per_s, double bore_mm, const Water& water) {
  return coefficient * pressure_of_velocity_kpa(velocity_m_per_s(flow_l_per_s, bore_mm), water);
}

double bend_loss_coefficient(double radius_in_bores, Angle angle) {
  constexpr double kTight = 1.5, kWide = 5, kAtTight = 0.15, kAtWide = 0.0996;
  const double share = std::clamp((radius_in_bores - kTight) / (kWide - kTight), 0.0, 1.0);
  const double at_90 = radius_in_bores < kTight ? kElbowLoss : kAtTight + share * (kAtWide - kAtTight);
  return at_90 * angle.degrees() / 90;
}

double highest_advised_velocity_m_per_s(double celsius) { return celsius <= 25 ? 2.4 : celsius <= 60 ? 1.5 : 0.9; }

}  // namespace halfhard
