// The starter job files, built into the programs from modeller/starters/*.json.
#pragma once

#include <span>
#include <string_view>

namespace halfhard {

struct Starter {
  const char* kind;
  std::string_view text;
};

// In alphabetical order.
std::span<const Starter> starters();
const Starter* find_starter(std::string_view kind);

}  // namespace halfhard
