#include "modeller/bench/end_miss.h"

#include <cmath>

namespace halfhard {

EndMiss end_miss(const Run& run, const MadeShape& shape) {
  EndMiss miss;
  miss.by = shape.free_face - run.line.points().back();
  miss.turned = angle_between(shape.along.back(), run.line.leg_direction(run.line.leg_count() - 1));
  return miss;
}

TurnedMiss turned_to_best(const Run& run, const MadeShape& shape) {
  const Vec3 axis = run.line.leg_direction(0), origin = run.line.points().front();
  const auto across = [&](const Vec3& place) -> Vec3 {
    const Vec3 from = place - origin;
    return from - from.dot(axis) * axis;
  };
  const Vec3 is = across(shape.free_face), belongs = across(run.line.points().back());
  TurnedMiss turned;
  turned.by = Angle::radians(std::atan2(is.cross(belongs).dot(axis), is.dot(belongs)));
  const Eigen::AngleAxisd turn(turned.by.radians(), axis);
  turned.miss.by = origin + turn * (shape.free_face - origin) - run.line.points().back();
  turned.miss.turned = angle_between(turn * shape.along.back(), run.line.leg_direction(run.line.leg_count() - 1));
  return turned;
}

}  // namespace halfhard
