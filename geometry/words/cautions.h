// What a person must mind who makes and fits a pipe: one sentence each, the gravest first. For every paper that is built
// from; none of it replaces the local codes, and the last sentence says so.
// Common practice, no source, unless said otherwise.
#pragma once

#include <string>
#include <vector>

#include "geometry/plan/plan.h"

namespace halfhard {

// For making and fitting one run: by its service, what it passes through, and what its bender lacks.
std::vector<std::string> cautions(const Plan& plan, const Run& run);
// For the whole job.
std::vector<std::string> cautions(const Plan& plan);

// The sentences as one paragraph.
std::string caution_paragraph(const std::vector<std::string>& sentences);

}  // namespace halfhard
