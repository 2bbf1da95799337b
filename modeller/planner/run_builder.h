// One run of the job, with its bank, made into pipes.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "geometry/plan/finding.h"
#include "geometry/plan/plan.h"
#include "geometry/plan/run.h"
#include "modeller/job/job.h"
#include "modeller/job/plan_problem.h"

namespace halfhard {

// All that a run's pipes depend on. Equal inputs give equal pipes, so that an edit elsewhere keeps them.
struct RunInputs {
  JobRun run;
  std::shared_ptr<const Tube> tube;
  std::shared_ptr<const Bender> bender;
  Connection from;
  std::optional<Connection> to;
  std::vector<std::pair<std::string, Vec3>> targets;  // of `to` steps, by the step's pointer
  std::optional<JobBank> bank;
  Tolerance tolerance;
  int first_index = 0;  // of the first piece in Plan::runs
  int bank_index = -1;  // in Plan::banks

  friend bool operator==(const RunInputs&, const RunInputs&) = default;
};

struct BuiltRun {
  std::vector<std::shared_ptr<const Run>> pieces;
  std::vector<Finding> findings;  // notes on the path
  Problems problems;              // where not empty there are no pieces
};

BuiltRun build_run(const RunInputs& inputs);

}  // namespace halfhard
