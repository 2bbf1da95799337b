// Small plans that each fire one check, and their neighbours that stand just inside its limit.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "modeller/checks/check_table.h"
#include "tests/support/plans.h"

namespace halfhard {

struct Checked {
  Job job;
  Plan plan;
};

struct CheckSample {
  std::string id;
  Severity severity = Severity::fail;
  std::function<Checked()> fires, passes;
  std::vector<std::string> comes_with = {};  // other findings that the firing plan cannot be without
};

// One for every id in the tables, in their order; more where a limit has two sides.
std::vector<CheckSample> run_samples();
std::vector<CheckSample> plan_samples();

// A plan and the job that it would have come from: its tubes and benders.
Checked checked(std::vector<std::shared_ptr<const Run>> runs);
Checked checked(const Run& run);
std::vector<Finding> findings_of(const Checked& checked);

// An offset of 70 mm at 45 degrees between legs of 300, 15 mm tube, measured bender, no service: nothing to find but
// where to clip it and how far it may miss.
std::shared_ptr<Run> good_offset(support::RunOptions options = {});
std::shared_ptr<Run> with_service(Service service, std::vector<Vec3> points);

}  // namespace halfhard
