// Every check of a plan, one file each, in two explicit tables. A check is a pure function that adds its findings.
// - Run checks depend on one run and on settings of the whole job (unit, tolerance, stock, limits, that run's own path
//   steps) and on nothing else, so the findings of a run that has not changed can be kept.
// - Plan checks look at benders, pairs, drillings, banks and site checks together.
// Severity: a fail is not to be made; a warn can cost something; a note is worth knowing.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "geometry/plan/finding.h"
#include "geometry/plan/plan.h"
#include "modeller/job/job.h"

namespace halfhard {

struct RoomFound;

struct RunContext {
  const Run& run;
  const Job& job;
  RoomFound* room = nullptr;  // what was found of the last run looked at, for one bent alike after it; may be left out
};

// Requires that runs, fixtures, clearances, drillings, banks and site checks of the plan are filled.
struct PlanContext {
  const Plan& plan;
  const Job& job;
};

struct RunCheck {
  std::vector<std::string> ids;  // of the findings that it can give
  void (*check)(const RunContext&, std::vector<Finding>&);
  const char* tells;   // one line for help and manual
  const char* source;  // of its rule
};

struct PlanCheck {
  std::vector<std::string> ids;
  void (*check)(const PlanContext&, std::vector<Finding>&);
  const char* tells;
  const char* source;
};

std::span<const RunCheck> run_checks();
std::span<const PlanCheck> plan_checks();

// All run checks of one run, in the table's order.
std::vector<Finding> check_run(const RunContext& context);
// All plan checks, in the table's order.
std::vector<Finding> check_plan(const PlanContext& context);

}  // namespace halfhard
