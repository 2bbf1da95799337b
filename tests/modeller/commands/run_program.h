// Starts one of the built programs as a person would and keeps what it says.
#pragma once

#include <string>
#include <vector>

namespace halfhard {

struct Said {
  std::string out, err;
  int status = -1;  // exit status; -1 where a signal ended it
};

// `words`: the arguments. Runs in `folder` with an empty standard input.
Said run_program(const std::string& program, const std::vector<std::string>& words, const std::string& folder = ".");

std::string text_of_file(const std::string& path);

}  // namespace halfhard
