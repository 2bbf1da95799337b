#include "geometry/rules/clip_places.h"

#include <gtest/gtest.h>

#include "modeller/checks/clips.h"
#include "tests/modeller/checks/samples.h"

namespace halfhard {
namespace {

// By the usual rules.
std::vector<Clip> clip_places(const Run& run) { return halfhard::clip_places(run, clip_spacing(*run.tube, Rules())); }

std::vector<double> along(const std::vector<Clip>& clips) {
  std::vector<double> places;
  for (const Clip& clip : clips) places.push_back(clip.along_mm);
  return places;
}

// BS EN 806-4 / BS 8558, from memory: 15 mm 1.2/1.8 m, 22 and 28 1.8/2.4, 35 2.4/3.0. IRC P2605: 6 ft, 10 ft upright.
TEST(Clips, SpacingIsAsPublished) {
  Tube tube = support::tube_15();
  const auto spacing = [&](double od) {
    tube.outside_diameter_mm = od;
    const ClipSpacing found = clip_spacing(tube, Rules());
    return std::pair(found.level_mm, found.upright_mm);
  };
  EXPECT_EQ(spacing(15), std::pair(1200.0, 1800.0));
  EXPECT_EQ(spacing(22), std::pair(1800.0, 2400.0));
  EXPECT_EQ(spacing(28), std::pair(1800.0, 2400.0));
  EXPECT_EQ(spacing(35), std::pair(2400.0, 3000.0));
  tube.standard = "ASTM B88";
  EXPECT_NEAR(spacing(15.875).first, 1828.8, 1e-9);
  EXPECT_NEAR(spacing(15.875).second, 3048, 1e-9);
}

TEST(Clips, ALevelTubeBetweenTwoFittingsIsSpreadEvenly) {
  support::RunOptions options;
  options.free_insertion_mm = 15;
  const auto run = support::run_through("rail", {{0, 0, 0}, {3600, 0, 0}}, options);
  const std::vector<double> places = along(clip_places(*run));
  ASSERT_EQ(places.size(), 2u);
  EXPECT_NEAR(places[0], 1200, 1e-9);
  EXPECT_NEAR(places[1], 2400, 1e-9);
}

TEST(Clips, AnUprightTubeNeedsFewer) {
  support::RunOptions options;
  options.free_insertion_mm = 15;
  EXPECT_EQ(clip_places(*support::run_through("riser", {{0, 0, 0}, {0, 0, 3600}}, options)).size(), 1u);
  EXPECT_EQ(clip_places(*support::run_through("rail", {{0, 0, 0}, {0, 3600, 0}}, options)).size(), 2u);
}

TEST(Clips, AShortTubeIsHeldOnceInTheMiddleOfItsLongestStraight) {
  const auto run = support::run_through("elbow", {{0, 0, 0}, {0, 0, 200}, {300, 0, 200}});
  const std::vector<Clip> clips = clip_places(*run);
  ASSERT_EQ(clips.size(), 1u);
  EXPECT_NEAR(clips[0].at.x(), (55 + 300) / 2.0, 1e-9);
  EXPECT_NEAR(clips[0].direction.x(), 1, 1e-12);
}

TEST(Clips, NoneLiesWithinABendOrNearerThanADiameterToOne) {
  std::mt19937 engine(20260115);
  for (int i = 0; i < 300; ++i) {
    auto points = support::random_points(engine, 1 + i % 8);
    for (Vec3& point : points) point *= 1 + i % 5;
    const auto run = support::run_through("pipe", points);
    for (const Clip& clip : clip_places(*run)) {
      for (const Bend& bend : run->bends) {
        const double start = bend.start_of_bend_mm - 15, end = bend.end_of_bend_mm - 15;  // insertion 15
        EXPECT_TRUE(clip.along_mm <= start - 15 + 1e-6 || clip.along_mm >= end + 15 - 1e-6) << "run " << i;
      }
      EXPECT_GE(clip.along_mm, 15 - 1e-9);
      EXPECT_LE(clip.along_mm, run->line.length_mm() - 15 + 1e-9);
      EXPECT_LT((clip.at - run->line.point_at(clip.along_mm)).norm(), 1e-9);
    }
  }
}

TEST(Clips, NeighboursKeepTheSpacingOrAFindingSaysWhereNot) {
  std::mt19937 engine(7);
  const Job job;
  for (int i = 0; i < 300; ++i) {
    auto points = support::random_points(engine, 1 + i % 6);
    for (Vec3& point : points) point *= 1 + i % 9;
    const auto run = support::run_through("pipe", points);
    std::vector<Finding> findings;
    check_clips({*run, job}, findings);
    const bool told =
        std::any_of(findings.begin(), findings.end(), [](const Finding& f) { return f.id == "clip-spacing"; });
    double before = 0, widest = 0;
    for (const Clip& clip : clip_places(*run))
      widest = std::max(widest, clip.along_mm - before), before = clip.along_mm;
    widest = std::max(widest, run->line.length_mm() - before);
    if (!told) {
      EXPECT_LE(widest, 1800 + 1e-6) << "run " << i;
    }
    EXPECT_EQ(findings.back().id, "clips");
  }
}

TEST(Clips, TheJobsOwnSpacingIsUsed) {
  support::RunOptions options;
  options.free_insertion_mm = 15;
  const auto run = support::run_through("rail", {{0, 0, 0}, {1100, 0, 0}}, options);
  Rules rules;
  set_limit(rules, *find_limit("clip_level"), 400, "thin boards");
  EXPECT_EQ(clip_places(*run, clip_spacing(*run->tube, rules)).size(), 2u);
  EXPECT_EQ(clip_places(*run).size(), 1u);
}

}  // namespace
}  // namespace halfhard
