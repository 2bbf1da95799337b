// Whatever is kept from one plan to the next must be known by all that it reads: every key of a job that uses them all
// is edited in random order, and the edited plan is held equal to one from nothing.
#include <gtest/gtest.h>

#include <fstream>
#include <iterator>
#include <map>
#include <nlohmann/json.hpp>
#include <random>

#include "exporters/report/report.h"
#include "modeller/job/read_job.h"
#include "modeller/planner/planner.h"

namespace halfhard {
namespace {

using Json = nlohmann::ordered_json;
using Pointer = Json::json_pointer;

Json every_key() {
  std::ifstream file(std::string(HALFHARD_TESTS_DIR) + "/modeller/planner/every-key.json");
  return Json::parse(std::string(std::istreambuf_iterator<char>(file), {}));
}

std::vector<std::string> leaves_of(const Json& job) {
  std::vector<std::string> leaves;
  const Json flat = job.flatten();
  for (const auto& [pointer, value] : flat.items()) leaves.push_back(pointer);
  return leaves;
}

// Words that may stand in each other's place.
const std::vector<std::vector<std::string>> kWords = {
    {"cold", "hot", "heating flow", "gas", "waste", "electric", "other"},
    {"near", "centre", "far"},
    {"centre", "outside", "inside"},
    {"outside", "inside", "centre"},
    {"intersection", "crown"},
    {"each", "all"},
    {"datum", "free"},
    {"pieces", "gaps", "mirror"},
    {"first angle", "third angle"},
    {"R250", "R290"},
    {"15 x 0.7", "15 x 1.0"},
    {"mm", "in"},
    {"left", "right"},
    {"towards you", "away from you"},
};

// Another value for one key; nothing where another would only be refused.
std::optional<Json> edited(const Json& value, const std::string& pointer, std::mt19937& random) {
  if (value.is_boolean()) return !value.get<bool>();
  if (value.is_number()) {
    const double factor = std::uniform_real_distribution<double>(0.85, 1.2)(random);
    const double number = value.get<double>();
    if (pointer.find("/order") != std::string::npos) return std::nullopt;
    if (value.is_number_integer() && (pointer.ends_with("/count") || pointer.ends_with("/sets")))
      return 1 + static_cast<int>(random() % 4);
    return number == 0 ? std::uniform_real_distribution<double>(-20, 20)(random) : number * factor;
  }
  if (!value.is_string()) return std::nullopt;
  const std::string text = value.get<std::string>();
  for (const char* named : {"/format", "/name", "/tube", "/bender", "/of", "/off", "/standard", "/calibrated_with"})
    if (pointer.ends_with(named) && text.size() > 0 && pointer != "/title") return std::nullopt;
  for (const char* free_text : {"/title", "/origin", "/surface", "/owner", "/reason", "/line_up", "/identification"})
    if (pointer.ends_with(free_text)) return text + "x";
  for (const auto& words : kWords)
    if (std::find(words.begin(), words.end(), text) != words.end()) return words[random() % words.size()];
  return std::nullopt;
}

struct Told {
  std::string text;  // the report, or the problems
  bool whole = false;
};

Told planned_by(Planner& planner, const Job& job) {
  const Planned made = planner.plan(job);
  if (made.plan) return {report(*made.plan), true};
  Told told;
  for (const Problem& problem : made.problems) told.text += problem.pointer + ": " + problem.found + "\n";
  return told;
}

TEST(Planner, AnEditOfAnyKeyGivesTheSamePlanAsFromNothing) {
  const unsigned seed = 20261127;
  std::mt19937 random(seed);
  const Json first = every_key();
  std::vector<std::string> leaves = leaves_of(first);
  std::map<std::string, int> reached;
  Json job = first;
  Planner kept;
  int whole = 0, edits = 0;
  for (int round = 0; round < 12; ++round) {
    std::shuffle(leaves.begin(), leaves.end(), random);
    for (const std::string& leaf : leaves) {
      // From time to time back to where it began, which kept results must survive too.
      if (random() % 8 == 0) job = first;
      const Pointer pointer(leaf);
      if (!job.contains(pointer)) continue;
      const std::optional<Json> value = edited(job.at(pointer), leaf, random);
      if (!value) continue;
      const Json before = job;
      job[pointer] = *value;
      const JobReading reading = read_job(job.dump(1), {});
      if (!reading.job) {
        job = before;
        continue;
      }
      ++edits;
      Planner fresh;
      const Told one = planned_by(kept, *reading.job), other = planned_by(fresh, *reading.job);
      ASSERT_EQ(one.text, other.text) << "seed " << seed << ", round " << round << ", " << leaf << " = " << *value;
      if (one.whole) ++reached[leaf], ++whole;
      if (!one.whole) job = before;
    }
  }
  EXPECT_GT(whole, edits / 2) << "too few edits lead to a plan for this to prove anything";
  std::mt19937 any(seed);
  for (const std::string& leaf : leaves)
    if (edited(first.at(Pointer(leaf)), leaf, any)) {
      EXPECT_GT(reached[leaf], 0) << "never edited with a plan: " << leaf;
    }
}

// The defect that this was written for: a bend in a drilled body is good in a wide hole and not in a narrow one.
TEST(Planner, ABendInADrilledBodyFollowsTheDrillClearance) {
  Json job = Json::parse(R"({"format": "halfhard-job/1", "drill_clearance": 6,
    "tubes": {"t": {"outside_diameter": 15, "wall": 0.7}}, "benders": {"b": {"former_radius": 55}},
    "fixtures": [{"name": "panel", "box": {"from": [-200, -200, 300], "to": [400, 200, 318]}, "may_drill": true}],
    "runs": [{"name": "r", "tube": "t", "bender": "b", "from": {"at": [0, 0, 0], "towards": "up"},
      "path": [{"go": "up", "by": 309}, {"bend": 25, "by": 300}]}]})");
  Planner kept;
  std::vector<bool> fails;
  for (const double clearance : {6.0, 0.2, 6.0}) {
    job["drill_clearance"] = clearance;
    const Planned planned = kept.plan(*read_job(job.dump(), {}).job);
    ASSERT_TRUE(planned.plan);
    fails.push_back(planned.plan->fails());
  }
  EXPECT_EQ(fails, (std::vector<bool>{false, true, false}));
}

}  // namespace
}  // namespace halfhard
