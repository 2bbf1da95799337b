// Findings that say the same of several pipes, as the pieces of a bank do: said once, a person reads them.
#pragma once

#include <string>
#include <vector>

#include "geometry/finding.h"

namespace halfhard {

// Groups of one severity, each in the order found, the groups by their first. None is empty. Pointers into `findings`.
std::vector<std::vector<const Finding*>> alike_findings(const std::vector<Finding>& findings, Severity severity);

// Whom a group speaks of: "8 pipes, tail 1 to tail 8"; one name; "" where the message names it already, or for the job.
std::string spoken_of(const std::vector<const Finding*>& group);

}  // namespace halfhard
