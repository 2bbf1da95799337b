// The starter files, built into the programs from modeller/starters/: jobs, and beside them what is measured at the bench.
#pragma once

#include <span>
#include <string_view>

namespace halfhard {

struct Starter {
  const char* kind;
  std::string_view text;
};

// Job files, in alphabetical order.
std::span<const Starter> starters();
// A trial bend for `calibrate` and a measured piece for `correct`.
std::span<const Starter> bench_starters();
// Of either.
const Starter* find_starter(std::string_view kind);

}  // namespace halfhard
