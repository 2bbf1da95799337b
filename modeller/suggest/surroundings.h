// What a path to be found must fit: its two ends, its bender, and everything in its way with what must be kept clear.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "geometry/distance/distance.h"
#include "geometry/plan/plan.h"
#include "modeller/job/job.h"

namespace halfhard {

struct InTheWay {
  std::string name;
  std::shared_ptr<const Obstacle> body;                     // a fixture, or
  std::shared_ptr<const TubeBody> tube;                     // another run
  double required_mm = 0;                                   // between surfaces
  double left_out_at_start_mm = 0, left_out_at_end_mm = 0;  // of the tube, where an end joins the fixture
  bool may_drill = false;

  Bounds bounds() const { return body ? body->bounds() : tube->bounds(); }
};

struct Surroundings {
  Vec3 start = Vec3::Zero(), end = Vec3::Zero();
  Vec3 leaves = Vec3::UnitX(), arrives = Vec3::UnitX();  // unit, both of travel
  double bend_radius_mm = 0, outside_radius_mm = 0;
  double first_straight_mm = 0, between_mm = 0, last_straight_mm = 0;  // least, from mouth to curve
  double one_pull_deg = 180;    // that two bends with nothing between may turn together, as one pull
  double most_angle_deg = 180;  // that a finished bend may have
  double insertions_mm = 0;
  double keep_clear_mm = 0;
  std::vector<Vec3> pieces = {Vec3::Zero()};  // how far each piece of the run's bank is slid
  std::vector<InTheWay> in_the_way;
};

// Of a run without path. Requires that the job plans.
Surroundings surroundings_of(const Job& job, const Plan& plan, const JobRun& run);

// How a line through these points would stand; nothing where the bender or a clearance forbids it.
struct Standing {
  int bends = 0;
  double cut_length_mm = 0;
  double least_clearance_mm = kAnyDistance;
  std::string nearest;
  std::vector<std::string> drills;
};
std::optional<Standing> judge(const Surroundings& scene, const std::vector<Vec3>& points);

// Whether the straights of a line through these points keep clear of every body, for every piece of the bank: a quick
// look that lets pass what only comes near in a bend, close to an end, or to another run. judge() decides.
bool legs_are_free(const Surroundings& scene, const std::vector<Vec3>& points);

// Whether a straight stretch keeps all its clearances; bodies that may be drilled or that an end joins are let pass.
// A quick look while paths are laid; judge() decides.
bool straight_is_free(const Surroundings& scene, const Vec3& from, const Vec3& to);

}  // namespace halfhard
