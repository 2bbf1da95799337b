// Findings that say the same of several pipes, as the pieces of a bank do: said once, a person reads them.
#pragma once

#include <string>
#include <vector>

#include "geometry/plan/finding.h"

namespace halfhard {

// Groups of one severity, each in the order found, the groups by their first. None is empty. Pointers into `findings`.
std::vector<std::vector<const Finding*>> alike_findings(const std::vector<Finding>& findings, Severity severity);

// A group in one sentence: "tail 1 to tail 8 (8 alike): each lies 4 mm from the trap"; a finding alone as it is, with
// its name in front where the message does not say it.
std::string told(const std::vector<const Finding*>& group);

// "fail", "warn", "note": in files that programs read.
const char* severity_word(Severity severity);
// The one word for each severity wherever a person reads it: "fails", "mind", "note".
const char* spoken_severity(Severity severity);

}  // namespace halfhard
