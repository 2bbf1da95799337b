#include "geometry/bending/as_cut.h"

namespace halfhard {

CentreLine line_as_cut(const Run& run) {
  const double datum_mm = run.datum_insertion_mm();
  const double free_mm = run.free_insertion_mm();
  if (datum_mm == 0 && free_mm == 0) return run.line;
  std::vector<Vec3> points = run.line.points();
  points.front() -= datum_mm * run.line.leg_direction(0);
  points.back() += free_mm * run.line.leg_direction(run.line.leg_count() - 1);
  return CentreLine::through(std::move(points), run.line.radius_mm());
}

}  // namespace halfhard
