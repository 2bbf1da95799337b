#include "geometry/likely_error.h"

#include <cmath>

#include "geometry/shown.h"

namespace halfhard {
namespace {

// How the tube beyond a bend shifts for each mm that the radius is more than the table believes.
Vec3 shift_per_mm_of_radius(const Run& run, int bend) {
  const Vec3 before = run.line.leg_direction(bend), after = run.line.leg_direction(bend + 1);
  const Angle angle = run.line.bend_angle(bend);
  const double setback = angle.tan_of_half();
  // Marks from the outside of the bend before carry that bend's true setback along, so only its own is left.
  if (run.marking == Marking::each) return setback * (run.bends[bend].hook == End::datum ? before : after);
  // Marks laid on the straight tube: the bend starts where it should, its arc takes more of the tube.
  return run.bends[bend].hook == End::datum ? Vec3(setback * (before + after) - angle.radians() * after)
                                            : Vec3(setback * (before + after) - angle.radians() * before);
}

}  // namespace

LikelyError likely_error(const Run& run, const Tolerance& tolerance) {
  LikelyError error;
  error.angle = tolerance.angle;
  const double radius = run.line.radius_mm();
  error.radius_mm = run.bender->radius_measured ? kMeasuredRadiusError_mm : kUnmeasuredRadiusError_share * radius;
  const Vec3 end = run.line.points().back();
  Vec3 radius_shift = Vec3::Zero();
  double angles = 0, marks = 0;
  for (int bend = 0; bend < run.line.bend_count(); ++bend) {
    const Vec3 before = run.line.leg_direction(bend), after = run.line.leg_direction(bend + 1);
    const Vec3 axis = before.cross(after).normalized();
    const Vec3 lever = end - run.line.points()[bend + 1];
    angles += (axis.cross(lever) * tolerance.angle.radians()).squaredNorm();
    marks += ((after - before) * kMarkError_mm).squaredNorm();
    radius_shift += shift_per_mm_of_radius(run, bend) * error.radius_mm;
  }
  error.from_angles_mm = std::sqrt(angles);
  error.from_marks_mm = std::sqrt(marks);
  error.from_radius_mm = radius_shift.norm();
  error.mm = std::hypot(error.from_angles_mm, error.from_marks_mm, error.from_radius_mm);
  return error;
}

std::string likely_error_text(const LikelyError& error, LengthUnit unit) {
  return "Likely error: bent by this table alone, without the checks, the free end may miss by about " +
         shown_length(error.mm, unit) + ": angles within " + shown_angle(error.angle) + " give " +
         shown_length(error.from_angles_mm, unit) + ", marks within " + shown_length(error.mark_mm, unit) + " give " +
         shown_length(error.from_marks_mm, unit) + ", a radius within " + shown_length(error.radius_mm, unit) +
         " gives " + shown_length(error.from_radius_mm, unit) + ".";
}

}  // namespace halfhard
