#include "modeller/window/document/rename.h"

#include <gtest/gtest.h>

#include "tests/modeller/window/parsed.h"

namespace halfhard {
namespace {

// Every place where the job's format calls a part by its name, and texts of the same letters that are something else.
const char* const kJob = R"({ "format": "halfhard-job/1", "title": "A", "values": { "A": 3 },
  "tubes": { "A": { "outside_diameter": 15, "wall": 1 } },
  "benders": { "A": { "former_radius": 55, "calibrated_with": "A" } },
  "fixtures": [ { "name": "A", "box": { "from": ["A", 0, 0], "to": [1, 1, 1] } } ],
  "connections": { "A": { "at": ["A", 0, 0], "towards": "up", "joins": ["A"] },
                   "B": { "at": [{ "off": "A", "by": "A" }, 0, 0], "towards": "up" } },
  "site_checks": [ { "from": "A", "to": "B", "measured": "A" } ],
  "runs": [ { "name": "A", "tube": "A", "bender": "A", "from": { "at": [0, 0, 0], "towards": "up", "joins": ["A"] },
              "to": "A", "path": [ { "go": "up", "by": "A" }, { "to": "A" } ] } ],
  "banks": [ { "of": "A", "count": "A", "step": { "left": "A" } } ] })";

// How many texts of a group of places became the new name.
int count(const std::string& text, const std::string& what) {
  int found = 0;
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) ++found;
  return found;
}

struct Case {
  const char* part;
  const char* pointer;
  int references;
};

TEST(Rename, EveryReferenceFollowsAndNothingElse) {
  for (const Case& each : {Case{"/runs/0", "/runs/0", 1}, Case{"/fixtures/0", "/fixtures/0", 3},
                           Case{"/connections/A", "/connections/new ~1 name", 3},
                           Case{"/tubes/A", "/tubes/new ~1 name", 2}, Case{"/benders/A", "/benders/new ~1 name", 1}}) {
    const auto result = renamed(*parsed(kJob), each.part, "new / name");
    ASSERT_TRUE(result) << each.part;
    EXPECT_EQ(result->pointer, each.pointer);
    EXPECT_EQ(count(result->text, "\"new / name\""), each.references + 1) << each.part << "\n" << result->text;
    EXPECT_TRUE(parsed(result->text)->at(each.pointer));
    // And back again: not a byte is lost.
    const auto back = renamed(*parsed(result->text), result->pointer, "A");
    ASSERT_TRUE(back);
    EXPECT_EQ(back->text, kJob);
  }
}

TEST(Rename, TheNameFieldStandsForItsPart) {
  EXPECT_EQ(part_with_a_name(*parsed(kJob), "/runs/0/name"), "/runs/0");
  EXPECT_EQ(name_of_part(*parsed(kJob), "/connections/B"), "B");
}

TEST(Rename, WhatHasNoNameIsLeftAlone) {
  for (const char* pointer :
       {"", "/title", "/values/A", "/runs", "/runs/0/path/0", "/runs/0/from", "/banks/0", "/nowhere"})
    EXPECT_FALSE(renamed(*parsed(kJob), pointer, "x")) << pointer;
}

}  // namespace
}  // namespace halfhard
