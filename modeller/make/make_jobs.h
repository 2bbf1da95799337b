// Makes everything for each of several jobs, side by side where there is more than one worker.
#pragma once

#include <string>
#include <vector>

#include "modeller/commands/command.h"

namespace halfhard {

struct MakeOptions {
  CommandLine line;         // the jobs, --set, --allow
  std::string out = "out";  // a folder a job goes in here
  int workers = 1;
  bool pictures = true;
};

// Says on standard error what is being done, a line a job on standard output when it is done, and returns the exit
// status: the highest of the jobs'.
int make_jobs(const MakeOptions& options);

}  // namespace halfhard
