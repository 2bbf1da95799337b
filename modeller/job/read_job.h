// Job text to `Job`: every key, every fault reported, none guessed at.
//
// Keys that stand in few jobs; all are optional:
// clang-format off
//   list_clearances_within  length, default 250 mm   pairs nearer than this are listed in the report
//   drill_clearance         length, default 2 mm     added all round the tube in a drilled hole; also on a run, a fixture
//   sets                    1..10000, default 1      how often everything is made; multiplies cut list and sheets
//   stock                   { "lengths": [L, ...], "cutter_loss": L }       default [3000 mm], in inch jobs [10 ft]; 0
//   limits                  { "name": { "value": n, "reason": "text" } }    names: limits() of geometry/plan/rules.h
//   sheet                   { "owner", "identification", "revision", "date", "created_by", "approved_by": text,
//                             "projection": "first angle" | "third angle" }
// clang-format on
//
// Left to the planner, because they need geometry: whether `hook` and `order` fit the number of bends, whether a shift
// is square to travel, whether legs are long enough, whether taped planes meet in a point, whether a bank can stand.
#pragma once

#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <string>
#include <unordered_map>
#include <variant>
#include <vector>

#include "modeller/job/job.h"
#include "modeller/job/json_tree.h"
#include "modeller/job/problem.h"

namespace halfhard {

// The triangles of a STEP file in mm, by its own unit, or why it could not be read.
using SolidReader = std::function<std::variant<TriangleBody, std::string>(const std::filesystem::path&)>;

struct ReadOptions {
  std::string file = "job.json";             // for messages, and for the stem; as the person named it
  std::map<std::string, std::string> set;    // --set: value name -> expression
  std::filesystem::path job_folder = ".";    // where `solid` files are looked for
  std::vector<std::filesystem::path> allow;  // --allow: other folders that they may lie in
  SolidReader read_solid;                    // the reader itself links no solid modeller
};

// What a text that stands for a number comes to.
struct WorkedFigure {
  double value = 0;  // mm for a length
  bool length = false;
  friend bool operator==(const WorkedFigure&, const WorkedFigure&) = default;
};
using Figures = std::map<std::string, WorkedFigure>;  // by JSON pointer; plain numbers are left out

// Either a job, or what is wrong with its file: all of it, in the order of the file.
struct JobReading {
  std::optional<Job> job;
  std::vector<JobProblem> problems;
  Figures figures;
  int exit_status() const { return exit_status_of(problems); }
};

JobReading read_job(std::string text, const ReadOptions& options);
// The file's folder becomes the job's folder. A file that cannot be read is a problem of exit status 3.
JobReading read_job_file(const std::filesystem::path& path, ReadOptions options);

// The whole of a file, or nothing and a problem of exit status 3; `allowed` says what was looked for.
std::optional<std::string> read_text_file(const std::filesystem::path& path, const std::string& allowed,
                                          std::vector<JobProblem>& problems);

// "name=value" of a --set; nothing where there is no name or no =.
std::optional<std::pair<std::string, std::string>> split_set(const std::string& text);

// FNV-1a, 64 bits, as 16 hex digits: tells one text of a job from another. Not a safeguard against forgery.
std::string digest_of(std::string_view text);

// A job text that is read once and worked out again and again with other values: expressions and STEP bodies are kept,
// the JSON is not parsed again. Not for use by two threads at once.
class JobSource {
 public:
  JobSource(std::string text, ReadOptions options);
  ~JobSource();
  JobSource(JobSource&&) noexcept;
  JobSource& operator=(JobSource&&) noexcept;

  // With `set` in place of the options' own.
  JobReading read(const std::map<std::string, std::string>& set);
  JobReading read();

  // STEP bodies that another text of the same job has read and placed, so that they are neither read again nor seen as
  // changed; those whose files were written since are left out.
  void take_solids_from(const JobSource& before);

  // Where everything stands in the text; holds nothing where the text is no JSON.
  const JsonTree& tree() const;
  // A problem at a JSON pointer, with its file and line: for what the planner finds.
  JobProblem problem_at(const std::string& pointer, std::string found, std::string allowed) const;

 private:
  struct Kept;
  std::unique_ptr<Kept> kept_;
};

}  // namespace halfhard
