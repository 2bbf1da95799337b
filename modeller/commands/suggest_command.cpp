// halfhard suggest JOB: paths for runs that have none, as JSON to put into the job; --take writes the job with one of them in
// it, everything else left as the person wrote it.
#include <algorithm>
#include <cstdio>
#include <string>

#include "modeller/commands/command.h"
#include "modeller/job/json_patch.h"
#include "modeller/loading/load_job.h"
#include "modeller/suggest/lay_together.h"
#include "modeller/suggest/suggestion_json.h"
#include "modeller/system/files.h"

namespace halfhard {
namespace {

int refuse(const std::string& message) {
  std::fprintf(stderr, "halfhard: suggest: %s\n", message.c_str());
  return kUnusable;
}

// What is wrong with --run, --take and --out for this job; empty where nothing is.
std::string wrong_with(const CommandLine& line, const Job& job) {
  if (line.take > 0 && line.out.empty()) return "--take without --out, allowed with --out FILE";
  if (line.take == 0 && !line.out.empty()) return "--out without --take, allowed with --take N";
  if (line.run.empty()) return "";
  const auto run =
      std::find_if(job.runs.begin(), job.runs.end(), [&](const JobRun& each) { return each.name == line.run; });
  if (run == job.runs.end()) return "--run '" + line.run + "', allowed the name of a run of the job";
  if (run->has_path) return "--run '" + line.run + "' has its path already, allowed a run without one";
  if (!run->to) return "--run '" + line.run + "' has no 'to', allowed a run with both ends";
  return "";
}

std::string with_path(const std::string& text, const std::string& file, const std::string& pointer,
                      const std::string& path) {
  std::vector<JobProblem> problems;
  const auto tree = JsonTree::parse(text, file, problems);
  return with_member(*tree, pointer, "path", path).value_or(text);
}

// Writes the job with the paths taken; the status.
int take(const CommandLine& line, const LoadedJob& loaded, const std::vector<RunSuggestions>& runs) {
  std::string text = loaded.text;
  for (const RunSuggestions& run : runs) {
    const int count = static_cast<int>(run.found.paths.size());
    if (count == 0) continue;
    if (line.take > count) {
      return refuse("--take " + std::to_string(line.take) + " for '" + run.run + "', allowed 1 to " +
                    std::to_string(count));
    }
    const auto& job_runs = loaded.job->runs;
    const auto place =
        std::find_if(job_runs.begin(), job_runs.end(), [&](const JobRun& each) { return each.name == run.run; });
    text =
        with_path(text, loaded.file, place->pointer, path_json(run.found.paths[line.take - 1].steps, loaded.job->unit));
  }
  if (text == loaded.text) return kFindingFails;
  write_whole(line.out, text);
  return kAllWell;
}

}  // namespace

int run_suggest(const CommandLine& line) {
  const LoadedJob loaded = load_job(line.files.front(), line);
  if (!loaded.plan) {
    loaded.print_problems();
    return loaded.status();
  }
  if (const std::string wrong = wrong_with(line, *loaded.job); !wrong.empty()) return refuse(wrong);
  std::vector<std::string> names;
  for (const JobRun& run : loaded.job->runs) {
    if (!run.has_path && run.to && (line.run.empty() || run.name == line.run)) names.push_back(run.name);
  }
  const std::vector<RunSuggestions> runs = lay_together(*loaded.job, names, std::max(1, line.take));
  bool found_all = true;
  for (const RunSuggestions& run : runs) {
    if (!run.found.paths.empty()) continue;
    found_all = false;
    std::fprintf(stderr, "%s: no path was found for '%s'\n", line.files.front().c_str(), run.run.c_str());
    for (const std::string& reason : run.found.stopped_by) std::fprintf(stderr, "  %s\n", reason.c_str());
  }
  if (runs.empty()) std::fprintf(stderr, "%s: every run has its path\n", line.files.front().c_str());
  if (line.take > 0) {
    if (const int status = take(line, loaded, runs); status != kAllWell) return status;
  }
  std::fputs(suggestions_json(*loaded.job, runs).c_str(), stdout);
  return found_all ? kAllWell : kFindingFails;
}

}  // namespace halfhard
