// The likely error that papers say once: how far the free end may miss with each bend checked as it is made.
// end_error.h carries the errors through; here is what is usual at the bench. A job may set its own figures under its
// limits: then the plan's "free-end" finding knows better, and the papers take it from there.
#pragma once

#include "geometry/bending/end_error.h"

namespace halfhard {

// Marks and a measured radius within 0.5 mm, a checked angle within 0.5 degree, a turn within 1 degree (common practice,
// no source). Not measured: a radius within a tenth (published radii of one 15 mm tube run from 50 to 60 mm), a mark
// offset within 5 mm (common practice, no source), spring-back within 4 degrees at 90 (2 to 4, from memory).
BenchErrors usual_bench_errors(const Run& run);

// At the free end; 0 throughout for a straight piece.
EndError likely_error(const Run& run);

}  // namespace halfhard
