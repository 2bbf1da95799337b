#include "modeller/bench/calibrate.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>

#include "modeller/job/read_job.h"
#include "tests/support/bent_pieces.h"

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
  EXPECT_TRUE(made.usable);
  EXPECT_NEAR(made.radius->mm, 55, 1e-4);
  EXPECT_NEAR(made.mark_offset->mm, -4, 1e-4);
  ASSERT_EQ(made.spring_back.size(), 2u);
  EXPECT_NEAR(made.spring_back[0].got.degrees(), 45, 1e-4);
  EXPECT_EQ(made.spring_back[1].set, Angle::degrees(92.5));
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
  // Three readings of 0.5 mm each: sqrt(3) * 0.5 / 0.4292 = 2.02; the angle of 0.5 degree: (15 + 55) * 0.0087 / 0.4292
  // = 1.42; 95 % of that is 1.96 times as wide.
  EXPECT_NEAR(made.radius->within_mm, 1.96 * std::hypot(2.018, 1.423), 0.02);
  EXPECT_FALSE(made.mark_offset);
}

TEST(Calibrate, WhereTheCurveStartsShowsTheMarkOffset) {
  TrialBend bend;
  bend.mark_mm = 150;
  bend.curve_starts_mm = 147.5;
  const Calibration made = calibrate(trial_of({bend}));
  ASSERT_TRUE(made.mark_offset);
  EXPECT_NEAR(made.mark_offset->mm, 2.5, 1e-4);
  EXPECT_NEAR(made.mark_offset->within_mm, 1.96 * std::sqrt(0.5), 1e-3);
  EXPECT_FALSE(made.radius);
  EXPECT_EQ(made.reasons.size(), 2u);  // no radius, no spring-back
}

TEST(Calibrate, TrialsThatDifferLittleAreOneFigureAndThoseFarApartNone) {
  const Calibration near =
      calibrate(trial_of({bend_of(54, 15, 90, 92, 150, 400, 0), bend_of(56, 15, 90, 92, 150, 400, 0)}));
  EXPECT_TRUE(near.usable);
  EXPECT_NEAR(near.radius->mm, 55, 0.1);
  EXPECT_EQ(near.spring_back.size(), 1u);
  const Calibration apart =
      calibrate(trial_of({bend_of(40, 15, 90, 92, 150, 400, 0), bend_of(70, 15, 90, 92, 150, 400, 0)}));
  EXPECT_FALSE(apart.usable);
}

// 2R + OD over both outsides; a gap shows the radius several times better than a 90 does.
TEST(Calibrate, AHalfTurnShowsItsRadiusByTheGapOfItsLegs) {
  TrialBend bend;
  bend.set = Angle::degrees(184);
  bend.got = Angle::degrees(180);
  bend.leg_gap_mm = 125;
  const Calibration made = calibrate(trial_of({bend}));
  EXPECT_TRUE(made.usable);
  EXPECT_NEAR(made.radius->mm, 55, 1e-3);
  EXPECT_NEAR(made.radius->within_mm, 1.96 * 0.25, 1e-3);
  const Calibration ninety = calibrate(trial_of({bend_of(55, 15, 90, 92, 150, 400, 0)}));
  EXPECT_GT(ninety.radius->within_mm, 9 * made.radius->within_mm);
}

TEST(Calibrate, WhatCannotBeOneBendIsRefused) {
  const auto refused = [](const TrialBend& bend) { return !calibrate(trial_of({bend})).usable; };
  TrialBend used_too_much = bend_of(55, 15, 90, 92, 150, 400, 0);
  used_too_much.legs_mm = {200, 200};
  EXPECT_TRUE(refused(used_too_much));
  TrialBend wide = bend_of(198, 15, 90, 92, 10, 420, 0);
  EXPECT_TRUE(refused(wide));
  TrialBend beyond = bend_of(55, 15, 90, 92, 150, 400, 0);
  beyond.mark_mm = 900;
  EXPECT_TRUE(refused(beyond));
  beyond.cut_length_mm.reset();
  EXPECT_TRUE(refused(beyond));
  EXPECT_TRUE(refused(bend_of(55, 15, 90, 89, 150, 400, 0)));     // sprang on
  EXPECT_FALSE(refused(bend_of(55, 15, 90, 89.6, 150, 400, 0)));  // within the reading error: by nothing
  EXPECT_TRUE(refused(bend_of(55, 15, 90, 105, 150, 400, 0)));    // sprang back by 15
  EXPECT_FALSE(refused(bend_of(55, 15, 90, 92, 150, 400, 0)));
}

TEST(Calibrate, NothingRefusedIsWrittenForAJob) {
  Trial trial = trial_of({bend_of(198, 15, 90, 92, 10, 420, 0)});
  const std::string text = calibration_text(trial, calibrate(trial));
  EXPECT_EQ(text.find("radius_measured"), std::string::npos) << text;
  EXPECT_NE(text.find("Nothing to put into a job."), std::string::npos);
}

TEST(Calibrate, IntervalsHoldInNineteenOfTwenty) {
  const unsigned seed = 11;
  std::cout << "seed " << seed << "\n";
  support::Bench bench(seed);
  int radius = 0, offset = 0;
  const int tries = 300;
  for (int i = 0; i < tries; ++i) {
    const double true_radius = 50 + 10 * bench.unit(), true_offset = -5 + 10 * bench.unit();
    Trial trial = trial_of({});
    for (const double degrees : {45.0, 90.0, 120.0}) {
      TrialBend bend = bend_of(true_radius, 15, degrees, degrees * 92 / 90, 150, 420, true_offset);
      bend.got = *bend.got + Angle::degrees(bench.normal(0.5));
      for (double& leg : *bend.legs_mm) leg += bench.normal(0.5);
      *bend.cut_length_mm += bench.normal(0.5);
      *bend.mark_mm += bench.normal(0.5);
      trial.bends.push_back(bend);
    }
    const Calibration made = calibrate(trial);
    radius += std::abs(made.radius->mm - true_radius) <= made.radius->within_mm;
    offset += std::abs(made.mark_offset->mm - true_offset) <= made.mark_offset->within_mm;
  }
  for (const int held : {radius, offset}) {
    EXPECT_GT(held, 0.88 * tries);
    EXPECT_LT(held, 0.99 * tries);
  }
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
                .find("radius of a finished bend: 55 mm, in 19 of 20 cases within 4.8 mm\n"),
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
  EXPECT_EQ(
      shown(
          R"({ "format": "halfhard-trial/1", "trials": [ { "got": 200, "legs": [1], "sett": 5 }, { "got": 180, "legs": [1, 2] } ] })"),
      "t:1: found no \"outside_diameter\", allowed a group with \"outside_diameter\"\n"
      "t:1: /trials/0/got: found 200, allowed an angle above 0, at most 190\n"
      "t:1: /trials/0/legs: found a list of 1, allowed two lengths, hook side first\n"
      "t:1: /trials/0/sett: found the unknown key \"sett\", allowed \"set\", \"got\", \"cut_length\", \"legs\", "
      "\"mark\", "
      "\"curve_starts\", \"leg_gap\" (did you mean \"set\"?)\n"
      "t:1: /trials/1/legs: found legs of a bend of 180, whose outside lines do not meet, allowed \"leg_gap\", over "
      "both outsides\n");
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
