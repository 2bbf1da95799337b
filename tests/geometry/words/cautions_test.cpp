#include "geometry/words/cautions.h"

#include "tests/support/plans.h"

namespace halfhard {
namespace {

bool says(const std::vector<std::string>& all, const std::string& word) {
  return caution_paragraph(all).find(word) != std::string::npos;
}

Plan plan_with(Service service) {
  support::RunOptions options;
  options.service = service;
  return support::plan_of({support::run_through("tail", support::multi_plane_points(), options)});
}

TEST(Cautions, WhatIsAlwaysToBeMindedIsOnEveryPaper) {
  for (const Service service : {Service::none, Service::cold, Service::hot, Service::gas, Service::discharge}) {
    const Plan plan = plan_with(service);
    for (const auto& all : {cautions(plan), cautions(plan, *plan.runs[0])})
      for (const char* word : {"cables", "former", "burrs", "pressure", "Local codes"})
        EXPECT_TRUE(says(all, word)) << word << " " << static_cast<int>(service);
  }
}

TEST(Cautions, EachServiceAsksForItsOwn) {
  EXPECT_TRUE(says(cautions(plan_with(Service::gas)), "licensed"));
  EXPECT_FALSE(says(cautions(plan_with(Service::cold)), "licensed"));
  EXPECT_TRUE(says(cautions(plan_with(Service::hot)), "burn"));
  EXPECT_FALSE(says(cautions(plan_with(Service::cold)), "burn"));
  EXPECT_TRUE(says(cautions(plan_with(Service::cold)), "Isolate and drain"));
  EXPECT_TRUE(says(cautions(plan_with(Service::vent)), "bursting"));
  EXPECT_TRUE(says(cautions(plan_with(Service::discharge)), "scalding"));
}

TEST(Cautions, WhatTheWorkIsDoneBesideIsMindedOnTheWholeJob) {
  Plan plan = plan_with(Service::cold);
  EXPECT_FALSE(says(cautions(plan), "qualified"));
  EXPECT_FALSE(says(cautions(plan), "timber"));
  auto cable = std::make_shared<Fixture>(), joist = std::make_shared<Fixture>();
  cable->service = Service::electric;
  joist->kind = FixtureKind::joist;
  plan.fixtures = {cable, joist};
  EXPECT_TRUE(says(cautions(plan), "qualified"));
  EXPECT_TRUE(says(cautions(plan), "timber"));
}

}  // namespace
}  // namespace halfhard
