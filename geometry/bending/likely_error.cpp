#include "geometry/bending/likely_error.h"

namespace halfhard {

BenchErrors usual_bench_errors(const Run& run) {
  const Bender& bender = *run.bender;
  BenchErrors errors;
  errors.radius_mm = bender.radius_measured ? 0.5 : 0.1 * run.line.radius_mm();
  errors.mark_offset_mm = bender.mark_offset_mm ? 0 : 5;
  errors.spring_back_at_90 = Angle::degrees(bender.spring_back.empty() ? 4 : 0);
  errors.mark_mm = 0.5;
  errors.angle = Angle::degrees(0.5);
  errors.rotation = Angle::degrees(1);
  return errors;
}

EndError likely_error(const Run& run) { return end_error(run, usual_bench_errors(run)); }

}  // namespace halfhard
