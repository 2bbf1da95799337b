// From a job to the plan that everything else reads. Asked again after an edit it rebuilds only what the edit reaches,
// with the same result as from nothing.
#pragma once

#include <map>
#include <memory>
#include <string>
#include <vector>

#include "geometry/plan/plan.h"
#include "modeller/job/job.h"
#include "modeller/job/plan_problem.h"
#include "modeller/planner/clearances.h"
#include "modeller/planner/run_builder.h"

namespace halfhard {

struct Planned {
  std::shared_ptr<const Plan> plan;  // null where there are problems
  Problems problems;                 // all of them, in the job's order
};

class Planner {
 public:
  Planned plan(const Job& job);

 private:
  struct KeptRun {
    RunInputs inputs;
    std::shared_ptr<const BuiltRun> built;
  };
  struct KeptFindings {
    std::shared_ptr<const Run> run;
    std::vector<Finding> findings;
  };
  // What the checks of one run read besides the run itself.
  struct CheckedWith {
    LengthUnit unit = LengthUnit::mm;
    Tolerance tolerance;
    Stock stock;
    Rules rules;
    friend bool operator==(const CheckedWith&, const CheckedWith&) = default;
  };

  template <class T>
  static std::vector<std::shared_ptr<const T>> kept(const std::vector<std::shared_ptr<const T>>& before,
                                                    const std::vector<T>& now);
  void build_runs(const Job& job, Plan& plan, Problems& problems);
  void check(const Job& job, Plan& plan);

  std::vector<std::shared_ptr<const Tube>> tubes_;
  std::vector<std::shared_ptr<const Bender>> benders_;
  std::vector<std::shared_ptr<const Fixture>> fixtures_;
  std::map<std::string, KeptRun> runs_;  // by the run's name in the job
  CheckedWith checked_with_;
  std::map<const Run*, KeptFindings> run_findings_;
  std::vector<Finding> path_findings_;
  ClearanceBook clearances_;
};

// From nothing: Planner().plan(job).
Planned plan_job(const Job& job);

}  // namespace halfhard
