#include "geometry/rules/bench_errors.h"

namespace halfhard {

BenchErrors bench_errors(const Run& run, const Rules& rules) {
  const Bender& bender = *run.bender;
  BenchErrors errors;
  errors.radius_mm = bender.radius_measured ? rules.radius_error_measured.value
                                            : rules.radius_error_unmeasured.value * run.line.radius_mm();
  errors.mark_offset_mm = bender.mark_offset_mm ? 0 : rules.mark_offset_unmeasured.value;
  if (bender.spring_back.empty()) errors.spring_back_at_90 = Angle::degrees(rules.spring_back_unmeasured.value);
  errors.mark_mm = rules.mark_error.value;
  errors.angle = Angle::degrees(rules.angle_error.value);
  errors.rotation = Angle::degrees(rules.rotation_error.value);
  return errors;
}

EndError likely_error(const Run& run, const Rules& rules) { return end_error(run, bench_errors(run, rules)); }

}  // namespace halfhard
