// What may be out at the bench by the job's rules, and what that does to the far end of a pipe.
#pragma once

#include "geometry/bending/end_error.h"
#include "geometry/plan/rules.h"

namespace halfhard {

// Measured or unmeasured radius, mark offset and spring-back as the bender of this run has them.
BenchErrors bench_errors(const Run& run, const Rules& rules);

// At the free end, with each bend checked as it is made; 0 throughout for a straight piece.
EndError likely_error(const Run& run, const Rules& rules);

}  // namespace halfhard
