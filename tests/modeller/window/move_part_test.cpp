#include "modeller/window/document/move_part.h"

#include <gtest/gtest.h>

#include <fstream>
#include <iterator>

#include "modeller/loading/load_job.h"
#include "modeller/planner/planner.h"
#include "tests/modeller/window/parsed.h"

namespace halfhard {
namespace {

const char* const kJob = R"({ "format": "halfhard-job/1", "values": { "high": 700 }, "runs": [],
  "connections": { "tap": { "at": [370,  460.5, "high + 80"], "towards": "down" },
                   "taped": { "at": [{ "off": "wall", "by": 3, "until": "near" }, { "off": "wall", "by": 3 }, { "off": "wall", "by": 3 }], "towards": "up" } },
  "fixtures": [ { "name": "wall", "plane": { "at": [0,600,0], "facing": "front" } },
                { "name": "door", "box": { "from": [0,0,0], "to": [10,20,"30 mm"] }, "turn": { "about": "up", "by": 30 },
                  "swing": { "about": "up", "at": [1,2,3], "by": 90 } } ] })";

std::string between(const std::string& text, const std::string& from, const std::string& to) {
  const std::size_t start = text.find(from);
  return text.substr(start, text.find(to, start) - start);
}

TEST(MovePart, OnlyTheNumbersOfThatAxisChange) {
  const MovedText moved = moved_part(*parsed(kJob), "/connections/tap", {1.5, 0, 0});
  std::string expected = kJob;
  expected.replace(expected.find("370"), 3, "371.5");
  EXPECT_EQ(moved.text, expected);
  EXPECT_EQ(moved.why_not, "");
}

TEST(MovePart, AnExpressionIsNeverOverwrittenAndSaysSo) {
  const MovedText moved = moved_part(*parsed(kJob), "/connections/tap", {1, 0, 1});
  EXPECT_EQ(moved.text, "");
  EXPECT_EQ(moved.why_not, "up is \"high + 80\", not a plain number: change it in its field");
  EXPECT_NE(moved_part(*parsed(kJob), "/connections/taped", {1, 0, 0}).why_not.find("taped"), std::string::npos);
  EXPECT_NE(moved_part(*parsed(kJob), "/fixtures/1", {0, 0, 1}).why_not.find("\"30 mm\""), std::string::npos);
}

TEST(MovePart, WhatItTurnsAboutMovesWithIt) {
  const MovedText moved = moved_part(*parsed(kJob), "/fixtures/1", {5, 0, 0});
  ASSERT_EQ(moved.why_not, "");
  EXPECT_NE(moved.text.find("\"from\": [5,0,0], \"to\": [15,20,\"30 mm\"]"), std::string::npos) << moved.text;
  EXPECT_NE(moved.text.find("\"at\": [6,2,3]"), std::string::npos) << moved.text;
  EXPECT_EQ(between(moved.text, "\"turn\"", "}"), "\"turn\": { \"about\": \"up\", \"by\": 30, \"at\": [5, 0, 0] ");
}

TEST(MovePart, OnlyConnectionsAndFixturesMove) {
  for (const char* pointer : {"", "/runs", "/values/high", "/connections", "/connections/tap/at", "/nowhere"}) {
    EXPECT_FALSE(can_be_moved(*parsed(kJob), pointer)) << pointer;
    EXPECT_EQ(moved_part(*parsed(kJob), pointer, {1, 0, 0}).text, "") << pointer;
  }
}

// Whatever a fixture is turned about: all of it is moved by just the shift.
TEST(MovePart, ATurnedBodyIsMovedByJustTheShift) {
  const std::string job = R"({ "format": "halfhard-job/1",
    "tubes": { "t": { "outside_diameter": 15, "wall": 1 } }, "benders": { "b": { "former_radius": 55 } },
    "runs": [ { "name": "r", "tube": "t", "bender": "b", "from": { "at": [0, 0, 0], "towards": "up" },
                "path": [ { "go": "up", "by": 100 } ] } ],
    "fixtures": [
    { "name": "beam", "cylinder": { "from": [10,20,30], "to": [10,20,130], "diameter": 20 },
      "turn": [ { "about": "right", "by": 25, "at": [3,4,5] }, { "about": "up", "by": -40 } ] } ] })";
  const auto ends = [](const std::string& text) {
    const JobReading reading = read_job(text, read_options("job.json", {}));
    if (!reading.job) return std::pair{Vec3(0, 0, 0), Vec3(0, 0, 0)};
    const auto& bar = std::get<Cylinder>(reading.job->fixtures[0].body.shape);
    return std::pair{bar.from, bar.to};
  };
  const auto [from, to] = ends(job);
  const auto [moved_from, moved_to] = ends(moved_part(*parsed(job), "/fixtures/0", {7, -8, 9}).text);
  EXPECT_LT((moved_from - from - Vec3(7, -8, 9)).norm(), 1e-9);
  EXPECT_LT((moved_to - to - Vec3(7, -8, 9)).norm(), 1e-9);
}

}  // namespace
}  // namespace halfhard
