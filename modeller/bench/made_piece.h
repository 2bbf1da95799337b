// A piece as it came off the bender, wholly or half bent, from a few unknowns: of each bend made its angle, its turn and
// where on the tube its curve starts. Site frame, mm; the start end's fitting face, the direction of the first leg and
// the plane of the first bend are where the plan has them.
#pragma once

#include <Eigen/Dense>
#include <vector>

#include "geometry/bending/bend_table.h"
#include "geometry/plan/run.h"

namespace halfhard {

// Where everything is. Bends that are not made have angle 0 and take no tube: the legs on either side are one line.
struct MadeShape {
  std::vector<bool> made;           // one a bend
  std::vector<Angle> angle, turn;   // one a bend; turn from the nearest made bend before it
  std::vector<Vec3> starts, ends;   // tangent points of each bend, on the centre line
  std::vector<Vec3> backs;          // middle of the back of each bend
  std::vector<double> straight_mm;  // one a leg, blank's ends counted; may be negative where bends run into each other
  std::vector<Vec3> along;          // unit, one a leg
  Vec3 datum_face, free_face;       // fitting faces: where the finished centre line starts and ends
  Vec3 datum_end, free_end;         // the tube's ends as it lies there, insertion and spare on
};

class PieceModel {
 public:
  // The first `bends_made` bends in the order made.
  PieceModel(const Run& run, int bends_made);

  const Run& run() const { return run_; }
  int bend_count() const { return static_cast<int>(run_.bends.size()); }
  const std::vector<bool>& made() const { return made_; }
  bool all_made() const;
  // The unknowns: degrees and mm. Nothing (-1) for a bend that is not made; the first made bend has no turn.
  int unknowns() const { return static_cast<int>(planned_.size()); }
  const Eigen::VectorXd& planned() const { return planned_; }
  int angle_at(int bend) const { return angle_at_[static_cast<std::size_t>(bend)]; }  // 0-based
  int hook_at(int bend) const { return hook_at_[static_cast<std::size_t>(bend)]; }    // mm along the blank
  int turn_at(int bend) const { return turn_at_[static_cast<std::size_t>(bend)]; }
  MadeShape shape(const Eigen::VectorXd& unknowns) const;

 private:
  const Run& run_;
  std::vector<bool> made_;
  std::vector<int> angle_at_, hook_at_, turn_at_;
  Eigen::VectorXd planned_;
  Vec3 normal_;
};

// From `degrees` to within half a turn of `near_degrees`.
double nearest_turn_deg(double degrees, double near_degrees);

}  // namespace halfhard
