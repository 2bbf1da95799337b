// What a hole excuses and what it does not.
#include <gtest/gtest.h>

#include "modeller/job/read_job.h"
#include "modeller/planner/planner.h"

namespace halfhard {
namespace {

std::shared_ptr<const Plan> planned(const std::string& path, const std::string& more = "") {
  const std::string text = R"({ "format": "halfhard-job/1", "list_clearances_within": 40,
  "tubes": { "t": { "outside_diameter": 15, "wall": 1 } }, "benders": { "b": { "former_radius": 55 } },
  "fixtures": [ { "name": "panel", "box": { "from": [-100, -100, 100], "to": [600, 100, 118] }, "may_drill": true,
                  "keep_clear": 5 )" +
                           more +
                           R"( } ],
  "runs": [ { "name": "r", "tube": "t", "bender": "b", "from": { "at": [0, 0, 0], "towards": "up" }, "path": )" +
                           path + " } ] }";
  const JobReading reading = read_job(text, {});
  EXPECT_TRUE(reading.job) << (reading.problems.empty() ? "" : reading.problems.front().shown());
  return reading.job ? plan_job(*reading.job).plan : nullptr;
}

TEST(Drilled, AHoleExcusesTheTubeInItAndWhereItLeavesIt) {
  const auto plan = planned(R"([ { "go": "up", "by": 300 }, { "go": "right", "by": 200 } ])");
  ASSERT_EQ(plan->drillings.size(), 1u);
  EXPECT_NEAR(plan->drillings[0].depth_mm, 18, 1e-9);
  EXPECT_TRUE(plan->clearances.empty());
  // So it does where the tube bends as soon as it is through, and where it ends there.
  EXPECT_TRUE(planned(R"([ { "go": "up", "by": 180 }, { "go": "right", "by": 200 } ])")->clearances.empty());
  EXPECT_TRUE(planned(R"([ { "go": "up", "by": 120 } ])")->clearances.empty());
}

TEST(Drilled, AHoleDoesNotExcuseGrazingTheSameBodyElsewhere) {
  const auto back_to = [](const char* down) {
    return planned(std::string(R"([ { "go": "up", "by": 300 }, { "go": "right", "by": 200 }, { "go": "down", "by": )") +
                   down + R"( }, { "go": "right", "by": 200 } ])");
  };
  const auto into = back_to("177");
  EXPECT_EQ(into->drillings.size(), 1u);
  ASSERT_EQ(into->clearances.size(), 1u);
  EXPECT_NEAR(into->clearances[0].distance_mm, -2.5, 1e-9);
  EXPECT_TRUE(into->fails());
  const auto too_near = back_to("170");
  ASSERT_EQ(too_near->clearances.size(), 1u);
  EXPECT_NEAR(too_near->clearances[0].distance_mm, 4.5, 1e-9);
  EXPECT_TRUE(too_near->fails());
  EXPECT_TRUE(back_to("169")->clearances.empty());
}

TEST(Drilled, RunningAlongTheFaceRightAfterTheHoleIsNotExcused) {
  // Up through the panel, bent square from within it (as far as the hole's clearance lets it), and along its upper face
  // at 2 mm.
  const auto plan = planned(R"([ { "go": "up", "by": 127.5 }, { "go": "right", "by": 300 } ])");
  ASSERT_EQ(plan->clearances.size(), 1u);
  EXPECT_NEAR(plan->clearances[0].distance_mm, 2, 1e-9);
  EXPECT_TRUE(plan->fails());
}

TEST(Drilled, ABendInTheBodyOrABodyThatMovesIsNoHole) {
  const auto bent =
      planned(R"([ { "go": "up", "by": 109 }, { "go": "right", "by": 200 }, { "go": "up", "by": 300 } ])");
  EXPECT_TRUE(bent->drillings.empty());
  EXPECT_TRUE(bent->fails());
  const auto drawer = planned(R"([ { "go": "up", "by": 300 } ])", R"(, "slides": { "front": 300 })");
  EXPECT_TRUE(drawer->drillings.empty());
  EXPECT_TRUE(drawer->fails());
}

}  // namespace
}  // namespace halfhard
