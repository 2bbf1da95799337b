// Figures of single checks against what is published.
#include <gtest/gtest.h>

#include "geometry/flow/growth.h"
#include "geometry/rules/separation_rules.h"
#include "modeller/catalogue/tube_sizes.h"
#include "modeller/checks/radius.h"
#include "modeller/checks/saying.h"
#include "modeller/checks/wall.h"
#include "tests/modeller/checks/samples.h"

namespace halfhard {
namespace {

// Computed: geometric thinning 1 - R/(R + D/2): 3D 14.3 %, 3.5D 12.5 %, 4D 11.1 %.
TEST(Wall, ThinsByItsGeometry) {
  EXPECT_NEAR(wall_thinning_percent(45, 15), 14.29, 0.01);
  EXPECT_NEAR(wall_thinning_percent(52.5, 15), 12.5, 1e-9);
  EXPECT_NEAR(wall_thinning_percent(60, 15), 11.11, 0.01);
}

// Copper Development Association (UK) publication 88, Table 6: 10 m by 60 K 10.08 mm.
TEST(Expansion, TenMetresBySixtyDegreesGrowTenMillimetres) { EXPECT_NEAR(growth_mm(10000, 60), 10.08, 1e-9); }

// Copper Tube Handbook, Table 14.8: 1/2 in tube (OD 5/8), 1/2 in movement: 50 in.
TEST(Expansion, TheOffsetLegIsTheHandbooks) {
  EXPECT_NEAR(leg_that_gives_mm(0.625 * 25.4, 0.5 * 25.4) / 25.4, 50, 0.5);
}

// DIN EN 1057 table, R250 (IKZ-Praxis 2/2000 p. 8).
TEST(Radius, TheLeastPublishedIsByDiameter) {
  Tube tube = support::tube_15();
  for (const auto& [od, radius] :
       {std::pair(6.0, 30.0), {8, 35}, {10, 40}, {12, 45}, {14, 50}, {15, 55}, {16, 60}, {18, 70}}) {
    tube.outside_diameter_mm = od;
    ASSERT_TRUE(least_radius(tube)) << od;
    EXPECT_EQ(least_radius(tube)->radius_mm, radius);
  }
  tube.outside_diameter_mm = 20;
  EXPECT_FALSE(least_radius(tube));
}

// BS 6891, from a secondary copy: 25 mm from cables.
TEST(Separation, GasKeepsFromElectricBothWaysRoundAndNothingElseIsKnown) {
  EXPECT_EQ(service_separation_mm(Service::gas, Service::electric, Rules()), 25);
  EXPECT_EQ(service_separation_mm(Service::electric, Service::gas, Rules()), 25);
  EXPECT_EQ(service_separation_mm(Service::gas, Service::cold, Rules()), 0);
  EXPECT_EQ(service_separation_mm(Service::hot, Service::cold, Rules()), 0);
  EXPECT_EQ(service_separation_mm(Service::none, Service::none, Rules()), 0);
  Rules rules;
  set_limit(rules, *find_limit("gas_from_cable"), 60, "site rule");
  EXPECT_EQ(service_separation_mm(Service::gas, Service::electric, rules), 60);
}

TEST(Clearance, BothRunsOfAPairFail) {
  auto other = good_offset();
  other->name = "other";
  Checked made = checked({good_offset(), other});
  Clearance pair;
  pair.first = "tail";
  pair.second = "other";
  pair.distance_mm = -2;
  made.plan.clearances.push_back(pair);
  made.plan.findings = findings_of(made);
  for (const auto& run : made.plan.runs) {
    ASSERT_NE(made.plan.failure_of(*run), nullptr) << run->name;
    EXPECT_EQ(made.plan.failure_of(*run)->id, "clearance");
  }
}

TEST(Clearance, ARunThatMeetsItselfFailsOnce) {
  Checked made = checked(*good_offset());
  Clearance pair;
  pair.first = pair.second = "tail";
  pair.distance_mm = -15;
  made.plan.clearances.push_back(pair);
  std::vector<Finding> clearances;
  for (const Finding& finding : findings_of(made)) {
    if (finding.severity == Severity::fail) clearances.push_back(finding);
  }
  ASSERT_EQ(clearances.size(), 1u);
  EXPECT_NE(clearances[0].message.find("crosses itself"), std::string::npos);
}

TEST(Clearance, ThroughABodyThatMayNotBeDrilledIsSaidInWords) {
  Checked made = checked(*good_offset());
  Fixture panel;
  panel.name = "panel";
  made.plan.fixtures.push_back(std::make_shared<Fixture>(panel));
  Clearance pair;
  pair.first = "tail";
  pair.second = "panel";
  pair.distance_mm = -20;
  made.plan.clearances.push_back(pair);
  const auto findings = findings_of(made);
  const auto found =
      std::find_if(findings.begin(), findings.end(), [](const Finding& f) { return f.id == "clearance"; });
  ASSERT_NE(found, findings.end());
  EXPECT_NE(found->message.find("runs through 'panel', which may not be drilled"), std::string::npos) << found->message;
}

TEST(Saying, NoSentenceCallsAShortLengthLongEnough) {
  const Job job;
  EXPECT_EQ(length_beside(79.9, 80, job), "79.9 mm");
  EXPECT_EQ(length_beside(79.2, 80, job), "79 mm");
  EXPECT_EQ(length_beside(79.99999, 80, job), "79.99999 mm");
  EXPECT_EQ(length_at_least(17.1, job), "17.5 mm");
  EXPECT_EQ(length_at_least(17.5, job), "17.5 mm");
}

}  // namespace
}  // namespace halfhard
