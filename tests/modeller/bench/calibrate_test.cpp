#include "modeller/bench/calibrate.h"

#include <gtest/gtest.h>

#include <numbers>

#include "modeller/job/read_job.h"

namespace halfhard {
namespace {

// What a perfect bender and tape would give.
TrialBend bend_of(double radius, double od, double degrees, double set, double start, double cut, double mark_offset) {
  const Angle angle = Angle::degrees(degrees);
  const double setback = radius * angle.tan_of_half(), arc = radius * angle.radians();
  const double corner = od / 2 * angle.tan_of_half();
  TrialBend bend;
  bend.set = Angle::degrees(set);
  bend.got = angle;
  bend.cut_length_mm = cut;
  bend.legs_mm = {start + setback + corner, cut - start - arc + setback + corner};
  bend.mark_mm = start + mark_offset;
  return bend;
}

Trial trial_of(std::vector<TrialBend> bends) {
  Trial trial;
  trial.bender = "bench";
  trial.tube = "15 mm";
  trial.outside_diameter_mm = 15;
  trial.bends = std::move(bends);
  return trial;
}

TEST(Calibrate, AccurateReadingsGiveTheBenderBack) {
  const Calibration made =
      calibrate(trial_of({bend_of(55, 15, 90, 92.5, 150, 400, -4), bend_of(55, 15, 45, 46, 120, 350, -4)}));
  ASSERT_TRUE(made.radius && made.mark_offset);
  EXPECT_NEAR(made.radius->mm, 55, 1e-9);
  EXPECT_NEAR(made.radius->spread_mm, 0, 1e-9);
  EXPECT_EQ(made.radius->trials, 2);
  EXPECT_NEAR(made.mark_offset->mm, -4, 1e-9);
  EXPECT_EQ(made.spring_back, (std::vector<SpringBackPair>{{Angle::degrees(46), Angle::degrees(45)},
                                                           {Angle::degrees(92.5), Angle::degrees(90)}}));
}

// Gain of a 90 is R (2 - pi/2): 23.61 at R 55 (closed form), so legs of 200 and 223.61 to the centre use 400 of tube.
TEST(Calibrate, ANinetyShowsItsRadiusByTheGain) {
  TrialBend bend;
  bend.got = Angle::degrees(90);
  bend.cut_length_mm = 400;
  bend.legs_mm = {207.5, 223.6062 + 7.5};
  const Calibration made = calibrate(trial_of({bend}));
  ASSERT_TRUE(made.radius);
  EXPECT_NEAR(made.radius->mm, 55, 0.01);
  // Three readings within 0.5 mm each: sqrt(3) * 0.5 / 0.4292 = 2.02; the angle within 0.5 degree: (15 + 55) * 0.0087 / 0.4292 = 1.42.
  EXPECT_NEAR(made.radius->likely_error_mm, std::hypot(2.018, 1.423), 0.01);
  EXPECT_FALSE(made.mark_offset);
}

TEST(Calibrate, WhereTheCurveStartsShowsTheMarkOffset) {
  TrialBend bend;
  bend.mark_mm = 150;
  bend.curve_starts_mm = 147.5;
  const Calibration made = calibrate(trial_of({bend}));
  ASSERT_TRUE(made.mark_offset);
  EXPECT_EQ(made.mark_offset->mm, 2.5);
  EXPECT_FALSE(made.radius);
  EXPECT_EQ(made.remarks.size(), 2u);  // no radius, no spring-back
}

TEST(Calibrate, TrialsThatDifferAreSpreadAndAveraged) {
  const Calibration made =
      calibrate(trial_of({bend_of(54, 15, 90, 92, 150, 400, 0), bend_of(56, 15, 90, 92, 150, 400, 0)}));
  EXPECT_NEAR(made.radius->mm, 55, 1e-9);
  EXPECT_NEAR(made.radius->spread_mm, std::numbers::sqrt2, 1e-9);
  EXPECT_EQ(made.spring_back.size(), 1u);
}

TEST(Calibrate, LengthsThatNoBendCanHaveAreToldApart) {
  TrialBend bend;
  bend.got = Angle::degrees(90);
  bend.cut_length_mm = 400;
  bend.legs_mm = {200, 200};  // used more than was there
  const Calibration made = calibrate(trial_of({bend}));
  EXPECT_FALSE(made.usable);
  EXPECT_FALSE(made.radius);
}

TEST(Calibrate, TubeThatSpringsOnIsNotBelieved) {
  TrialBend bend;
  bend.set = Angle::degrees(90);
  bend.got = Angle::degrees(92);
  const Calibration made = calibrate(trial_of({bend}));
  EXPECT_TRUE(made.spring_back.empty());
  EXPECT_FALSE(made.remarks.empty());
}

constexpr const char* kTrial =
    R"({ "format": "halfhard-trial/1", "bender": "bench", "tube": "15 mm", "outside_diameter": 15,
  "trials": [ { "set": 92, "got": 90, "cut_length": 400, "legs": ["207.5 mm", 231.1062], "mark": 150 } ] })";

TEST(TrialFile, ReadsAndPrintsABenderThatAJobAccepts) {
  const TrialReading reading = read_trial(kTrial, "trial.json");
  ASSERT_TRUE(reading.trial);
  const Calibration made = calibrate(*reading.trial);
  const std::string snippet = bender_snippet(*reading.trial, made);
  EXPECT_EQ(
      snippet,
      R"("bench": { "former_radius": 55, "radius_measured": true, "fits": 15, "mark_offset": 5, "spring_back": [ { "set": 92, "got": 90 } ], "calibrated_with": "15 mm" })");
  const std::string job =
      R"({ "format": "halfhard-job/1", "tubes": { "15 mm": { "outside_diameter": 15, "wall": 0.7 } }, "benders": { )" +
      snippet +
      R"( }, "runs": [ { "name": "a", "tube": "15 mm", "bender": "bench", "from": { "at": [0,0,0], "towards": "up" }, "path": [ { "go": "up", "by": 100 } ] } ] })";
  EXPECT_TRUE(read_job(job, {}).job);
  EXPECT_NE(calibration_text(*reading.trial, made)
                .find("radius of a finished bend: 55 mm, likely within 2.5 mm, from 1 trial\n"),
            std::string::npos)
      << calibration_text(*reading.trial, made);
}

TEST(TrialFile, FaultsAreReportedAsAJobsAre) {
  const auto shown = [](const std::string& text) {
    std::string all;
    for (const JobProblem& problem : read_trial(text, "t").problems) all += problem.shown() + "\n";
    return all;
  };
  EXPECT_EQ(shown("{"), "t:1: found the end of the file, allowed JSON: a key in double quotes\n");
  EXPECT_EQ(shown("[]"), "t:1: found an empty list, allowed a group { } with \"format\": \"halfhard-trial/1\"\n");
  EXPECT_EQ(shown(R"({ "format": "halfhard-job/1" })"),
            "t:1: /format: found \"halfhard-job/1\", allowed \"halfhard-trial/1\"\n");
  EXPECT_EQ(shown(R"({ "format": "halfhard-trial/1", "outside_diameter": 15, "trials": [] })"),
            "t:1: /trials: found an empty list, allowed at least one trial bend\n");
  EXPECT_EQ(shown(R"({ "format": "halfhard-trial/1", "trials": [ { "got": 180, "legs": [1], "sett": 5 } ] })"),
            "t:1: found no \"outside_diameter\", allowed a group with \"outside_diameter\"\n"
            "t:1: /trials/0/got: found 180, allowed an angle above 0 and below 180\n"
            "t:1: /trials/0/legs: found a list of 1, allowed two lengths, hook side first\n"
            "t:1: /trials/0/sett: found the unknown key \"sett\", allowed \"set\", \"got\", \"cut_length\", \"legs\", "
            "\"mark\", "
            "\"curve_starts\" (did you mean \"set\"?)\n");
}

TEST(TrialFile, InInchesTheBenderIsInInches) {
  std::string text = kTrial;
  text.insert(2, R"("length_unit": "in", )");
  text.replace(text.find("\"outside_diameter\": 15"), 22, "\"outside_diameter\": \"5/8 in\"");
  const TrialReading reading = read_trial(text, "trial.json");
  ASSERT_TRUE(reading.trial);
  EXPECT_EQ(reading.trial->unit, LengthUnit::inch);
  EXPECT_DOUBLE_EQ(reading.trial->outside_diameter_mm, 15.875);
  EXPECT_DOUBLE_EQ(*reading.trial->bends[0].mark_mm, 150 * 25.4);
}

}  // namespace
}  // namespace halfhard
