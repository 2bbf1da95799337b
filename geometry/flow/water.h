// Water as pipes carry it, and what it loses in them. Pressure kPa, velocity m/s, flow l/s, lengths mm.
#pragma once

#include "geometry/base/angle.h"

namespace halfhard {

struct Water {
  double density_kg_per_m3 = 999.7;
  double kinematic_viscosity_m2_per_s = 1.307e-6;
};
// From 0 to 100 degrees C, held at the ends; straight between 0, 10, 20, 40, 60, 80 and 100. Source: values at normal
// pressure, from memory.
Water water_at(double celsius);

// Of drawn copper tube. Source: published Moody chart's value for drawn tubing, 0.0015 mm, quoted second-hand.
inline constexpr double kDrawnTubeRoughness_mm = 0.0015;

double velocity_m_per_s(double flow_l_per_s, double bore_mm);
double reynolds_number(double velocity_m_per_s, double bore_mm, const Water& water);

// Darcy friction factor: 64/Re where the flow is laminar (below 2300), else Colebrook and White's formula (Colebrook,
// Journal of the Institution of Civil Engineers 11, 1939), solved to 1e-12. Requires Re > 0 and a roughness from 0 to a
// twentieth of the bore.
double friction_factor(double reynolds, double relative_roughness);

// Darcy and Weisbach: f L/d rho v^2/2. 0 at no flow.
double friction_loss_kpa(double flow_l_per_s, double bore_mm, double length_mm, const Water& water,
                         double roughness_mm = kDrawnTubeRoughness_mm);
// K rho v^2/2.
double local_loss_kpa(double coefficient, double flow_l_per_s, double bore_mm, const Water& water);

// Loss coefficient of a smooth bend beyond its own length's friction, by its radius in bores and its angle. At 90: 0.0996
// from 5 bores on (Pipe Friction Manual, Hydraulic Institute 1962, as quoted in an equation solver's manual; beyond four
// diameters the largest published value stands: Beij, NBS Research Paper RP1110, 1938), 0.15 at 1.5 (a long-radius elbow:
// a trade magazine's typical value), straight between, 0.25 below. In proportion to the angle: common practice, no source.
double bend_loss_coefficient(double radius_in_bores, Angle angle);
// Of a soldered elbow of 90, taken as short-radius. Source: a trade magazine's typical value.
inline constexpr double kElbowLoss = 0.25;

// Highest commonly advised in copper: 2.4 cold, 1.5 hot up to 60 degrees C, 0.9 above. Source: a published engineering
// reference page.
double highest_advised_velocity_m_per_s(double celsius);

}  // namespace halfhard
