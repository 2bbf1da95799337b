#include "tests/modeller/job/contract_example.h"

#include <gtest/gtest.h>

#include "tests/modeller/job/reading.h"

namespace halfhard {
namespace {

Job example() {
  ReadOptions options;
  options.file = "folder/basin tails.json";
  JobReading reading = read_job(kContractExample, options);
  for (const JobProblem& problem : reading.problems) ADD_FAILURE() << problem.shown();
  return reading.job.value_or(Job{});
}

TEST(ContractExample, ReadsWithoutAFault) {
  const Job job = example();
  EXPECT_EQ(job.title, "Basin tails, studio flat");
  EXPECT_EQ(job.surface, "finished");
  EXPECT_EQ(job.stem, "basin tails");
  EXPECT_EQ(job.digest.size(), 16u);
  EXPECT_EQ(job.values.at("outlet_height"), 350);
  EXPECT_EQ(job.list_clearances_within_mm, 250);
}

TEST(ContractExample, TubesAndBenderAreAsWritten) {
  const Job job = example();
  ASSERT_EQ(job.tubes.size(), 2u);
  EXPECT_EQ(job.tubes[0].outside_diameter_mm, 15);
  EXPECT_EQ(job.tubes[0].wall_mm, 0.7);
  EXPECT_EQ(job.tubes[0].temper, "R250");
  EXPECT_EQ(job.tubes[1].wall_mm, 1.0);
  EXPECT_EQ(job.tubes[1].standard, "");
  ASSERT_EQ(job.benders.size(), 1u);
  const Bender& bender = job.benders[0];
  EXPECT_EQ(bender.former_radius_mm, 55);
  EXPECT_TRUE(bender.radius_measured);
  EXPECT_EQ(bender.fits_mm, 15);
  EXPECT_EQ(bender.usual_end_mm, 120);
  EXPECT_EQ(bender.most_angle, Angle::degrees(180));
  EXPECT_EQ(bender.mark_offset_mm, 0);
  EXPECT_EQ(bender.stands.swing, "towards you");
  ASSERT_EQ(bender.spring_back.size(), 1u);
  EXPECT_EQ(bender.set_angle(Angle::degrees(45)), Angle::degrees(46));
  EXPECT_EQ(bender.calibrated_with, "15 mm");
}

TEST(ContractExample, FixturesStandAsWritten) {
  const Job job = example();
  ASSERT_EQ(job.fixtures.size(), 4u);
  EXPECT_EQ(std::get<HalfSpace>(job.fixtures[0].body.shape).facing, Vec3(0, -1, 0));
  EXPECT_EQ(std::get<Cylinder>(job.fixtures[1].body.shape).radius, 37.5);
  const Box panel = std::get<Box>(job.fixtures[2].body.shape);
  EXPECT_EQ(panel.centre, Vec3(300, 489, 450));
  EXPECT_EQ(panel.half, Vec3(300, 9, 350));
  EXPECT_TRUE(job.fixtures[2].may_drill);
  EXPECT_EQ(std::get<Slide>(job.fixtures[3].body.motion).shift, Vec3(0, -400, 0));
  EXPECT_EQ(job.fixtures[3].pointer, "/fixtures/3");
}

TEST(ContractExample, RunAndBankAreAsWritten) {
  const Job job = example();
  ASSERT_EQ(job.runs.size(), 1u);
  const JobRun& run = job.runs[0];
  EXPECT_EQ(run.service, Service::hot);
  EXPECT_EQ(run.marking, Marking::each);
  EXPECT_EQ(run.spare_free_mm, 50);
  EXPECT_EQ(std::get<JobConnection>(run.from).base.at, Vec3(300, 460, 350));
  EXPECT_EQ(std::get<std::string>(*run.to), "hot tap");
  ASSERT_EQ(run.path.size(), 3u);
  const auto& offset = std::get<OffsetStep>(run.path[1]);
  EXPECT_EQ(offset.shift, (std::vector<WordShift>{{"right", 65}}));
  EXPECT_EQ(std::get<Angle>(offset.steepness), Angle::degrees(45));
  EXPECT_EQ(offset.pointer, "/runs/0/path/1");
  EXPECT_TRUE(std::holds_alternative<Rest>(std::get<GoStep>(run.path[2]).by));
  ASSERT_EQ(job.banks.size(), 1u);
  EXPECT_EQ(job.banks[0].step, Vec3(-60, 0, 0));
  EXPECT_FALSE(job.banks[0].equal_gaps);
  ASSERT_EQ(job.site_checks.size(), 1u);
  EXPECT_EQ(job.site_checks[0].measured_mm, 434.9);
}

TEST(ContractExample, AnOverrideReachesWhatUsesTheValue) {
  ReadOptions options;
  options.set = {{"tap_height", "800 mm"}};
  const JobReading reading = read_job(kContractExample, options);
  ASSERT_TRUE(reading.job);
  EXPECT_EQ(std::get<JobConnection>(reading.job->runs[0].from).base.at.z(), 370);
}

}  // namespace
}  // namespace halfhard
