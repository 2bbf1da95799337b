#include "modeller/loading/load_job.h"

#include <cstdio>
#include <filesystem>

#include "modeller/planner/planner.h"
#include "modeller/solids/read_step_body.h"

namespace halfhard {

ReadOptions read_options(const std::string& file, const LoadOptions& options) {
  ReadOptions reading;
  reading.file = file;
  reading.set = options.set;
  const std::filesystem::path folder = std::filesystem::path(file).parent_path();
  reading.job_folder = folder.empty() ? "." : folder;
  reading.allow.assign(options.allow.begin(), options.allow.end());
  reading.read_solid = [](const std::filesystem::path& step) { return read_step_body(step); };
  return reading;
}

LoadedJob load_job(const std::string& file, const LoadOptions& options) {
  LoadedJob unread;
  unread.file = file;
  auto text = read_text_file(file, "a job file that can be read", unread.problems);
  return text ? load_job_text(file, *std::move(text), options) : unread;
}

LoadedJob load_job_text(const std::string& file, std::string text, const LoadOptions& options) {
  LoadedJob loaded;
  loaded.file = file;
  loaded.text = std::move(text);
  loaded.source = std::make_shared<JobSource>(loaded.text, read_options(file, options));
  JobReading reading = loaded.source->read();
  loaded.problems = std::move(reading.problems);
  if (!reading.job) return loaded;
  loaded.job = std::make_shared<const Job>(std::move(*reading.job));
  Planned planned = plan_job(*loaded.job);
  for (const Problem& problem : planned.problems) {
    loaded.problems.push_back(loaded.source->problem_at(problem.pointer, problem.found, problem.allowed));
  }
  loaded.plan = std::move(planned.plan);
  return loaded;
}

int LoadedJob::line_of(const std::string& pointer) const {
  return source && !pointer.empty() ? source->problem_at(pointer, "", "").line : 0;
}

void LoadedJob::print_problems() const {
  for (const JobProblem& problem : problems) std::fprintf(stderr, "%s\n", problem.shown().c_str());
}

int LoadedJob::status() const {
  if (!plan) return exit_status_of(problems);
  return plan->fails() ? kFindingFails : kAllWell;
}

}  // namespace halfhard
