// Walks a run's path step by step and lays its intersections. Each step is one file that adds to the walk.
// Lengths mm, site frame. What only the connection can tell (`rest`, "offset": "to") is given as Unknowns and found by
// trace_path, which walks more than once.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "modeller/job/job.h"
#include "modeller/job/plan_problem.h"

namespace halfhard {

struct Unknowns {
  double rest_mm = 0;
  Vec3 shift = Vec3::Zero();  // of "offset": "to"
};

struct WalkNote {
  std::string id, message, pointer;
};

// An offset step as it was laid.
struct LaidOffset {
  int first_point = 0;  // index of its first intersection; the second follows
  double true_mm = 0, advance_mm = 0;
  Angle angle;
  std::vector<WordShift> shift;
  std::string pointer;
};

struct PathContext {
  double radius_mm = 0;
  double outside_diameter_mm = 0;
  Vec3 start = Vec3::Zero();
  // Where a `to` step leads; the reader has made sure that it exists.
  std::function<Vec3(const ToStep&)> target;
};

class Walker {
 public:
  Walker(const PathContext& context, const std::vector<PathStep>& steps, const Unknowns& unknowns);

  void walk();

  // Read by the steps and by trace_path.
  const PathContext& context() const { return context_; }
  const Unknowns& unknowns() const { return unknowns_; }
  const Vec3& at() const { return points_.back(); }
  const std::optional<Vec3>& direction() const { return direction_; }
  const std::optional<Vec3>& bend_normal() const { return normal_; }
  Angle turn_here() const { return turn_here_; }
  const PathStep* step_before() const { return index_ > 0 ? &steps_[index_ - 1] : nullptr; }
  const PathStep* step_after() const { return index_ + 1 < steps_.size() ? &steps_[index_ + 1] : nullptr; }

  // Called by the steps.
  // Goes on from the last intersection.
  void leg(const Vec3& direction, double length_mm, const std::string& pointer);
  // The centre-line length of a taped leg whose own direction is `direction`.
  double from_tape(double taped_mm, const Measured& measured, const Vec3& direction, const std::string& pointer);
  // The length of a leg by "rest"; notes that a tape says nothing of it.
  double rest_leg(const Measured& measured, const Vec3& direction, const std::string& pointer);
  // Requires travel before, and a leg in the same direction after; says so otherwise.
  bool between_legs(const char* what, const std::string& pointer);
  // Ends an offset or passover: the next leg must run along `travel` again.
  void end_shift(const Vec3& travel) { shift_travel_ = travel; }
  const std::optional<Vec3>& shift_travel() const { return shift_travel_; }
  void lay_offset(LaidOffset offset) { offsets_.push_back(std::move(offset)); }
  void problem(const std::string& pointer, std::string found, std::string allowed);
  void note(std::string id, std::string message, const std::string& pointer);

  // What came of it.
  const std::vector<Vec3>& points() const { return points_; }
  const std::vector<std::string>& pointers() const { return pointers_; }  // of the step that turns at each point
  const std::vector<LaidOffset>& offsets() const { return offsets_; }
  const Problems& problems() const { return problems_; }
  const std::vector<WalkNote>& notes() const { return notes_; }
  // Position before step i, and the direction of the rest leg and of the offset to the connection.
  const std::vector<Vec3>& before_step() const { return before_step_; }
  std::optional<Vec3> rest_direction, offset_to_direction;

 private:
  Angle turn_after(const Vec3& direction) const;

  const PathContext& context_;
  const std::vector<PathStep>& steps_;
  const Unknowns& unknowns_;
  std::size_t index_ = 0;
  std::vector<Vec3> points_, before_step_;
  std::vector<std::string> pointers_;
  std::optional<Vec3> direction_, normal_, shift_travel_;
  Angle turn_here_;  // between the last two legs; 0 at the start and where the line runs straight on
  std::vector<LaidOffset> offsets_;
  Problems problems_;
  std::vector<WalkNote> notes_;
};

// One file each.
void walk_step(const GoStep& step, Walker& walker);
void walk_step(const ToStep& step, Walker& walker);
void walk_step(const BendStep& step, Walker& walker);
void walk_step(const OffsetStep& step, Walker& walker);
void walk_step(const PassoverStep& step, Walker& walker);

// How an offset step would turn, for the tape of the leg before it.
struct OffsetGeometry {
  Vec3 shift = Vec3::Zero();
  double true_mm = 0, advance_mm = 0;
  Angle angle;
};
OffsetGeometry offset_geometry(const OffsetStep& step, const Walker& walker);
// The direction that a bend step turns into.
Vec3 bent_direction(const BendStep& step, const Vec3& travel, const std::optional<Vec3>& normal_before);

bool is_leg(const PathStep& step);

}  // namespace halfhard
