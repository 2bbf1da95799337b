#include "geometry/bending/bender_sweep.h"

#include <gtest/gtest.h>

#include <iostream>

#include "geometry/bending/forming.h"
#include "geometry/distance/distance.h"
#include "tests/support/plans.h"

namespace halfhard {
namespace {

using support::run_through;
using support::RunOptions;

// A bender whose own bodies are too small to be met, with one wall, so that only the wall speaks.
RunOptions by_a_wall(double wall_mm, BenderStands stands = {"left", "away from you"}) {
  RunOptions options;
  options.datum_insertion_mm = 0;
  options.bender.stands = std::move(stands);
  options.bender.body.wall_behind_mm = wall_mm;
  return options;
}

// The tip of a tube that rolls off a circle: R (1 - cos p) + (u - R p) sin p from the tube's line, and the rim of its end
// a radius times cos p further. Closed form.
TEST(BenderSweep, ATailMeetsAWallAtThePullThatTheInvoluteSays) {
  const auto run = run_through("tail", {{0, 0, 0}, {0, 0, 300}, {600, 0, 300}}, by_a_wall(400));
  const auto contact = first_contact(*run, 1);
  ASSERT_TRUE(contact);
  EXPECT_FALSE(contact->itself);
  EXPECT_EQ(contact->part, BenderPart::wall);
  EXPECT_FALSE(contact->by_default);
  const double radius = 55, tube = 7.5, beyond = run->blank_length_mm - run->bends[0].start_of_bend_mm;
  const double p = contact->pulled.radians();
  const double reach = radius * (1 - std::cos(p)) + (beyond - radius * p) * std::sin(p) + tube * std::cos(p);
  EXPECT_NEAR(reach, 400, kGraze_mm + 0.01);
}

TEST(BenderSweep, AWallJustBeyondTheTailIsNotMet) {
  const auto run = [](double wall) {
    return run_through("tail", {{0, 0, 0}, {0, 0, 300}, {600, 0, 300}}, by_a_wall(wall));
  };
  // Pulled to 92, which leaves 90: the tail then leans back by 2 degrees.
  EXPECT_TRUE(first_contact(*run(596), 1));
  EXPECT_FALSE(first_contact(*run(601), 1));
}

TEST(BenderSweep, ALegBehindTheHookHangsToTheBenchOrStandsUpByItsTurn) {
  const auto hanging = [](double turn_deg) {
    return run_through("hanging", points_from_rows({{400, Angle(), Angle::degrees(90)},
                                                    {150, Angle::degrees(turn_deg), Angle::degrees(90)},
                                                    {200, Angle(), Angle()}},
                                                   55, Vec3::Zero(), Vec3::UnitX(), Vec3::UnitZ()));
  };
  const auto down = first_contact(*hanging(-90), 2);
  ASSERT_TRUE(down);
  EXPECT_EQ(down->part, BenderPart::bench);
  EXPECT_TRUE(down->by_default && down->hook_side);
  EXPECT_EQ(down->pulled, Angle());
  EXPECT_FALSE(first_contact(*hanging(90), 2));
  EXPECT_FALSE(first_contact(*hanging(-90), 2, true));  // the bender turned over
  EXPECT_TRUE(first_contact(*hanging(90), 2, true));
}

// Every 0.2 degree of the pull looked at by itself, the whole tube against itself and the bench: what that sees, the sweep
// has seen, and no later.
TEST(BenderSweep, NothingThatIsSeenAtSinglePullsIsMissed) {
  const unsigned seed = 20260115;
  std::cout << "seed " << seed << "\n";
  std::mt19937 engine(seed);
  int met = 0;
  for (int i = 0; i < 150; ++i) {
    RunOptions options;
    const int bends = 3 + static_cast<int>(engine() % 3);
    for (int k = 0; k < bends; ++k) options.hook.push_back(engine() % 2 ? End::datum : End::free);
    const std::vector<Vec3> points = support::random_points(engine, bends);
    const auto run = run_through("random", points, options);
    for (int made = 1; made <= bends; ++made) {
      const auto contact = first_contact(*run, made);
      const double set = run->bends_as_made()[static_cast<std::size_t>(made - 1)]->set_angle.degrees();
      double seen = -1;
      for (double pull = 0; pull <= set && seen < 0; pull += 0.2) {
        // Beyond the bend's own angle the pictured line grows and is no longer the tube.
        if (pull > run->bends_as_made()[static_cast<std::size_t>(made - 1)]->angle.degrees()) break;
        const FormedPiece piece = formed_piece(*run, made, Angle::degrees(pull));
        const auto itself = self_distance(piece.line, run->tube->outside_radius_mm());
        if (itself && itself->distance_mm < -1) seen = pull;
        for (const PlacedPart& part : bender_parts(*run)) {
          if (part.part < BenderPart::bench) continue;
          const TubeBody tube(piece.line, run->tube->outside_radius_mm());
          if (distance(tube, Obstacle(part.body)).distance_mm < -1) seen = pull;
        }
      }
      if (seen < 0) continue;
      ++met;
      ASSERT_TRUE(contact) << i << " bend " << made << " at " << seen;
      EXPECT_LE(contact->pulled.degrees(), seen + 1e-9) << i << " bend " << made;
    }
  }
  EXPECT_GT(met, 20);
}

TEST(BenderSweep, OrdinaryPiecesMeetNothing) {
  EXPECT_FALSE(first_contact(*run_through("offset", support::offset_points(300, 70, Angle::degrees(45), 300))));
  EXPECT_FALSE(first_contact(*run_through("ninety", support::single_bend_points())));
  EXPECT_FALSE(first_contact(*run_through("U", {{0, 0, 0}, {0, 0, 300}, {200, 0, 300}, {200, 0, 0}})));
}

}  // namespace
}  // namespace halfhard
