#include "modeller/window/document/document.h"

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <iterator>

#include "geometry/base/trouble.h"
#include "modeller/job/json_patch.h"
#include "modeller/loading/load_job.h"
#include "modeller/suggest/suggestion_json.h"
#include "modeller/system/files.h"

namespace halfhard {
namespace {

std::optional<std::string> file_text(const std::filesystem::path& path) {
  std::ifstream stream(path, std::ios::binary);
  if (!stream.is_open()) return std::nullopt;
  std::string text{std::istreambuf_iterator<char>(stream), {}};
  if (stream.bad()) return std::nullopt;
  return text;
}

// Where a job that has no file yet is kept.
std::filesystem::path own_folder() {
  const char* data = std::getenv("XDG_DATA_HOME");
  if (data && *data) return std::filesystem::path(data) / "halfhard";
  const char* home = std::getenv("HOME");
  return std::filesystem::path(home && *home ? home : ".") / ".local" / "share" / "halfhard";
}

}  // namespace

Document::Document(std::string text, LoadOptions options)
    : options_(std::move(options)), planner_(std::make_unique<Planner>()), copy_(own_folder() / "new job") {
  saved_text_ = text;
  take(std::move(text));
}

Document Document::opened(const std::string& file, const LoadOptions& options) {
  std::error_code error;
  const bool folder = std::filesystem::is_directory(file, error);
  const auto text = folder ? std::nullopt : file_text(file);
  Document document("", options);
  document.file_ = file;
  document.copy_ = SafetyCopy(file);
  if (!text) {
    JobProblem problem;
    problem.file = file;
    problem.found = folder ? "a folder" : "no file that can be read";
    problem.allowed = "a job file";
    problem.exit_status = kFileTrouble;
    document.problems_ = {problem};
    return document;
  }
  document.saved_text_ = document.disk_text_ = *text;
  document.take(*text);
  return document;
}

std::string Document::shown_name() const {
  return file_.empty() ? "new job" : std::filesystem::path(file_).filename().string();
}

ReadOptions Document::reading() const { return read_options(file_.empty() ? "new job.json" : file_, options_); }

Document::Worked Document::work_out(const std::string& text) {
  Worked worked;
  worked.source = std::make_unique<JobSource>(text, reading());
  if (source_) worked.source->take_solids_from(*source_);
  JobReading reading = worked.source->read();
  worked.problems = std::move(reading.problems);
  worked.figures = std::move(reading.figures);
  if (!reading.job) return worked;
  Planned planned = planner_->plan(*reading.job);
  for (const Problem& problem : planned.problems)
    worked.problems.push_back(worked.source->problem_at(problem.pointer, problem.found, problem.allowed));
  worked.plan = std::move(planned.plan);
  return worked;
}

void Document::take(std::string text, Worked worked) {
  text_ = std::move(text);
  source_ = std::move(worked.source);
  problems_ = std::move(worked.problems);
  figures_ = std::move(worked.figures);
  if (worked.plan) plan_ = std::move(worked.plan);
}

void Document::take(std::string text) {
  Worked worked = work_out(text);
  take(std::move(text), std::move(worked));
}

std::vector<Document::Way> Document::ways_for(const std::string& run) {
  const JsonValue there = tree().at(run);
  if (!there || there.kind() != JsonKind::group || !there.find("name") || !there.find("to")) return {};
  const bool has_path = static_cast<bool>(there.find("path"));
  JobSource source(has_path ? *without(tree(), run + "/path") : text_, reading());
  source.take_solids_from(*source_);
  const JobReading reading = source.read();
  if (!reading.job || !Planner().plan(*reading.job).plan) return {};
  std::vector<Way> ways;
  for (SuggestedPath& path : suggest_paths(*reading.job, std::string(there.find("name").text()))) {
    const std::string json = path_json(path.steps, reading.job->unit);
    auto text = has_path ? with_value(tree(), run + "/path", json) : with_member(tree(), run, "path", json);
    if (text) ways.push_back({std::move(*text), std::move(path)});
  }
  return ways;
}

// The step from the present text to another, only what differs kept; one with the step before it where they join.
void Document::record(const std::string& text, const std::string& what, const std::string& at) {
  const bool joins = !at.empty() && at == open_at_ && done_ == steps_.size() && done_ > 0;
  std::string before = text_;
  if (joins) {
    const Step& last = steps_.back();
    before.replace(last.at, last.inserted.size(), last.removed);
    --done_;
  }
  steps_.resize(done_);
  open_at_.clear();
  if (before == text) return;  // typed and taken back
  const std::size_t most = std::min(text.size(), before.size());
  std::size_t front = 0, back = 0;
  while (front < most && text[front] == before[front]) ++front;
  while (back < most - front && text[text.size() - 1 - back] == before[before.size() - 1 - back]) ++back;
  steps_.push_back({front, before.substr(front, before.size() - front - back),
                    text.substr(front, text.size() - front - back), what});
  ++done_;
  open_at_ = at;
}

void Document::change(std::string text, const std::string& what, const std::string& at) {
  if (text == text_) return;
  record(text, what, at);
  take(std::move(text));
}

std::vector<JobProblem> Document::change_if_usable(std::string text, const std::string& what, const std::string& at) {
  if (text == text_) return {};
  Worked worked = work_out(text);
  if (!worked.plan) return worked.problems;
  record(text, what, at);
  take(std::move(text), std::move(worked));
  return {};
}

bool Document::take_back(const std::string& at) {
  if (at.empty() || at != open_at_ || done_ != steps_.size() || done_ == 0) return false;
  const Step last = steps_.back();
  steps_.pop_back();
  --done_;
  open_at_.clear();
  std::string text = text_;
  take(text.replace(last.at, last.inserted.size(), last.removed));
  return true;
}

void Document::undo() {
  if (!can_undo()) return;
  end_step();
  const Step& step = steps_[--done_];
  std::string text = text_;
  take(text.replace(step.at, step.inserted.size(), step.removed));
}

void Document::redo() {
  if (!can_redo()) return;
  end_step();
  const Step& step = steps_[done_++];
  std::string text = text_;
  take(text.replace(step.at, step.removed.size(), step.inserted));
}

std::string Document::save() {
  if (file_.empty()) return "the job has no file yet";
  std::error_code error;
  std::filesystem::path path = std::filesystem::weakly_canonical(file_, error);
  if (error) path = file_;
  try {
    write_whole(path, text_);
  } catch (const Trouble& trouble) {
    return trouble.what();
  }
  drop_autosave();
  saved_text_ = disk_text_ = text_;
  return {};
}

std::string Document::save_as(const std::string& file) {
  const std::string before = file_;
  file_ = file;
  const std::string trouble = save();
  if (!trouble.empty()) {
    file_ = before;
    return trouble;
  }
  copy_ = SafetyCopy(file_);
  take(text_);  // its folder is another now
  return {};
}

std::optional<std::string> Document::text_on_disk() const { return file_.empty() ? std::nullopt : file_text(file_); }

bool Document::changed_on_disk() const {
  const auto now = text_on_disk();
  return now && *now != disk_text_;
}

void Document::take_from_disk() {
  const auto now = text_on_disk();
  if (!now) return;
  disk_text_ = saved_text_ = *now;
  end_step();
  change(*now, "take up the changed file", "");
}

void Document::autosave() {
  if (!modified()) return drop_autosave();
  std::error_code error;
  if (file_.empty()) std::filesystem::create_directories(own_folder(), error);
  copy_.write(text_);
}

std::optional<SafetyCopy::Left> Document::left_by_a_crash() const {
  auto left = copy_.left_behind();
  if (left && left->text == text_) left.reset();
  return left;
}

void Document::take_up(const SafetyCopy::Left& left) {
  change(left.text, "take up what was not saved", "");
  autosave();
  if (copy_.written() || !modified()) SafetyCopy::drop(left);
}

}  // namespace halfhard
