// From a job file to its plan, or to why it cannot be used.
#pragma once

#include <map>
#include <memory>
#include <string>
#include <vector>

#include "geometry/plan/plan.h"
#include "modeller/job/job.h"
#include "modeller/job/read_job.h"

namespace halfhard {

// What a person may say beside the job's name, in every command and in the window.
struct LoadOptions {
  std::map<std::string, std::string> set;  // --set name=value
  std::vector<std::string> allow;          // --allow DIR
};

// Exit status of the programs.
inline constexpr int kAllWell = 0;
inline constexpr int kFindingFails = 1;
inline constexpr int kUnusable = 2;
inline constexpr int kFileTrouble = 3;

struct LoadedJob {
  std::string file;  // as the person named it
  std::string text;  // that was read; all that is made of the job is made from it
  std::shared_ptr<JobSource> source;
  std::shared_ptr<const Job> job;
  std::shared_ptr<const Plan> plan;  // null where there are problems
  std::vector<JobProblem> problems;

  // 1-based line in the file of what a JSON pointer points at; 0 where there is none.
  int line_of(const std::string& pointer) const;
  // A line each, on standard error.
  void print_problems() const;
  // 0, or 1 where a finding fails, or that of the problems.
  int status() const;
};

// How a job file named so is to be read: its own folder, STEP bodies by the child program, --set and --allow.
ReadOptions read_options(const std::string& file, const LoadOptions& options);
LoadedJob load_job(const std::string& file, const LoadOptions& options);
// The same of a text that was read before; `file` is where it came from.
LoadedJob load_job_text(const std::string& file, std::string text, const LoadOptions& options);

}  // namespace halfhard
