// Jobs whose run once had a path that passes (NAME.known.json): taken away, a path must be found.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include "modeller/job/json_patch.h"
#include "modeller/job/read_job.h"
#include "modeller/planner/planner.h"
#include "modeller/suggest/lay_together.h"
#include "modeller/suggest/suggestion_json.h"

namespace halfhard {
namespace {

namespace fs = std::filesystem;

std::string text_of(const std::string& name) {
  std::ifstream stream(std::string(HALFHARD_TESTS_DIR) + "/modeller/suggest/cases/" + name + ".json");
  return {std::istreambuf_iterator<char>(stream), {}};
}

Job job_of(const std::string& text) {
  JobReading reading = read_job(text, ReadOptions{});
  for (const JobProblem& problem : reading.problems) ADD_FAILURE() << problem.shown();
  return reading.job ? *reading.job : Job{};
}

void expect_no_failure(const Job& job) {
  const Planned planned = plan_job(job);
  ASSERT_TRUE(planned.plan);
  for (const Finding& finding : planned.plan->findings) {
    EXPECT_NE(finding.severity, Severity::fail) << finding.id << ": " << finding.message;
  }
}

std::vector<RunSuggestions> found_in(const std::string& name) {
  const Job job = job_of(text_of(name));
  std::vector<std::string> names;
  for (const JobRun& run : job.runs) {
    if (!run.has_path) names.push_back(run.name);
  }
  return lay_together(job, names);
}

std::vector<std::string> names_of_cases() {
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator(std::string(HALFHARD_TESTS_DIR) + "/modeller/suggest/cases")) {
    const std::string name = entry.path().stem().string();
    if (name.find(".known") == std::string::npos && name != "closed-lid-40") names.push_back(name);
  }
  std::sort(names.begin(), names.end());
  return names;
}

class FindCases : public testing::TestWithParam<std::string> {};

TEST_P(FindCases, EveryRunIsFoundAndWhatIsOfferedPasses) {
  Job job = job_of(text_of(GetParam()));
  for (const RunSuggestions& run : found_in(GetParam())) {
    ASSERT_FALSE(run.found.paths.empty()) << run.run;
    for (JobRun& each : job.runs) {
      if (each.name != run.run) continue;
      each.path = run.found.paths.front().steps;
      each.has_path = true;
    }
    EXPECT_TRUE(run.found.stopped_by.empty());
  }
  expect_no_failure(job);
}

TEST_P(FindCases, NoMoreBendsThanTheKnownRunAndOneForMadeUpAngles) {
  const std::string known_text = text_of(GetParam() + ".known");
  if (known_text.empty()) GTEST_SKIP() << "no known run";
  const Planned known = plan_job(job_of(known_text));
  ASSERT_TRUE(known.plan);
  const auto found = found_in(GetParam());
  ASSERT_FALSE(found.front().found.paths.empty());
  EXPECT_LE(found.front().found.paths.front().bends, static_cast<int>(known.plan->runs.front()->bends.size()) + 1);
}

INSTANTIATE_TEST_SUITE_P(All, FindCases, testing::ValuesIn(names_of_cases()), [](const auto& info) {
  std::string name = info.param;
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
});

TEST(Suggest, AUOfTwiceTheFormersRadiusIsOnePull) {
  const auto found = found_in("u-110-one-pull");
  ASSERT_FALSE(found.front().found.paths.empty());
  EXPECT_EQ(found.front().found.paths.front().bends, 2);
  EXPECT_EQ(found.front().found.paths.front().angles_deg, (std::vector<double>{90, 90}));
}

TEST(Suggest, AShallowOffsetIsTwoBendsAtAnAngleOfItsOwn) {
  const auto found = found_in("offset-5mm");
  ASSERT_FALSE(found.front().found.paths.empty());
  EXPECT_EQ(found.front().found.paths.front().bends, 2);
}

TEST(Suggest, WhereTwo45sLeadThereTheyAreOffered) {
  const auto found = found_in("nominal-45-45-not-offered");
  ASSERT_FALSE(found.front().found.paths.empty());
  EXPECT_EQ(found.front().found.paths.front().angles_deg, (std::vector<double>{45, 45}));
}

TEST(Suggest, A45AndA60AreFoundTogether) {
  const auto found = found_in("two-bends-45-60-no-fixture");
  ASSERT_FALSE(found.front().found.paths.empty());
  const auto& angles_deg = found.front().found.paths.front().angles_deg;
  ASSERT_EQ(angles_deg.size(), 2u);
  EXPECT_EQ(std::min(angles_deg[0], angles_deg[1]), 45);
  EXPECT_EQ(std::max(angles_deg[0], angles_deg[1]), 60);
}

TEST(Suggest, AClosedSceneNamesWhatClosesIt) {
  const auto found = found_in("closed-lid-40");
  ASSERT_EQ(found.size(), 1u);
  EXPECT_TRUE(found.front().found.paths.empty());
  const auto& reasons = found.front().found.stopped_by;
  ASSERT_FALSE(reasons.empty());
  const bool named = std::any_of(reasons.begin(), reasons.end(),
                                 [](const std::string& reason) { return reason.find("lid") != std::string::npos; });
  EXPECT_TRUE(named) << reasons.front();
}

TEST(Suggest, TheSameJobGivesTheSameAnswerTwice) {
  const Job job = job_of(text_of("none-trade-3"));
  EXPECT_EQ(suggestions_json(job, found_in("none-trade-3")), suggestions_json(job, found_in("none-trade-3")));
}

}  // namespace
}  // namespace halfhard
