// { "to": point or connection }: a leg to that intersection or end.
#include "geometry/base/tolerances.h"
#include "geometry/curve/centreline.h"
#include "geometry/words/shown.h"
#include "modeller/steps/walker.h"

namespace halfhard {

void walk_step(const ToStep& step, Walker& walker) {
  const Vec3 way = walker.context().target(step) - walker.at();
  const double length = way.norm();
  if (length <= kStraightSlack_mm) {
    walker.problem(step.pointer, "a point where the line already is", "a point some way off");
    return;
  }
  const PathStep* before = walker.step_before();
  const bool after_shift = before && !is_leg(*before) && walker.shift_travel();
  if (after_shift && angle_between(*walker.shift_travel(), way).degrees() >= kSameDirection_deg) {
    walker.problem(step.pointer,
                   "a leg turned " + shown_angle_bare(angle_between(*walker.shift_travel(), way)) +
                       " degrees from the leg before the offset or passover",
                   "legs in one and the same direction before and after it");
    return;
  }
  walker.leg(way / length, length, step.pointer);
}

}  // namespace halfhard
