// The picture of a job, drawn by the window's program as a child: a screen and its libraries are slow to load, and what
// goes wrong there ends no papers.
#pragma once

#include <string>

#include "modeller/commands/command.h"

namespace halfhard {

struct ChildPicture {
  std::string png;      // empty where there is none
  std::string trouble;  // why not
};

// Of the very text that the papers are made from, whatever the file holds by now. `job_file` is its name.
ChildPicture draw_picture(const std::string& job_file, const std::string& job_text, const LoadOptions& options);

}  // namespace halfhard
