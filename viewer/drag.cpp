#include "viewer/drag.h"

#include <cmath>

namespace halfhard {
namespace {

constexpr double kLeastSeen = 0.25;  // of an axis' true length; less points at the eye

struct Seen {
  double across = 0, up = 0;
};
Seen seen(const ViewFrame& frame, int axis) { return {frame.rightwards()[axis], frame.upwards[axis]}; }

}  // namespace

std::optional<int> axis_followed(const ViewFrame& frame, double across_px, double up_px) {
  std::optional<int> best;
  double most = 0;
  for (int axis = 0; axis < 3; ++axis) {
    const Seen along = seen(frame, axis);
    const double length = std::hypot(along.across, along.up);
    if (length < kLeastSeen) continue;
    const double follows = std::abs(across_px * along.across + up_px * along.up) / length;
    if (follows > most) most = follows, best = axis;
  }
  return best;
}

double dragged_mm(const ViewFrame& frame, double picture_height_px, int axis, double across_px, double up_px) {
  const Seen along = seen(frame, axis);
  const double length2 = along.across * along.across + along.up * along.up;
  if (length2 < kLeastSeen * kLeastSeen) return 0;
  const double mm_per_px = 2 * frame.half_height_mm / picture_height_px;
  return mm_per_px * (across_px * along.across + up_px * along.up) / length2;
}

}  // namespace halfhard
