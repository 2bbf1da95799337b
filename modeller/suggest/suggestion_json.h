// Suggestions as JSON text: each path as it goes into the job, in the job's own length unit. Needs nothing, throws nothing.
#pragma once

#include <string>
#include <vector>

#include "modeller/suggest/suggest.h"

namespace halfhard {

struct RunSuggestions {
  std::string run;
  std::vector<SuggestedPath> paths;
};

// { "format": "halfhard-suggestions/1", "job": title, "runs": [ { "run", "paths": [ { "path", "bends", "cut_length_mm",
// "least_clearance_mm", "nearest", "drills" } ] } ] }, a path a line; the last three only where there is something to
// say. Ends with a new line. Numbers are never rounded.
std::string suggestions_json(const Job& job, const std::vector<RunSuggestions>& runs);

// One path, on one line: what stands after "path": in the job.
std::string path_json(const std::vector<PathStep>& steps, LengthUnit unit);

}  // namespace halfhard
