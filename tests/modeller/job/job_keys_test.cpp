// The one table of job keys: that it is whole, that the reader takes what it shows, and that its page is up to date.
#include "modeller/job/job_keys.h"

#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>

#include "tests/modeller/job/reading.h"

namespace halfhard {
namespace {

TEST(JobKeys, PartsStandInTheirOwnOrderAndEveryPartHasKeys) {
  int place = 0;
  for (const JobPartRow& part : job_parts()) {
    EXPECT_EQ(static_cast<int>(part.part), place++) << part.title;
    EXPECT_FALSE(keys_of(part.part).empty()) << part.title;
  }
  EXPECT_EQ(place, static_cast<int>(JobPart::bank) + 1);
}

TEST(JobKeys, EveryKeyStandsOncePerPartAndSaysWhatItIs) {
  std::set<std::pair<JobPart, std::string_view>> seen;
  for (const JobKey& key : job_keys()) {
    EXPECT_TRUE(seen.emplace(key.part, key.key).second) << key.key;
    EXPECT_FALSE(key.kind.empty()) << key.key;
    EXPECT_FALSE(key.tells.empty()) << key.key;
    EXPECT_TRUE(nlohmann::json::accept(key.example)) << key.key << ": " << key.example;
  }
}

// One group with a member for each key of a part, the examples as they are printed; `without` are left out.
std::string group_of(JobPart part, const std::set<std::string_view>& without = {}) {
  std::string text;
  for (const JobKey& key : job_keys()) {
    if (key.part != part || without.contains(key.key)) continue;
    text += (text.empty() ? "\"" : ", \"") + std::string(key.key) + "\": " + std::string(key.example);
  }
  return "{ " + text + " }";
}

std::string job_of_examples() {
  const std::string wall = R"({ "name": "wall", "plane": )" + group_of(JobPart::plane) + " }";
  const std::string panel = R"({ "name": "panel", "box": )" + group_of(JobPart::box) + R"(, "slides": { "front": 400 },
    "turn": )" + group_of(JobPart::turn) +
                            R"(, "keep_clear": 10, "may_drill": true, "drill_clearance": 3, "service": "electric" })";
  const std::string trap = R"({ "name": "trap", "cylinder": )" + group_of(JobPart::cylinder) + R"(, "swing": )" +
                           group_of(JobPart::turn) + " }";
  const std::string joist = R"({ "name": "joist", "joist": )" + group_of(JobPart::joist) + " }";
  const std::string path = "[ " + group_of(JobPart::go, {"measured"}) + ", " + group_of(JobPart::offset, {"advance"}) +
                           R"(, { "go": "up", "by": 150, "measured": )" + group_of(JobPart::leg_measured) + " }, " +
                           group_of(JobPart::passover) + ", " + group_of(JobPart::go) + ", " +
                           group_of(JobPart::bend, {"measured"}) + ", " + group_of(JobPart::to) + " ]";
  return R"({ "format": "halfhard-job/1", "title": "T", "origin": "O", "surface": "S", "length_unit": "mm",
    "tolerance": )" +
         group_of(JobPart::tolerance) + R"(, "values": { "pitch": 65 }, "tubes": { "15 mm": )" +
         group_of(JobPart::tube, {"outside_diameter", "wall"}) + R"(, "own": )" +
         group_of(JobPart::tube, {"standard", "size"}) + R"( }, "benders": { "bench": )" +
         group_of(JobPart::bender, {"stands", "spring_back"}) + R"(, "other": { "former_radius": 55, "stands": )" +
         group_of(JobPart::stands) + R"(, "spring_back": [ )" + group_of(JobPart::spring_back) +
         R"( ] } }, "fixtures": [ )" + wall + ", " + panel + ", " + trap + ", " + joist + R"( ],
    "connections": { "tap": )" +
         group_of(JobPart::connection) + R"(, "taped": { "towards": )" + group_of(JobPart::two_points) +
         R"(, "at": [ )" + group_of(JobPart::taped) + ", " + group_of(JobPart::taped) + ", " +
         group_of(JobPart::taped) + R"( ] } }, "site_checks": [ )" + group_of(JobPart::site_check) +
         R"( ], "list_clearances_within": 100, "drill_clearance": 3, "sets": 10, "stock": )" +
         group_of(JobPart::stock) + R"(, "limits": { "kink_radius": )" + group_of(JobPart::limit) + R"( }, "sheet": )" +
         group_of(JobPart::sheet) + R"(, "runs": [ )" +
         group_of(JobPart::run, {"path", "spare"})
             .insert(1, R"("spare": )" + group_of(JobPart::spare) + R"(, "path": )" + path + ",") +
         R"( ], "banks": [ )" + group_of(JobPart::bank) + " ] }";
}

TEST(JobKeys, TheReaderTakesEveryExample) {
  const JobReading reading = read_job(job_of_examples(), {});
  for (const JobProblem& problem : reading.problems) ADD_FAILURE() << problem.message();
  EXPECT_TRUE(reading.job);
}

TEST(JobKeys, TheReaderAsksForWhatMustBeThere) {
  const nlohmann::json whole = nlohmann::json::parse(job_of_examples());
  // One place of each part in the job above.
  const std::vector<std::pair<JobPart, std::string>> places = {
      {JobPart::job, ""},
      {JobPart::limit, "/limits/kink_radius"},
      {JobPart::bender, "/benders/bench"},
      {JobPart::spring_back, "/benders/other/spring_back/0"},
      {JobPart::fixture, "/fixtures/0"},
      {JobPart::plane, "/fixtures/0/plane"},
      {JobPart::box, "/fixtures/1/box"},
      {JobPart::turn, "/fixtures/1/turn"},
      {JobPart::cylinder, "/fixtures/2/cylinder"},
      {JobPart::joist, "/fixtures/3/joist"},
      {JobPart::connection, "/connections/tap"},
      {JobPart::taped, "/connections/taped/at/0"},
      {JobPart::two_points, "/connections/taped/towards"},
      {JobPart::site_check, "/site_checks/0"},
      {JobPart::run, "/runs/0"},
      {JobPart::go, "/runs/0/path/0"},
      {JobPart::bank, "/banks/0"},
  };
  for (const auto& [part, place] : places) {
    for (const JobKey& key : job_keys()) {
      if (key.part != part) continue;
      nlohmann::json job = whole;
      const auto at = nlohmann::json::json_pointer(place);
      ASSERT_TRUE(job.contains(at)) << place;
      job[at].erase(std::string(key.key));
      const bool reads = read_job(job.dump(), {}).problems.empty();
      if (key.left_out.empty()) {
        EXPECT_FALSE(reads) << place << " without " << key.key;
      }
    }
  }
}

// HALFHARD_WRITE_EXPECTED=1 writes it anew, to be read before it is committed.
TEST(JobKeys, ThePageSaysWhatTheTableSays) {
  const std::string path = std::string(HALFHARD_TESTS_DIR) + "/../modeller/job/job_keys.md";
  if (std::getenv("HALFHARD_WRITE_EXPECTED")) std::ofstream(path, std::ios::binary) << job_keys_page();
  std::ifstream file(path, std::ios::binary);
  std::stringstream text;
  text << file.rdbuf();
  EXPECT_EQ(text.str(), job_keys_page());
}

}  // namespace
}  // namespace halfhard
