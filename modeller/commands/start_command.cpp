// halfhard start [KIND]: prints a starter job file.
#include <cstdio>
#include <string>
#include <vector>

#include "modeller/commands/command.h"
#include "modeller/job/problem.h"
#include "modeller/starters/starters.h"

namespace halfhard {

int run_start(const CommandLine& line) {
  if (line.files.empty()) {
    std::puts("halfhard start KIND > JOB.json writes a job to begin from. The kinds:");
    for (const Starter& starter : starters()) std::printf("  %s\n", starter.kind);
    return kAllWell;
  }
  if (const Starter* starter = find_starter(line.files[0])) {
    std::fwrite(starter->text.data(), 1, starter->text.size(), stdout);
    return kAllWell;
  }
  std::vector<std::string> kinds;
  for (const Starter& starter : starters()) kinds.push_back(starter.kind);
  JobProblem problem;
  problem.file = "start";
  problem.found = "kind " + in_quotes(line.files[0]);
  problem.allowed = names_in_quotes(kinds);
  problem.nearest = nearest_name(line.files[0], kinds);
  std::fprintf(stderr, "halfhard: %s\n", problem.message().c_str());
  return kUnusable;
}

}  // namespace halfhard
