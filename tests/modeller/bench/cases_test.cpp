// Small job, measurement and trial files that were answered badly once.
#include <gtest/gtest.h>

#include <fstream>
#include <sstream>

#include "modeller/bench/calibrate.h"
#include "modeller/bench/correct.h"
#include "modeller/job/read_job.h"
#include "modeller/planner/planner.h"

namespace halfhard {
namespace {

std::string text_of(const std::string& name) {
  std::ifstream file(std::string(HALFHARD_TESTS_DIR) + "/modeller/bench/cases/" + name + ".json");
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

Advice advice(const std::string& job, const std::string& measured) {
  const auto read = read_job(text_of(job), {});
  EXPECT_TRUE(read.job);
  const Plan plan = *plan_job(*read.job).plan;
  const MeasuredReading reading = read_measured(text_of(measured), measured, plan);
  EXPECT_TRUE(reading.piece) << measured;
  return plan_correction(*plan.runs.front(), plan.tolerance, *reading.piece).advice;
}

TEST(BenchCases, NoPieceIsAdvisedWrongly) {
  EXPECT_EQ(advice("correct-job", "correct-contradiction-leave"), Advice::measure_again);
  EXPECT_EQ(advice("correct-job", "correct-leg-only-leave"), Advice::measure_more);
  EXPECT_EQ(advice("correct-job", "correct-opens-12"), Advice::scrap);
  EXPECT_EQ(advice("correct-job-gas", "correct-gas-opened"), Advice::scrap);
  // By a protractor of half a degree nothing surely helps here; two gaps show it better.
  EXPECT_EQ(advice("correct-job", "correct-one-bend-of-offset"), Advice::measure_more);
  EXPECT_EQ(advice("correct-job", "correct-gaps-refused"), Advice::bend);
}

bool usable(const std::string& name) {
  const TrialReading reading = read_trial(text_of(name), name);
  EXPECT_TRUE(reading.trial) << name;
  return calibrate(*reading.trial).usable;
}

TEST(BenchCases, TrialsThatCannotBeAreRefusedAndAHalfTurnIsNot) {
  EXPECT_TRUE(usable("calibrate-180-refused"));
  EXPECT_FALSE(usable("calibrate-radius-198"));
  EXPECT_FALSE(usable("calibrate-mark-beyond-tube"));
  EXPECT_FALSE(usable("calibrate-spread-60"));
}

}  // namespace
}  // namespace halfhard
