// What is suggested, put into the job as text and read back, must plan without a failing finding.
#include "modeller/suggest/suggest.h"

#include <gtest/gtest.h>

#include "modeller/job/read_job.h"
#include "modeller/planner/planner.h"
#include "modeller/suggest/suggestion_json.h"

namespace halfhard {
namespace {

const char* const kBender = R"("former_radius": 55, "fits": 15, "shortest_end": 60, "shortest_lever": 50,
  "shortest_between": 20, "most_angle": 120)";

// A job of one run from (0,0,0), with fixtures and whatever else, and a path where given.
std::string job_text(const std::string& from, const std::string& to, const std::string& fixtures = "",
                     const std::string& more = "", const std::string& path = "") {
  return R"({ "format": "halfhard-job/1", )" + more + R"(
    "tubes": { "t": { "outside_diameter": "15 mm", "wall": "0.7 mm" } },
    "benders": { "b": {)" +
         std::string(kBender) + R"(} },
    "fixtures": [)" +
         fixtures + R"(],
    "runs": [ { "name": "r", "tube": "t", "bender": "b", "from": )" +
         from + R"(, "to": )" + to + (path.empty() ? "" : ", \"path\": " + path) + " } ] }";
}

Job read(const std::string& text) {
  JobReading reading = read_job(text, ReadOptions{});
  for (const JobProblem& problem : reading.problems) ADD_FAILURE() << problem.shown();
  return reading.job ? *reading.job : Job{};
}

struct Asked {
  std::string from, to, fixtures, more;
};

// Suggests, and proves every suggestion through the text.
std::vector<SuggestedPath> proven(const Asked& asked) {
  const Job job = read(job_text(asked.from, asked.to, asked.fixtures, asked.more));
  std::vector<SuggestedPath> paths = suggest_paths(job, "r");
  for (const SuggestedPath& path : paths) {
    const std::string json = path_json(path.steps, job.unit);
    SCOPED_TRACE(json);
    const Planned planned = plan_job(read(job_text(asked.from, asked.to, asked.fixtures, asked.more, json)));
    EXPECT_TRUE(planned.plan);
    if (!planned.plan) continue;
    for (const Finding& finding : planned.plan->findings) {
      EXPECT_NE(finding.severity, Severity::fail) << finding.id << ": " << finding.message;
    }
    const Run& run = *planned.plan->runs.front();
    EXPECT_EQ(static_cast<int>(run.bends.size()), path.bends);
    EXPECT_NEAR(run.cut_length_mm, path.cut_length_mm, 1e-6);
  }
  for (std::size_t i = 1; i < paths.size(); ++i) EXPECT_GE(paths[i].bends, paths[i - 1].bends);
  return paths;
}

const char* const kUp = R"({ "at": [0,0,0], "towards": "up" })";

TEST(Suggest, EndsInLineAreJoinedStraight) {
  const auto paths = proven({kUp, R"({ "at": [0,0,500], "towards": "down" })", "", ""});
  ASSERT_FALSE(paths.empty());
  EXPECT_EQ(paths[0].bends, 0);
  EXPECT_NEAR(paths[0].cut_length_mm, 500, 1e-9);
}

TEST(Suggest, EndsWhoseLinesMeetTakeOneBend) {
  const auto paths = proven({kUp, R"({ "at": [300,0,400], "towards": "left" })", "", ""});
  ASSERT_FALSE(paths.empty());
  EXPECT_EQ(paths[0].bends, 1);
}

TEST(Suggest, EndsOutOfLineTakeAnOffsetInTwoPlanesAtOnce) {
  const auto paths = proven({kUp, R"({ "at": [40,30,600], "towards": "down" })", "", ""});
  ASSERT_FALSE(paths.empty());
  EXPECT_EQ(paths[0].bends, 2);
  EXPECT_TRUE(std::holds_alternative<OffsetStep>(paths[0].steps[1]));
}

TEST(Suggest, EndsSideBySideTakeAU) {
  const auto paths = proven({kUp, R"({ "at": [300,0,0], "towards": "up" })", "", ""});
  ASSERT_FALSE(paths.empty());
  EXPECT_EQ(paths[0].bends, 2);
}

TEST(Suggest, SquareEndsThatMissEachOtherAreJoined) {
  const auto paths = proven({kUp, R"({ "at": [400,60,500], "towards": "left" })", "", ""});
  ASSERT_FALSE(paths.empty());
  EXPECT_LE(paths[0].bends, 3);
}

TEST(Suggest, SkewEndsAreJoined) {
  const auto paths = proven({kUp, R"({ "at": [300,200,400], "towards": [-1,-0.5,-0.3] })", "", ""});
  ASSERT_FALSE(paths.empty());
  EXPECT_EQ(paths[0].bends, 2);
}

bool has_passover(const SuggestedPath& path) {
  return std::any_of(path.steps.begin(), path.steps.end(),
                     [](const PathStep& step) { return std::holds_alternative<PassoverStep>(step); });
}

TEST(Suggest, APipeAcrossTheWayIsPassedOver) {
  const std::string riser =
      R"({ "name": "riser", "cylinder": { "from": [-300,0,350], "to": [300,0,350], "diameter": 22 }, "keep_clear": 15 })";
  const auto paths = proven({kUp, R"({ "at": [0,0,800], "towards": "down" })", riser, ""});
  ASSERT_FALSE(paths.empty());
  EXPECT_EQ(paths[0].bends, 3);
  EXPECT_TRUE(has_passover(paths[0]));
  EXPECT_NEAR(paths[0].least_clearance_mm, 15, 1.5) << "no higher than it must be";
}

TEST(Suggest, ABroadBodyIsPassedOverWithAFlat) {
  const std::string box =
      R"({ "name": "duct", "box": { "from": [-300,-10,300], "to": [300,400,700] }, "keep_clear": 10 })";
  const auto paths = proven({kUp, R"({ "at": [0,0,1000], "towards": "down" })", box, ""});
  ASSERT_FALSE(paths.empty());
  bool flat = false;
  for (const SuggestedPath& path : paths)
    for (const PathStep& step : path.steps)
      if (const auto* passover = std::get_if<PassoverStep>(&step)) flat = flat || passover->flat_mm;
  EXPECT_TRUE(flat);
}

TEST(Suggest, WhatIsInTheWayIsPassedAtItsClearance) {
  const std::string box =
      R"({ "name": "duct", "box": { "from": [-60,-60,200], "to": [60,60,300] }, "keep_clear": 10 })";
  const auto paths = proven({kUp, R"({ "at": [0,0,700], "towards": "down" })", box, ""});
  ASSERT_FALSE(paths.empty());
  EXPECT_EQ(paths[0].bends, 3);
  EXPECT_GE(paths[0].least_clearance_mm, 10 - 1e-3);
  EXPECT_EQ(paths[0].nearest, "duct");
}

TEST(Suggest, APanelThatMayBeDrilledIsGoneThrough) {
  const std::string panel =
      R"({ "name": "panel", "box": { "from": [-300,-300,240], "to": [300,300,258] }, "may_drill": true })";
  const auto paths = proven({kUp, R"({ "at": [0,0,500], "towards": "down" })", panel, ""});
  ASSERT_FALSE(paths.empty());
  EXPECT_EQ(paths[0].bends, 0);
  EXPECT_EQ(paths[0].drills, std::vector<std::string>{"panel"});
}

TEST(Suggest, APanelBetweenTheEndsIsDrilled) {
  // Whatever is offered passes the checks, which let a hole be straight only.
  const std::string panel =
      R"({ "name": "panel", "box": { "from": [-300,-80,-100], "to": [300,-62,900] }, "may_drill": true })";
  const auto paths = proven({kUp, R"({ "at": [40,-140,500], "towards": "down" })", panel, ""});
  ASSERT_FALSE(paths.empty());
  EXPECT_LE(paths[0].bends, 4);
  EXPECT_EQ(paths[0].drills, std::vector<std::string>{"panel"});
}

TEST(Suggest, ABankIsSuggestedForAllItsPieces) {
  // Straight up is free for the first piece; the third would run into the post.
  const std::string post =
      R"({ "name": "post", "cylinder": { "from": [120,-300,250], "to": [120,300,250], "diameter": 30 } })";
  const std::string bank = R"("banks": [ { "of": "r", "count": 3, "step": { "right": 60 } } ],)";
  for (const SuggestedPath& path : proven({kUp, R"({ "at": [0,0,700], "towards": "down" })", post, bank})) {
    EXPECT_GT(path.bends, 0);
  }
}

TEST(Suggest, AnInchJobGetsInches) {
  const std::string to = R"({ "at": [12,0,20], "towards": "left" })";
  const Job job = read(job_text(kUp, to, "", R"("length_unit": "in",)"));
  // The bender above is in the job's unit: 55 in would not fit.
  EXPECT_TRUE(suggest_paths(job, "r").empty());
  const std::vector<PathStep> steps{GoStep{Vec3::UnitZ(), 254.0, {}, ""}, GoStep{Vec3::UnitX(), Rest{}, {}, ""}};
  EXPECT_EQ(path_json(steps, LengthUnit::inch), R"([ {"go":"up","by":10}, {"go":"right","by":"rest"} ])");
}

TEST(Suggest, WalledInEndsGetNothing) {
  const std::string lid = R"({ "name": "slab", "plane": { "at": [0,0,30], "facing": "down" } })";
  EXPECT_TRUE(proven({kUp, R"({ "at": [0,0,700], "towards": "down" })", lid, ""}).empty());
}

}  // namespace
}  // namespace halfhard
