#include "geometry/bending/end_error.h"

#include <cmath>

namespace halfhard {
namespace {

double squared(double x) { return x * x; }

}  // namespace

double EndError::total_mm() const {
  return std::sqrt(squared(radius_mm) + squared(mark_offset_mm) + squared(spring_back_mm) + squared(marks_mm) +
                   squared(angles_mm) + squared(rotations_mm));
}

EndError end_error(const Run& run, const BenchErrors& errors) {
  const Vec3& end = run.line.points().back();
  Vec3 radius = Vec3::Zero(), mark_offset = Vec3::Zero(),
       spring_back = Vec3::Zero();              // per mm, per mm, per radian at 90
  double marks = 0, angles = 0, rotations = 0;  // sums of squares
  int bend = 0;
  for (const Piece& piece : run.line.pieces()) {
    const Arc* arc = std::get_if<Arc>(&piece.shape);
    if (!arc) continue;
    const bool datum = run.bends[bend].hook == End::datum;
    const double sweep = arc->sweep.radians();
    const Vec3 before = arc->along, after = arc->direction(sweep);
    const Vec3 begins = arc->point(0), ends = arc->point(sweep);
    // More angle turns all that follows about the end of the bend.
    const Vec3 by_angle = arc->axis().cross(end - ends);
    // The bend slid along the tube: all that follows shifts.
    const Vec3 by_mark = before - after;
    // A larger former reaches farther and uses more tube, on the side that is not on the hook.
    const Vec3 by_radius = (ends - begins) / arc->radius - sweep * (datum ? after : before);
    const Vec3 by_rotation = before.cross(end - begins);

    radius += by_radius;
    mark_offset += datum ? by_mark : Vec3(-by_mark);
    spring_back += by_angle * (arc->sweep.degrees() / 90);
    marks += by_mark.squaredNorm();
    angles += by_angle.squaredNorm();
    if (bend > 0) rotations += by_rotation.squaredNorm();
    ++bend;
  }
  EndError error;
  error.radius_mm = radius.norm() * errors.radius_mm;
  error.mark_offset_mm = mark_offset.norm() * errors.mark_offset_mm;
  error.spring_back_mm = spring_back.norm() * errors.spring_back_at_90.radians();
  error.marks_mm = std::sqrt(marks) * errors.mark_mm;
  error.angles_mm = std::sqrt(angles) * errors.angle.radians();
  error.rotations_mm = std::sqrt(rotations) * errors.rotation.radians();
  return error;
}

}  // namespace halfhard
