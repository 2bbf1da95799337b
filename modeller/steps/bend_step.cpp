// { "bend": angle, "roll": r, "by": L }: a turn from the last leg, then a leg.
#include "geometry/base/tolerances.h"
#include "geometry/curve/centreline.h"
#include "modeller/steps/walker.h"

namespace halfhard {

Vec3 bent_direction(const BendStep& step, const Vec3& travel, const std::optional<Vec3>& normal_before) {
  Vec3 normal;
  if (normal_before) {
    // The last bend's plane holds the last leg; taken square again against rounding.
    normal = (*normal_before - normal_before->dot(travel) * travel).normalized();
  } else {
    const double off_vertical = angle_between(travel, Vec3::UnitZ()).degrees();
    const bool vertical = off_vertical < kSameDirection_deg || off_vertical > 180 - kSameDirection_deg;
    normal = travel.cross(vertical ? Vec3::UnitY() : Vec3::UnitZ()).normalized();
  }
  normal = Eigen::AngleAxisd(step.roll.radians(), travel) * normal;
  return (step.angle.cos() * travel + step.angle.sin() * normal.cross(travel)).normalized();
}

void walk_step(const BendStep& step, Walker& walker) {
  if (!walker.step_before()) {
    walker.problem(step.pointer, "a bend at the very start", "a leg before it");
    return;
  }
  if (!walker.direction()) return;  // the leg before it was refused already
  // A turn under 0.01 degree is left out later, as that of any leg; what lies beyond it stays where it leads.
  const Vec3 direction = bent_direction(step, *walker.direction(), walker.bend_normal());
  double length = 0;
  if (const auto* by = std::get_if<double>(&step.by)) {
    length = walker.from_tape(*by, step.measured, direction, step.pointer);
  } else {
    length = walker.rest_leg(step.measured, direction, step.pointer);
  }
  walker.leg(direction, length, step.pointer);
}

}  // namespace halfhard
