#include "modeller/checks/loading.h"

#include <gtest/gtest.h>

#include "tests/modeller/checks/samples.h"

namespace halfhard {
namespace {

using support::RunOptions;

// An S of two 90s: 100 straight, bend, `between` straight, bend, 100 straight.
std::shared_ptr<Run> s_shape(double between_mm, RunOptions options) {
  options.service = Service::none;
  options.datum_insertion_mm = 0;
  const Angle right = Angle::degrees(90);
  return support::run_through(
      "s",
      points_from_rows({{100, Angle(), right}, {between_mm, Angle::degrees(180), right}, {100, Angle(), Angle()}}, 55,
                       Vec3::Zero(), Vec3::UnitX(), Vec3::UnitZ()),
      options);
}

std::vector<std::string> ids(const Run& run) {
  std::vector<Finding> findings;
  const Job job;
  check_loading({run, job}, findings);
  std::vector<std::string> found;
  for (const Finding& finding : findings) found.push_back(finding.id);
  return found;
}

TEST(Loading, BendsStillToBeMadeAreStraightTube) {
  const auto run = s_shape(50, {});
  const double arc = 55 * Angle::degrees(90).radians();
  const Loaded first = loaded(*run, 1, End::datum);
  EXPECT_NEAR(first.hook.straight_mm, 100, 1e-9);
  EXPECT_NEAR(first.lever.straight_mm, 50 + arc + 100, 1e-9);
  EXPECT_EQ(first.lever.bend, 0);
}

TEST(Loading, ABendMadeBeforeEndsTheStraight) {
  const auto run = s_shape(50, {});
  const Loaded second = loaded(*run, 2, End::datum);
  EXPECT_NEAR(second.hook.straight_mm, 50, 1e-9);
  EXPECT_EQ(second.hook.bend, 1);
  EXPECT_NEAR(second.lever.straight_mm, 100, 1e-9);
  const Loaded turned = loaded(*run, 2, End::free);
  EXPECT_EQ(turned.lever.bend, 1);
  EXPECT_EQ(turned.hook.bend, 0);
}

TEST(Loading, SpareAndInsertionCountAsTube) {
  RunOptions options;
  options.datum_insertion_mm = 15;
  options.datum_spare_mm = 40;
  options.service = Service::none;
  const auto run = support::run_through("elbow", {{0, 0, 0}, {0, 0, 80}, {300, 0, 80}}, options);
  EXPECT_NEAR(loaded(*run, 1, End::datum).hook.straight_mm, 80 - 55 + 15 + 40, 1e-9);
  EXPECT_EQ(ids(*run), std::vector<std::string>{"end-shorter-than-usual"});
}

TEST(Loading, TheOtherEndOnTheHookIsOfferedOnlyWhereItWouldDo) {
  RunOptions options;
  options.service = Service::none;
  options.datum_insertion_mm = 0;
  const Job job;
  std::vector<Finding> long_leg, short_leg;
  check_loading({*support::run_through("elbow", {{0, 0, 0}, {0, 0, 120}, {300, 0, 120}}, options), job}, long_leg);
  check_loading({*support::run_through("elbow", {{0, 0, 0}, {0, 0, 110}, {120, 0, 110}}, options), job}, short_leg);
  ASSERT_EQ(long_leg.size(), 1u);
  EXPECT_NE(long_leg[0].message.find("put the far end on the hook"), std::string::npos) << long_leg[0].message;
  ASSERT_FALSE(short_leg.empty());
  EXPECT_EQ(short_leg[0].message.find("put the far end on the hook"), std::string::npos) << short_leg[0].message;
}

// Shortest end 80, R 55, OD 15: 80 + 62.5 to the outside of a 90.
TEST(Loading, TheLeastVoidIsTheShortestEndAndTheBend) {
  const auto run = s_shape(50, {});
  EXPECT_NEAR(least_void_mm(*run, 1, 80), 142.5, 1e-9);
}

TEST(Loading, TheLeverWantsStraightTubeUpToAFormedBend) {
  RunOptions options;
  options.order = {2, 1};
  EXPECT_EQ(ids(*s_shape(59.9, options)), (std::vector<std::string>{"end-shorter-than-usual", "lever-too-short"}));
  EXPECT_EQ(ids(*s_shape(60, options)), std::vector<std::string>{"end-shorter-than-usual"});
}

TEST(Loading, TheMessageSaysWhatWouldDo) {
  RunOptions options;
  options.service = Service::none;
  options.datum_insertion_mm = 0;
  const Job job;
  std::vector<Finding> findings;
  check_loading({*support::run_through("elbow", {{0, 0, 0}, {0, 0, 117.5}, {300, 0, 117.5}}, options), job}, findings);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].message,
            "'elbow': bend 1 has 62.5 mm of tube before it at the start end where the hook needs 80 mm: leave at least "
            "17.5 mm more spare there to trim afterwards, or put the far end on the hook for this bend, or give it at "
            "least 142.5 mm from the mouth to the outside of the bend.");
  EXPECT_NEAR(findings[0].value, 62.5, 1e-9);
  EXPECT_EQ(findings[0].limit, 80);
}

}  // namespace
}  // namespace halfhard
