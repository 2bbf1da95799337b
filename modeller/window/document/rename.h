// Gives a run, connection, fixture, tube or bender another name, with everything in the job that calls it by name.
// Pure functions of a text with its places.
#pragma once

#include <optional>
#include <string>

#include "modeller/job/json_tree.h"

namespace halfhard {

// The part that a pointer names: "/runs/0", "/connections/hot tap" and so on have a name; nothing else has. For the name
// of a run or fixture itself ("/runs/0/name") that run or fixture.
std::optional<std::string> part_with_a_name(const JsonTree& tree, const std::string& pointer);
std::string name_of_part(const JsonTree& tree, const std::string& part);

struct Renamed {
  std::string text;
  std::string pointer;  // of the part, which for a group's member changes with its name
};
// Nothing where the part has no name to change.
std::optional<Renamed> renamed(const JsonTree& tree, const std::string& part, const std::string& name);

}  // namespace halfhard
