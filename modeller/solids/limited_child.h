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

// Runs `arguments` (the program first, by its path), with no standard input. Its output is kept up to 2 GB, its error
// text up to 4 kB.
ChildResult run_limited(const std::vector<std::string>& arguments, int seconds, int megabytes);

}  // namespace halfhard
