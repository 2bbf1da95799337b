// A child process with a limit to its time, its memory and what it may say.
#pragma once

#include <string>
#include <vector>

namespace halfhard {

struct ChildResult {
  enum class Ending { exited, signalled, out_of_time, not_started };
  Ending ending = Ending::not_started;
  int code = 0;               // exit status, or the signal
  std::string output, error;  // what it wrote; no more than the limit
};

struct ChildLimits {
  int seconds = 60;
  int megabytes = 0;  // 0: no limit
};

// Runs `arguments` (the program first, by its path), with `input` as its standard input. Its output is kept up to 2 GB,
// its error text up to 4 kB. The child ends with the thread that started it.
ChildResult run_limited(const std::vector<std::string>& arguments, const ChildLimits& limits,
                        const std::string& input = "");

}  // namespace halfhard
