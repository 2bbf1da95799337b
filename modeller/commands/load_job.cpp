#include "modeller/commands/load_job.h"

#include <cstdio>
#include <fstream>
#include <iterator>

#include "modeller/planner/planner.h"
#include "modeller/solids/read_step_body.h"

namespace halfhard {
namespace {

JobProblem file_trouble(const std::string& file, const std::string& found) {
  JobProblem problem;
  problem.file = file;
  problem.found = found;
  problem.allowed = "a job file that can be read";
  problem.exit_status = kFileTrouble;
  return problem;
}

std::optional<std::string> text_of(const std::string& file, std::vector<JobProblem>& problems) {
  const std::filesystem::path path(file);
  std::error_code error;
  if (!std::filesystem::exists(path, error)) {
    problems.push_back(file_trouble(file, "no such file"));
    return std::nullopt;
  }
  if (std::filesystem::is_directory(path, error)) {
    problems.push_back(file_trouble(file, "a folder"));
    return std::nullopt;
  }
  std::ifstream stream(path, std::ios::binary);
  std::string text{std::istreambuf_iterator<char>(stream), {}};
  if (!stream.is_open() || stream.bad()) {
    problems.push_back(file_trouble(file, "a file that cannot be read"));
    return std::nullopt;
  }
  return text;
}

}  // namespace

ReadOptions read_options(const std::string& file, const CommandLine& line) {
  ReadOptions options;
  options.file = file;
  options.set = line.set;
  const std::filesystem::path folder = std::filesystem::path(file).parent_path();
  options.job_folder = folder.empty() ? "." : folder;
  options.allow.assign(line.allow.begin(), line.allow.end());
  options.read_solid = [](const std::filesystem::path& step) { return read_step_body(step); };
  return options;
}

LoadedJob load_job(const std::string& file, const CommandLine& line) {
  LoadedJob loaded;
  loaded.file = file;
  const auto text = text_of(file, loaded.problems);
  if (!text) return loaded;
  loaded.source = std::make_shared<JobSource>(*text, read_options(file, line));
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
