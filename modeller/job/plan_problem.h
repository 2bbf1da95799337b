// Why a job cannot be built at all (exit status 2), found after reading: the place is a JSON pointer, which the
// command turns into file and line.
#pragma once

#include <string>
#include <vector>

namespace halfhard {

struct Problem {
  std::string pointer;
  std::string found;
  std::string allowed;
};
using Problems = std::vector<Problem>;

}  // namespace halfhard
