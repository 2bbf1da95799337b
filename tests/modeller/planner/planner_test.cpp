#include "modeller/planner/planner.h"

#include <gtest/gtest.h>

#include <fstream>
#include <iterator>
#include <random>

#include "exporters/report/report.h"
#include "modeller/job/read_job.h"

namespace halfhard {
namespace {

std::string sample(const std::string& name) {
  std::ifstream file(std::string(HALFHARD_SAMPLES) + "/" + name);
  return {std::istreambuf_iterator<char>(file), {}};
}

std::shared_ptr<const Plan> planned(Planner& planner, const Job& job) {
  const Planned result = planner.plan(job);
  EXPECT_TRUE(result.problems.empty()) << result.problems[0].pointer << ": " << result.problems[0].found;
  return result.plan;
}

Job job_of(const std::string& text) {
  JobReading reading = read_job(text, {});
  EXPECT_TRUE(reading.job) << (reading.problems.empty() ? "" : reading.problems[0].shown());
  return reading.job.value_or(Job{});
}

// A job of one straight-up run; `extra` goes behind its members, `more` behind the runs.
std::string small_job(const std::string& path, const std::string& more = "") {
  return R"({"format": "halfhard-job/1", "tubes": {"t": {"outside_diameter": 15, "wall": 0.7}},
    "benders": {"b": {"former_radius": 55}}, "runs": [{"name": "r", "tube": "t", "bender": "b",
    "from": {"at": [0, 0, 0], "towards": "up"}, "path": )" +
         path + "}]" + more + "}";
}

TEST(Planner, AnEditGivesTheSamePlanAsFromNothing) {
  const unsigned seed = 20261125;
  std::mt19937 random(seed);
  const std::vector<std::pair<std::string, std::pair<double, double>>> values = {{"rise_behind", {180, 280}},
                                                                                 {"sidestep", {36, 60}},
                                                                                 {"tap_line", {400, 425}},
                                                                                 {"pitch", {250, 350}},
                                                                                 {"duct", {550, 560}}};
  JobSource source(sample("basin-bank.json"), {});
  Planner planner;
  for (int edit = 0; edit < 60; ++edit) {
    const auto& [name, range] = values[random() % values.size()];
    std::uniform_real_distribution<double> any(range.first, range.second);
    const JobReading reading = source.read({{name, std::to_string(any(random))}});
    ASSERT_TRUE(reading.job) << "seed " << seed << ", edit " << edit;
    Planner fresh;
    const Planned edited = planner.plan(*reading.job);
    const Planned anew = fresh.plan(*reading.job);
    ASSERT_EQ(edited.problems.empty(), anew.problems.empty());
    if (!anew.plan) continue;
    EXPECT_EQ(report(*edited.plan), report(*anew.plan)) << "seed " << seed << ", edit " << edit << ", " << name;
  }
}

TEST(Planner, AnEditKeepsTheRunsThatItDoesNotReach) {
  Planner planner;
  const std::string text = sample("joists.json");
  JobSource source(text, {});
  const auto before = planned(planner, *source.read().job);
  const auto after = planned(planner, *source.read({{"return_line", "1010"}}).job);
  EXPECT_EQ(before->runs[0], after->runs[0]);
  EXPECT_NE(before->runs[1], after->runs[1]);
  EXPECT_EQ(before->fixtures, after->fixtures);
}

// A piece in two planes: every second one is its mirror image across the step, and the other hand at the bench.
TEST(Planner, AMirroredBankReversesWhatLiesAlongItsStep) {
  const auto plan = planned(*std::make_unique<Planner>(), job_of(small_job(R"([{"go": "up", "by": 300},
      {"offset": {"right": 70}, "angle": 45}, {"go": "up", "by": 300}, {"bend": 90, "roll": 90, "by": 200}])",
                                                                           R"(, "banks": [{"of": "r", "count": 4,
      "step": {"right": 250}, "match": "mirror", "services": ["hot", "cold", "hot", "cold"]}])")));
  ASSERT_EQ(plan->runs.size(), 4u);
  const halfhard::Run& first = *plan->runs[0];
  for (int k = 0; k < 4; ++k) {
    const halfhard::Run& piece = *plan->runs[k];
    const bool other_hand = k % 2 == 1;
    EXPECT_EQ(piece.service, other_hand ? Service::cold : Service::hot);
    ASSERT_EQ(piece.line.points().size(), first.line.points().size());
    for (std::size_t i = 0; i < first.line.points().size(); ++i) {
      Vec3 expected = first.line.points()[i];
      if (other_hand) expected.x() = -expected.x();
      expected.x() += 250 * k;
      EXPECT_LT((piece.line.points()[i] - expected).norm(), 1e-9) << "piece " << k + 1 << ", point " << i;
    }
    for (std::size_t i = 0; i < first.bends.size(); ++i) {
      EXPECT_NEAR(piece.bends[i].mark_mm, first.bends[i].mark_mm, 1e-9);
      const double turn = (other_hand ? -1 : 1) * first.bends[i].rotation.degrees();
      EXPECT_NEAR(std::remainder(piece.bends[i].rotation.degrees() - turn, 360), 0, 1e-9);
    }
    // The shape that a piece is slid from stands where it says.
    const halfhard::Run& shape = *plan->runs[piece.same_as];
    EXPECT_LT((shape.line.points()[0] + piece.slid_mm - piece.line.points()[0]).norm(), 1e-9);
  }
  const auto hands = std::find_if(plan->findings.begin(), plan->findings.end(),
                                  [](const Finding& finding) { return finding.id == "bank-opposite-hands"; });
  EXPECT_NE(hands, plan->findings.end());
}

TEST(Planner, AFlatPieceTurnedOverIsTheSamePiece) {
  const auto plan = planned(*std::make_unique<Planner>(), job_of(small_job(R"([{"go": "up", "by": 300},
      {"offset": {"right": 70}, "angle": 45}, {"go": "up", "by": 300}])",
                                                                           R"(, "banks": [{"of": "r", "count": 2,
      "step": {"left": 100}, "match": "mirror"}])")));
  ASSERT_EQ(plan->runs.size(), 2u);
  EXPECT_NEAR(plan->runs[1]->line.points().back().x(), -170, 1e-9);
  for (std::size_t i = 0; i < 2; ++i)
    EXPECT_NEAR(
        std::remainder(plan->runs[0]->bends[i].rotation.degrees() - plan->runs[1]->bends[i].rotation.degrees(), 360), 0,
        1e-9);
  EXPECT_TRUE(std::any_of(plan->findings.begin(), plan->findings.end(),
                          [](const Finding& finding) { return finding.id == "bank-turned-over"; }));
}

// Published for parallel bends: stagger S*tan(A/2) keeps the gap; metric at 45: S 60 takes 24.85.
TEST(Planner, ABankAtEqualGapsStaggersItsBends) {
  const auto plan =
      planned(*std::make_unique<Planner>(),
              job_of(small_job(R"([{"go": "up", "by": 300}, {"offset": {"right": 100}, "angle": 45},
                              {"go": "up", "by": 300}])",
                               R"(, "banks": [{"of": "r", "count": 3, "step": {"right": 60}, "match": "gaps"}])")));
  ASSERT_EQ(plan->runs.size(), 3u);
  EXPECT_NEAR(plan->runs[0]->line.points()[1].z() - plan->runs[1]->line.points()[1].z(), 24.85, 0.005);
  for (const Clearance& clearance : plan->clearances) {
    if (clearance.first != clearance.second) {
      EXPECT_NEAR(clearance.distance_mm, clearance.second == "r 3" && clearance.first == "r 1" ? 105 : 45, 1e-6);
    }
  }
  EXPECT_NEAR(plan->runs[2]->offsets[0].true_mm, 100, 1e-9);
}

TEST(Planner, ADrilledRunHasAHoleInPlaceOfAClearance) {
  const std::string panel =
      R"(, "fixtures": [{"name": "panel", "box": {"from": [-200, -200, 150], "to": [200, 200, 168]}, "keep_clear": 5, "may_drill": MAY}])";
  const auto with = [&](const std::string& may) {
    std::string fixtures = panel;
    fixtures.replace(fixtures.find("MAY"), 3, may);
    return planned(*std::make_unique<Planner>(), job_of(small_job(R"([{"go": "up", "by": 400}])", fixtures)));
  };
  const auto drilled = with("true");
  ASSERT_EQ(drilled->drillings.size(), 1u);
  EXPECT_TRUE(drilled->clearances.empty());
  EXPECT_FALSE(drilled->fails());
  EXPECT_EQ(drilled->drillings[0].diameter_mm, 19);
  EXPECT_NEAR(drilled->drillings[0].depth_mm, 18, 1e-9);
  EXPECT_LT((drilled->drillings[0].centre - Vec3(0, 0, 150)).norm(), 1e-9);
  const auto met = with("false");
  EXPECT_TRUE(met->drillings.empty());
  ASSERT_EQ(met->clearances.size(), 1u);
  EXPECT_TRUE(met->fails());
}

TEST(Planner, AnEndThatJoinsAFixtureIsNotComparedWithItThere) {
  const auto distance_with = [&](const std::string& joins) {
    const std::string text = R"({"format": "halfhard-job/1", "tubes": {"t": {"outside_diameter": 15, "wall": 0.7}},
      "benders": {"b": {"former_radius": 55}},
      "fixtures": [{"name": "box", "box": {"from": [-50, -50, -60], "to": [50, 50, 0]}, "keep_clear": 10}],
      "runs": [{"name": "r", "tube": "t", "bender": "b", "from": {"at": [0, 0, 0], "towards": "up")" +
                             joins + R"(}, "path": [{"go": "up", "by": 400}]}]})";
    return planned(*std::make_unique<Planner>(), job_of(text))->clearances.at(0).distance_mm;
  };
  EXPECT_NEAR(distance_with(""), 0, 1e-9);
  EXPECT_NEAR(distance_with(R"(, "joins": ["box"])"), 15, 1e-6);  // one outside diameter
  EXPECT_NEAR(distance_with(R"(, "joins": ["box"], "joins_for": 40)"), 40, 1e-6);
}

TEST(Planner, AFixtureThatAnEndJoinsIsNeverItsNearest) {
  const auto plan = planned(*std::make_unique<Planner>(), job_of(R"({"format": "halfhard-job/1",
    "list_clearances_within": 10, "tubes": {"t": {"outside_diameter": 15, "wall": 0.7}}, "benders": {"b": {"former_radius": 55}},
    "fixtures": [{"name": "tap", "box": {"from": [-50, -50, -60], "to": [50, 50, 0]}},
                 {"name": "cupboard", "box": {"from": [200, -50, 0], "to": [300, 50, 400]}}],
    "runs": [{"name": "r", "tube": "t", "bender": "b", "from": {"at": [0, 0, 0], "towards": "up", "joins": ["tap"]},
      "path": [{"go": "up", "by": 400}]}]})"));
  ASSERT_EQ(plan->clearances.size(), 1u);
  EXPECT_EQ(plan->clearances[0].second, "cupboard");
  EXPECT_NEAR(plan->clearances[0].distance_mm, 192.5, 1e-6);
}

TEST(Planner, TwoPipesThatMeetAreToldOnceAndNeitherIsToBeMade) {
  const auto plan = planned(*std::make_unique<Planner>(), job_of(R"({"format": "halfhard-job/1",
    "tubes": {"t": {"outside_diameter": 15, "wall": 0.7}}, "benders": {"b": {"former_radius": 55}},
    "runs": [{"name": "one", "tube": "t", "bender": "b", "from": {"at": [0, 0, 0], "towards": "up"}, "path": [{"go": "up", "by": 400}]},
             {"name": "other", "tube": "t", "bender": "b", "from": {"at": [-200, 0, 200], "towards": "right"}, "path": [{"go": "right", "by": 400}]}]})"));
  EXPECT_EQ(std::count_if(plan->findings.begin(), plan->findings.end(),
                          [](const Finding& finding) { return finding.id == "clearance"; }),
            1);
  for (const auto& run : plan->runs) {
    ASSERT_TRUE(plan->failure_of(*run)) << run->name;
    EXPECT_EQ(plan->failure_of(*run)->id, "clearance");
  }
}

TEST(Planner, APointTapedOffThreeWallsIsWhereTheTapeSays) {
  Planner planner;
  const auto plan = planned(planner, job_of(sample("plant-cupboard.json")));
  const auto valve = std::find_if(plan->connections.begin(), plan->connections.end(),
                                  [](const auto& connection) { return connection->name == "pump valve"; });
  ASSERT_NE(valve, plan->connections.end());
  // 409 to the near face of 22 mm tube: 420 to its centre; 370 off the back wall at 700.
  EXPECT_LT(((*valve)->at - Vec3(420, 330, 1600)).norm(), 1e-9);
}

TEST(Planner, HookSidesAndOrderMustFitTheBends) {
  const auto problem = [](const std::string& extra) {
    std::string text = small_job(R"([{"go": "up", "by": 300}, {"go": "right", "by": 300}])");
    text.insert(text.find("\"path\""), extra);
    Planner planner;
    const Planned result = planner.plan(job_of(text));
    return result.problems.empty() ? std::string() : result.problems[0].pointer + ": " + result.problems[0].found;
  };
  EXPECT_EQ(problem(R"("hook": ["datum", "free"], )"), "/runs/0/hook: 2 hook sides");
  EXPECT_EQ(problem(R"("order": [2, 1], )"), "/runs/0/order: an order that is not each bend once");
  EXPECT_EQ(problem(R"("hook": ["free"], "order": [1], )"), "");
}

}  // namespace
}  // namespace halfhard
