#include "modeller/bench/correct.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <random>

#include "tests/support/plans.h"

namespace halfhard {
namespace {

using support::run_through;
using support::RunOptions;

Tolerance tolerance() { return {}; }  // 3 mm, 3 degrees

std::shared_ptr<Run> ninety(End hook = End::datum) {
  RunOptions options;
  options.hook = {hook};
  return run_through("elbow", {Vec3(0, 0, 0), Vec3(200, 0, 0), Vec3(200, 300, 0)}, options);
}
std::shared_ptr<Run> offset() {
  return run_through("offset", {Vec3(0, 0, 0), Vec3(0, 0, 200), Vec3(50, 0, 250), Vec3(50, 0, 500)});
}

MeasuredPiece angles(const std::vector<double>& degrees) {
  MeasuredPiece piece;
  for (std::size_t i = 0; i < degrees.size(); ++i) {
    piece.bends.push_back({static_cast<int>(i) + 1, Angle::degrees(degrees[i]), std::nullopt, std::nullopt});
  }
  return piece;
}

TEST(Correct, APieceAsPlannedIsLeftAlone) {
  const auto run = offset();
  const CorrectionPlan made = plan_correction(*run, tolerance(), angles({45, 45}));
  EXPECT_TRUE(made.good_as_it_is);
  EXPECT_NEAR(made.now.by.norm(), 0, 1e-9);
  EXPECT_FALSE(made.fewest);
}

// A 90 bent to 86 with the datum side on the hook: the curve starts at 200 - R, ends after R * 86 degrees, and what it
// did not use lengthens the free leg. Written out by hand.
TEST(Correct, WhereTheFreeEndOfAShortNinetyIs) {
  const auto run = ninety();
  const CorrectionPlan made = plan_correction(*run, tolerance(), angles({86}));
  const double radius = 55, a = 86 * std::numbers::pi / 180;
  const double straight = (300 - radius) + radius * (std::numbers::pi / 2 - a);
  const Vec3 end(200 - radius + radius * std::sin(a) + straight * std::cos(a),
                 radius * (1 - std::cos(a)) + straight * std::sin(a), 0);
  EXPECT_TRUE(made.now.by.isApprox(end - Vec3(200, 300, 0), 1e-9));
  EXPECT_NEAR(made.now.turned.degrees(), 4, 1e-9);
  EXPECT_FALSE(made.good_as_it_is);
}

TEST(Correct, AShortBendIsClosedByWhatItLacks) {
  const auto run = ninety();
  const CorrectionPlan made = plan_correction(*run, tolerance(), angles({86}));
  ASSERT_TRUE(made.fewest);
  ASSERT_EQ(made.fewest->changes.size(), 1u);
  const BendChange& change = made.fewest->changes[0];
  EXPECT_EQ(change.number, 1);
  EXPECT_NEAR(change.to.degrees(), 90, 1e-6);
  EXPECT_NEAR(change.pull_to.degrees(), 92, 1e-6);  // set 92 leaves 90
  EXPECT_NEAR(made.fewest->left.by.norm(), 0, 1e-6);
  EXPECT_FALSE(change.opens());
  EXPECT_FALSE(made.closing);
}

TEST(Correct, TheSpringBackOfThisPieceIsTakenWhereItIsKnown) {
  const auto run = ninety();
  MeasuredPiece piece = angles({86});
  piece.bends[0].set = Angle::degrees(92);  // this tube sprang back by 6, not by 2
  const CorrectionPlan made = plan_correction(*run, tolerance(), piece);
  // The bender's line is 92/90 of the angle; from the 92 that left 86 it goes on by 4 * 92/90.
  EXPECT_NEAR(made.fewest->changes[0].pull_to.degrees(), 92 + 4 * 92.0 / 90, 1e-6);
}

TEST(Correct, OnlyTheBendThatIsOutIsTouched) {
  const auto run = run_through(
      "long", {Vec3(0, 0, 0), Vec3(300, 0, 0), Vec3(300, 400, 0), Vec3(300, 400, 500), Vec3(800, 400, 500)});
  const CorrectionPlan made = plan_correction(*run, tolerance(), angles({90, 87, 90}));
  ASSERT_TRUE(made.fewest);
  ASSERT_EQ(made.fewest->changes.size(), 1u);
  EXPECT_EQ(made.fewest->changes[0].number, 2);
  EXPECT_NEAR(made.fewest->changes[0].to.degrees(), 90, 1e-6);
}

TEST(Correct, ABendTooFarIsOpenedOnlyWithAWayToCloseOthersBesideIt) {
  const auto run = offset();
  const CorrectionPlan made = plan_correction(*run, tolerance(), angles({48, 45}));
  ASSERT_TRUE(made.fewest);
  for (const BendChange& change : made.fewest->changes) {
    if (!change.opens()) continue;
    ASSERT_TRUE(made.closing);
    for (const BendChange& other : made.closing->changes) EXPECT_FALSE(other.opens());
  }
  const std::string text = correction_text(*run, Plan{}, angles({48, 45}), made);
  EXPECT_NE(text.find("hardly opens"), std::string::npos);
}

TEST(Correct, ALegTooLongIsNotBentAway) {
  const auto run = ninety();
  MeasuredPiece piece;
  piece.legs = {{1, 200}, {2, 330}};
  const CorrectionPlan made = plan_correction(*run, tolerance(), piece);
  EXPECT_NEAR(made.now.by.y(), 30, 1e-9);
  EXPECT_FALSE(made.fewest);
  EXPECT_LE(made.best.by.norm(), 30 + 1e-9);
  EXPECT_NE(correction_text(*run, Plan{}, piece, made).find("Cut a new piece"), std::string::npos);
}

TEST(Correct, EndsApartProveTheReadings) {
  const auto run = ninety();
  MeasuredPiece piece = angles({90});
  piece.ends_apart_mm = 400;
  const CorrectionPlan made = plan_correction(*run, tolerance(), piece);
  // Insertion of 15 at the datum end: from (-15, 0) to (200, 300).
  EXPECT_NEAR(*made.ends_apart_mm, std::hypot(215, 300), 1e-9);
  EXPECT_NE(correction_text(*run, Plan{}, piece, made).find("do not agree"), std::string::npos);
}

TEST(Correct, TheHookSideSaysWhichLegGrows) {
  const auto datum = plan_correction(*ninety(End::datum), tolerance(), angles({86}));
  const auto free = plan_correction(*ninety(End::free), tolerance(), angles({86}));
  const double unused = 55 * 4 * std::numbers::pi / 180;
  // The first leg runs along x: with the free side on the hook it is longer by what the bend did not use, else the last.
  const Vec3 last(std::cos(86 * std::numbers::pi / 180), std::sin(86 * std::numbers::pi / 180), 0);
  EXPECT_TRUE((free.now.by - datum.now.by).isApprox(unused * (Vec3(1, 0, 0) - last), 1e-6));
}

// A bent piece with one bend short by 1 to 4 degrees comes right by that bend alone or by no more than one other.
TEST(Correct, OneFaultTakesOneBend) {
  const unsigned start = 77;
  std::cout << "first random state " << start << "\n";
  std::mt19937 random(start);
  const auto run = run_through(
      "long", {Vec3(0, 0, 0), Vec3(300, 0, 0), Vec3(300, 400, 0), Vec3(300, 400, 500), Vec3(800, 400, 500)});
  for (int i = 0; i < 50; ++i) {
    std::vector<double> bent = {90, 90, 90};
    bent[random() % 3] -= 1 + static_cast<double>(random() % 300) / 100;
    const CorrectionPlan made = plan_correction(*run, tolerance(), angles(bent));
    if (made.good_as_it_is) continue;
    ASSERT_TRUE(made.fewest);
    EXPECT_EQ(made.fewest->changes.size(), 1u);
    EXPECT_LE(made.fewest->left.by.norm(), 3);
  }
}

Plan plan_of(std::shared_ptr<Run> run) {
  Plan plan;
  plan.runs = {run};
  return plan;
}

TEST(MeasuredFile, ReadsWhatWasMeasured) {
  const auto reading = read_measured(
      R"({ "format": "halfhard-measured/1", "run": "offset", "bends": [ { "number": 2, "angle": 43, "rotation": "180 - 2", "set": 46 } ],
    "legs": [ { "number": 1, "length": "20 cm" } ], "ends_apart": 500 })",
      "m", plan_of(offset()));
  ASSERT_TRUE(reading.piece);
  EXPECT_EQ(reading.piece->bends[0].rotation, Angle::degrees(178));
  EXPECT_EQ(reading.piece->legs[0].mm, 200);
  EXPECT_EQ(reading.piece->ends_apart_mm, 500);
}

TEST(MeasuredFile, FaultsAreReportedAsAJobsAre) {
  const auto shown = [](const std::string& text) {
    std::string all;
    for (const JobProblem& problem : read_measured(text, "m", plan_of(offset())).problems)
      all += problem.shown() + "\n";
    return all;
  };
  EXPECT_EQ(shown(R"({ "format": "halfhard-measured/1", "run": "ofset" })"),
            "m:1: found nothing measured, allowed \"bends\" or \"legs\" with what was measured\n"
            "m:1: /run: found the unknown name \"ofset\", allowed the name of a run of the job: \"offset\" (did you "
            "mean \"offset\"?)\n");
  EXPECT_EQ(shown(R"({ "format": "halfhard-measured/1", "run": "offset",
"bends": [ { "number": 3, "angle": 0 }, { "number": 1, "rotation": 5 }, { "number": 1 } ], "legs": [ { "number": 1 }, 4 ] })"),
            "m:2: /bends/0/number: found 3, allowed a whole number from 1 to 2\n"
            "m:2: /bends/0/angle: found 0, allowed an angle from 0.02 to 179.8\n"
            "m:2: /bends/1/rotation: found a rotation of bend 1, allowed rotations from bend 2 on: each is from the "
            "bend before\n"
            "m:2: /bends/2/number: found number 1 a second time, allowed each number once\n"
            "m:2: /legs/0: found no \"length\", allowed a group with \"length\"\n"
            "m:2: /legs/1: found 4, allowed a group { }\n");
  EXPECT_NE(shown("nonsense"), "");
}

}  // namespace
}  // namespace halfhard
