// halfhard suggest JOB: paths for runs that have none, as JSON to put into the job. A run's paths keep clear of the first
// path suggested for each run before it.
#include <algorithm>
#include <cstdio>
#include <string>
#include <vector>

#include "modeller/commands/command.h"
#include "modeller/loading/load_job.h"
#include "modeller/suggest/suggest.h"
#include "modeller/suggest/suggestion_json.h"

namespace halfhard {

int run_suggest(const CommandLine& line) {
  const LoadedJob loaded = load_job(line.files.front(), line);
  if (!loaded.plan) {
    loaded.print_problems();
    return loaded.status();
  }
  Job job = *loaded.job;
  std::vector<RunSuggestions> runs;
  bool found_all = true;
  for (const JobRun& run : loaded.job->runs) {
    if (run.has_path || !run.to) continue;
    RunSuggestions found{run.name, suggest_paths(job, run.name)};
    if (found.paths.empty()) {
      found_all = false;
      std::fprintf(stderr, "%s: no path was found for '%s': move an end, clear something away or lay it by hand\n",
                   line.files.front().c_str(), run.name.c_str());
    } else {
      const auto place =
          std::find_if(job.runs.begin(), job.runs.end(), [&](const JobRun& each) { return each.name == run.name; });
      place->path = found.paths.front().steps;
      place->has_path = true;
    }
    runs.push_back(std::move(found));
  }
  if (runs.empty()) std::fprintf(stderr, "%s: every run has its path\n", line.files.front().c_str());
  std::fputs(suggestions_json(*loaded.job, runs).c_str(), stdout);
  return found_all ? kAllWell : kFindingFails;
}

}  // namespace halfhard
