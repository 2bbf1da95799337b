// What `make` writes for a job: names and how to produce each, in the order of writing.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "geometry/plan/plan.h"

namespace halfhard {

struct Paper {
  std::string name;  // file name within the job's folder
  std::function<std::string()> bytes;
};

// The plan must outlive the papers.
std::vector<Paper> papers_of(const Plan& plan);

// What several jobs share: one cut list from one stock. The plans must outlive the papers.
std::vector<Paper> papers_of_all(const std::vector<const Plan*>& plans);

}  // namespace halfhard
