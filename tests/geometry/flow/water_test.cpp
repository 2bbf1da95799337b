#include "geometry/flow/water.h"

#include <gtest/gtest.h>

#include "geometry/flow/growth.h"
#include "geometry/flow/run_flow.h"
#include "tests/support/plans.h"

namespace halfhard {
namespace {

constexpr double kInch_mm = 25.4, kGallon_l = 3.785411784, kPsi_kpa = 6.894757, kFoot_mm = 304.8;

double psi_per_100_ft(double gallons_per_minute, double bore_in) {
  return friction_loss_kpa(gallons_per_minute * kGallon_l / 60, bore_in * kInch_mm, 100 * kFoot_mm, water_at(15)) /
         kPsi_kpa;
}

// A published irrigation tutorial's table of friction in ASTM B88 tube, psi per 100 ft, quoted second-hand; it follows
// Hazen and Williams' formula with C near 140, which knows no viscosity: at 15 degrees C Colebrook's lies 11 % above it at
// the smallest flow and 12 % below at the greatest. Bores: 1/2 in type L
// 0.545, type K 0.527; 3/4 in type K 0.745.
TEST(Water, FrictionAgreesWithAPublishedTable) {
  const struct {
    double bore_in, gallons_per_minute, psi;
  } kTable[] = {{0.545, 1, 0.95}, {0.545, 2, 3.44}, {0.545, 3, 7.29},  {0.545, 4, 12.41}, {0.545, 5, 18.77},
                {0.527, 1, 1.20}, {0.527, 2, 4.33}, {0.527, 3, 9.17},  {0.527, 4, 15.67}, {0.745, 1, 0.23},
                {0.745, 2, 0.77}, {0.745, 5, 4.21}, {0.745, 10, 15.15}};
  for (const auto& [bore, flow, psi] : kTable)
    EXPECT_NEAR(psi_per_100_ft(flow, bore) / psi, 1, 0.125) << flow << " gpm in " << bore << " in";
}

TEST(Water, TheFrictionFactorSolvesItsFormula) {
  for (const double reynolds : {4e3, 1e4, 1e5, 1e6}) {
    for (const double roughness : {0.0, 1e-4, 1e-2}) {
      const double f = friction_factor(reynolds, roughness);
      EXPECT_NEAR(1 / std::sqrt(f), -2 * std::log10(roughness / 3.7 + 2.51 / (reynolds * std::sqrt(f))), 1e-9);
    }
  }
  EXPECT_EQ(friction_factor(1000, 1e-4), 0.064);  // laminar: 64/Re
}

// Pipe Friction Manual (Hydraulic Institute 1962) as quoted in an equation solver's manual: R/D 5, 0.0996.
TEST(Water, BendsLoseByTheirRadiusAndAngle) {
  const Angle right = Angle::degrees(90);
  EXPECT_NEAR(bend_loss_coefficient(5, right), 0.0996, 1e-12);
  EXPECT_NEAR(bend_loss_coefficient(9, right), 0.0996, 1e-12);
  EXPECT_NEAR(bend_loss_coefficient(1.5, right), 0.15, 1e-12);
  EXPECT_NEAR(bend_loss_coefficient(5, Angle::degrees(45)), 0.0498, 1e-12);
  EXPECT_LT(bend_loss_coefficient(4, right), kElbowLoss);
}

// By hand at 0.2 l/s in a bore of 13.6: v 1.3768 m/s, rho v^2/2 0.947 kPa, so that a bend of 90 at R/d 4.04 (K 0.1134)
// loses 0.107 kPa and an elbow 0.237.
TEST(RunFlow, ABentRunLosesLessThanOneWithElbowsAndThatLessThanAConnector) {
  const auto run = support::run_through("tail", {{0, 0, 0}, {0, 0, 300}, {400, 0, 300}});
  const RunFlow flow = run_flow(*run, 0.2, water_at(10));
  EXPECT_NEAR(flow.velocity_m_per_s, 1.3768, 1e-3);
  EXPECT_NEAR(flow.bent.turns_kpa, 0.1134 * 0.9475, 1e-3);
  EXPECT_NEAR(flow.with_elbows.turns_kpa, 0.25 * 0.9475, 1e-3);
  EXPECT_LT(flow.bent.total_kpa(), flow.with_elbows.total_kpa());
  EXPECT_LT(flow.with_elbows.total_kpa(), flow.connector.total_kpa());
  EXPECT_EQ(run_flow(*run, 0, water_at(10)).bent.total_kpa(), 0);
}

// Copper Development Association (UK) publication 88, Table 6: 10 m by 60 K grows 10.08 mm. Copper Tube Handbook, Table
// 14.8: 1/2 in tube (5/8 in outside), half an inch of movement: 50 in.
TEST(RunFlow, LegsGrowAsPublished) {
  EXPECT_NEAR(growth_mm(10000, 60), 10.08, 1e-9);
  EXPECT_NEAR(leg_that_gives_mm(0.625 * kInch_mm, 0.5 * kInch_mm) / kInch_mm, 50, 0.5);
  const auto run = support::run_through("flow", {{0, 0, 0}, {4000, 0, 0}, {4000, 700, 0}});
  const std::vector<LegGrowth> legs = run_growth(*run, 60);
  ASSERT_EQ(legs.size(), 2u);
  EXPECT_NEAR(legs[0].grows_mm, 4.032, 1e-9);
  EXPECT_NEAR(legs[0].needs_mm, 690.6, 0.1);
  EXPECT_EQ(legs[0].has_mm, 700);
}

}  // namespace
}  // namespace halfhard
