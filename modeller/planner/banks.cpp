#include "modeller/planner/banks.h"

#include "geometry/base/tolerances.h"
#include "geometry/words/shown.h"

namespace halfhard {

std::optional<std::vector<Vec3>> points_at_equal_gaps(const CentreLine& first, const Vec3& step_mm, const JobBank& bank,
                                                      int number, Problems& problems) {
  const Vec3 along = first.leg_direction(0);
  Vec3 w = step_mm - step_mm.dot(along) * along;
  if (angle_between(along, step_mm).degrees() < kSameDirection_deg ||
      angle_between(along, step_mm).degrees() > 180 - kSameDirection_deg) {
    problems.push_back({bank.pointer + "/step", "a step along the first leg: the pieces would lie in one another",
                        "a step across the first leg"});
    return std::nullopt;
  }
  std::vector<Vec3> points = first.points();
  points.front() += step_mm;
  for (int j = 1; j <= first.bend_count(); ++j) {
    const Vec3 before = first.leg_direction(j - 1);
    const Vec3 after = first.leg_direction(j);
    const Vec3 shift = w - before * (w.dot(after) / (1 + before.dot(after)));
    points[j] += shift;
    w = shift - shift.dot(after) * after;
  }
  points.back() += w;
  for (int leg = 0; leg < first.leg_count(); ++leg) {
    const double length = (points[leg + 1] - points[leg]).dot(first.leg_direction(leg));
    if (length > kStraightSlack_mm) continue;
    problems.push_back({bank.pointer,
                        "leg " + std::to_string(leg + 1) + " of piece " + std::to_string(number) + " comes out as " +
                            shown_number(length, 3) + " mm",
                        "longer legs, fewer pieces or a smaller step"});
    return std::nullopt;
  }
  const std::vector<double> lacking = shortage_mm(points, first.radius_mm());
  for (int leg = 0; leg < first.leg_count(); ++leg) {
    if (lacking[leg] <= kStraightSlack_mm) continue;
    problems.push_back({bank.pointer,
                        "leg " + std::to_string(leg + 1) + " of piece " + std::to_string(number) + " is " +
                            shown_number(lacking[leg], 3) + " mm too short for the tangents of its bends",
                        "longer legs, fewer pieces or a smaller step"});
    return std::nullopt;
  }
  return points;
}

Vec3 mirrored_direction(const Vec3& direction, const Vec3& step) {
  const Vec3 along = step.normalized();
  return direction - 2 * direction.dot(along) * along;
}

Vec3 mirrored_point(const Vec3& point, const Vec3& start, const Vec3& step) {
  return start + mirrored_direction(point - start, step);
}

}  // namespace halfhard
