// Suggestions as JSON text: each path as it goes into the job, in the job's own length unit. Needs nothing, throws nothing.
#pragma once

#include <string>
#include <vector>

#include "modeller/suggest/lay_together.h"
#include "modeller/suggest/suggest.h"

namespace halfhard {

// { "format": "halfhard-suggestions/1", "job": title, "runs": [ { "run", "complete_to_bends", "paths": [ { "path", "bends",
// "angles_deg", "cut_length_mm", "least_clearance_mm", "nearest", "drills", "why" } ], "stopped_by": [] } ] }, a path a
// line; clearance, nearest and drills only where there is something to say. Ends with a new line. Numbers are never
// rounded.
std::string suggestions_json(const Job& job, const std::vector<RunSuggestions>& runs);

// One path, on one line: what stands after "path": in the job.
std::string path_json(const std::vector<PathStep>& steps, LengthUnit unit);

}  // namespace halfhard
