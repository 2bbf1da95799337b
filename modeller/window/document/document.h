// The job under edit: its text, its last good plan, undo without limit, its file, and the copy beside the file that
// survives a crash. Knows no screen. Not for use by two threads at once.
#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "geometry/plan/plan.h"
#include "modeller/job/read_job.h"
#include "modeller/loading/load_job.h"
#include "modeller/planner/planner.h"
#include "modeller/suggest/suggest.h"
#include "modeller/window/document/safety_copy.h"

namespace halfhard {

class Document {
 public:
  // A new job that has no file yet; its folder is where bodies are looked for.
  Document(std::string text, LoadOptions options);

  // Reads a file. Where it cannot be read the reason is in `problems()` and the text is empty.
  static Document opened(const std::string& file, const LoadOptions& options);

  const std::string& text() const { return text_; }
  const std::string& file() const { return file_; }  // empty where it has none yet
  std::string shown_name() const;

  // Of the last text that made a plan; null where none did so far.
  std::shared_ptr<const Plan> plan() const { return plan_; }
  // Where everything stands in the present text; nothing inside where it is no JSON.
  const JsonTree& tree() const { return source_->tree(); }
  // What the texts that stand for numbers come to, as far as they could be worked out.
  const Figures& figures() const { return figures_; }
  // Why the present text makes no plan; empty where it does.
  const std::vector<JobProblem>& problems() const { return problems_; }

  // One step of undo, taken even where the new text makes no plan (the last good plan stays). Steps that follow one
  // another with the same `at` (a pointer) join until `end_step`. `what` is for the menu: "change by".
  void change(std::string text, const std::string& what, const std::string& at);
  // The same only where the new text makes a plan; else what it would be refused for, and nothing changes. The text is
  // read and planned once.
  std::vector<JobProblem> change_if_usable(std::string text, const std::string& what, const std::string& at);
  void end_step() { open_at_.clear(); }
  // Takes back what was changed at `at` since the step there began: what was typed came to nothing that can be used. False
  // where nothing was.
  bool take_back(const std::string& at);
  bool can_undo() const { return done_ > 0; }
  bool can_redo() const { return done_ < steps_.size(); }
  std::string undo_what() const { return can_undo() ? steps_[done_ - 1].what : ""; }
  std::string redo_what() const { return can_redo() ? steps_[done_].what : ""; }
  void undo();
  void redo();

  bool modified() const { return text_ != saved_text_; }
  // Writes aside and renames; follows links. Empty, or why it could not be written.
  std::string save();
  std::string save_as(const std::string& file);

  // Ways for a run between its ends, best first, each as the whole job's text with that path (see suggest.h). None where
  // there are none, the run has no `to`, or the present text makes no plan.
  struct Way {
    std::string text;
    SuggestedPath path;
  };
  std::vector<Way> ways_for(const std::string& run);

  // Whether the file holds something else than what was last read from or written to it; false where it is gone.
  bool changed_on_disk() const;
  // Takes up what the file holds, as a step that can be undone.
  void take_from_disk();
  // From now on only further changes count.
  void keep_own() { disk_text_ = text_on_disk().value_or(disk_text_); }

  // The copy beside the file: written while there are unsaved changes, removed once there are none. What an earlier window
  // left stays until it is taken up or thrown away.
  void autosave();
  void drop_autosave() { copy_.drop(); }
  // What an earlier window left, where it differs from the file.
  std::optional<SafetyCopy::Left> left_by_a_crash() const;
  // As a step that can be undone; the copy goes once one of this window's own stands in its place.
  void take_up(const SafetyCopy::Left& left);

 private:
  struct Step {
    std::size_t at = 0;
    std::string removed, inserted;
    std::string what;
  };
  // A text worked out.
  struct Worked {
    std::unique_ptr<JobSource> source;
    std::shared_ptr<const Plan> plan;
    std::vector<JobProblem> problems;
    Figures figures;
  };
  ReadOptions reading() const;
  std::optional<std::string> text_on_disk() const;
  Worked work_out(const std::string& text);
  void take(std::string text, Worked worked);
  void take(std::string text);
  void record(const std::string& text, const std::string& what, const std::string& at);

  LoadOptions options_;
  std::string file_, text_, saved_text_, disk_text_;
  std::unique_ptr<JobSource> source_;
  std::unique_ptr<Planner> planner_;
  std::shared_ptr<const Plan> plan_;
  std::vector<JobProblem> problems_;
  Figures figures_;
  std::vector<Step> steps_;
  std::size_t done_ = 0;
  std::string open_at_;
  SafetyCopy copy_;
};

}  // namespace halfhard
