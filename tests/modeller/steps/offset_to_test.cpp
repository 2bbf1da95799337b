// The shift of an offset to the connection, where what comes after it turns with it.
#include <gtest/gtest.h>

#include <random>

#include "modeller/job/problem.h"
#include "modeller/job/read_job.h"
#include "modeller/planner/planner.h"

namespace halfhard {
namespace {

std::shared_ptr<const Plan> planned(const std::string& offset, const std::string& after, const std::string& to) {
  const std::string text = R"({ "format": "halfhard-job/1", "tubes": { "t": { "outside_diameter": 15, "wall": 1 } },
    "benders": { "b": { "former_radius": 55 } },
    "runs": [ { "name": "r", "tube": "t", "bender": "b", "from": { "at": [0, 0, 0], "towards": "up" })" +
                           to + R"(, "path": [ { "go": "up", "by": 200 }, { "offset": )" + offset +
                           R"(, "angle": 45 }, )" + after + " ] } ] }";
  const JobReading reading = read_job(text, {});
  EXPECT_TRUE(reading.job) << (reading.problems.empty() ? "" : reading.problems.front().shown());
  return reading.job ? plan_job(*reading.job).plan : nullptr;
}

std::string list(const Vec3& v) {
  return "[" + number_text(v.x()) + ", " + number_text(v.y()) + ", " + number_text(v.z()) + "]";
}

TEST(OffsetTo, IsFoundWhereLaterBendsTurnWithIt) {
  const unsigned seed = 20261126;
  std::mt19937 engine(seed);
  const auto between = [&](double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(engine);
  };
  int found = 0;
  constexpr int kRuns = 150;
  for (int i = 0; i < kRuns; ++i) {
    SCOPED_TRACE("seed " + std::to_string(seed) + ", run " + std::to_string(i));
    const double right = between(-90, 90), back = between(50, 90);
    const std::string after = R"({ "go": "up", "by": 200 }, { "bend": )" + number_text(between(20, 80)) +
                              R"(, "roll": )" + number_text(between(-170, 170)) + R"(, "by": 250 })";
    const auto made =
        planned(R"({ "right": )" + number_text(right) + R"(, "back": )" + number_text(back) + " }", after, "");
    ASSERT_TRUE(made);
    const CentreLine& line = made->runs.front()->line;
    const Vec3 end = line.points().back(), towards = -line.leg_direction(line.leg_count() - 1);
    const auto again =
        planned(R"("to")", after, R"(, "to": { "at": )" + list(end) + R"(, "towards": )" + list(towards) + " }");
    ASSERT_TRUE(again);
    found += (again->runs.front()->line.points().back() - end).norm() < 1e-6;
  }
  EXPECT_EQ(found, kRuns);
}

}  // namespace
}  // namespace halfhard
