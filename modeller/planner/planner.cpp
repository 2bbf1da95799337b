#include "modeller/planner/planner.h"

#include <algorithm>

#include "geometry/base/require.h"
#include "geometry/rules/clip_places.h"
#include "modeller/checks/check_table.h"
#include "modeller/checks/room_to_bend.h"
#include "modeller/planner/connections.h"
#include "modeller/planner/site_checks.h"

namespace halfhard {
namespace {

template <class T>
std::shared_ptr<const T> named(const std::vector<std::shared_ptr<const T>>& all, const std::string& name) {
  const auto found = std::find_if(all.begin(), all.end(), [&](const auto& each) { return each->name == name; });
  HALFHARD_REQUIRE(found != all.end());  // the reader has seen to it
  return *found;
}

Plan headed_plan(const Job& job) {
  Plan plan;
  plan.title = job.title;
  plan.origin = job.origin;
  plan.surface = job.surface;
  plan.stem = job.stem;
  plan.digest = job.digest;
  plan.unit = job.unit;
  plan.tolerance = job.tolerance;
  plan.list_clearances_within_mm = job.list_clearances_within_mm;
  plan.drill_clearance_mm = job.drill_clearance_mm;
  plan.rules = job.rules;
  plan.sets = job.sets;
  plan.stock = job.stock;
  plan.title_block = job.title_block;
  return plan;
}

std::vector<std::pair<std::string, Vec3>> targets_of(const JobRun& run, const Job& job, double outside_diameter_mm,
                                                     Problems& problems) {
  std::vector<std::pair<std::string, Vec3>> targets;
  for (const PathStep& step : run.path) {
    const auto* to = std::get_if<ToStep>(&step);
    if (!to) continue;
    std::optional<Vec3> at;
    if (const auto* name = std::get_if<std::string>(&to->to)) {
      const JobConnection& connection = connection_of(job, JobEnd(*name));
      if (const auto resolved = resolved_connection(connection, job, outside_diameter_mm, problems)) at = resolved->at;
    } else {
      at = resolved_point(std::get<JobPoint>(to->to), job, outside_diameter_mm, std::nullopt, to->pointer + "/to",
                          problems);
    }
    if (at) targets.emplace_back(to->pointer, *at);
  }
  return targets;
}

const JobBank* bank_of(const Job& job, const std::string& run) {
  const auto found =
      std::find_if(job.banks.begin(), job.banks.end(), [&](const JobBank& bank) { return bank.of == run; });
  return found == job.banks.end() ? nullptr : &*found;
}

Finding no_path(const JobRun& run) {
  Finding finding;
  finding.id = "no-path";
  finding.where = run.name;
  finding.message = "this run has no path yet: ask for one with `halfhard suggest`";
  finding.pointer = run.pointer;
  return finding;
}

// The connections by name, for sheets: worked out for the first tube that ends there.
std::vector<std::shared_ptr<const Connection>> connections_of(const Job& job, const Plan& plan, Problems& problems) {
  std::vector<std::shared_ptr<const Connection>> connections;
  for (const JobConnection& connection : job.connections) {
    const auto user = std::find_if(plan.runs.begin(), plan.runs.end(), [&](const auto& run) {
      return run->piece <= 1 &&
             (run->from.name == connection.base.name || (run->to && run->to->name == connection.base.name));
    });
    const double diameter = user == plan.runs.end() ? 0.0 : (*user)->tube->outside_diameter_mm;
    if (const auto resolved = resolved_connection(connection, job, diameter, problems)) {
      connections.push_back(std::make_shared<Connection>(*resolved));
    }
  }
  return connections;
}

}  // namespace

template <class T>
std::vector<std::shared_ptr<const T>> Planner::kept(const std::vector<std::shared_ptr<const T>>& before,
                                                    const std::vector<T>& now) {
  std::vector<std::shared_ptr<const T>> result;
  result.reserve(now.size());
  for (std::size_t i = 0; i < now.size(); ++i) {
    // Almost always the same place in the list.
    const bool same = i < before.size() && *before[i] == now[i];
    result.push_back(same ? before[i] : std::make_shared<const T>(now[i]));
  }
  return result;
}

void Planner::build_runs(const Job& job, Plan& plan, Problems& problems) {
  std::map<std::string, KeptRun> kept_runs;
  path_findings_.clear();
  for (const JobRun& run : job.runs) {
    if (!run.has_path) {
      path_findings_.push_back(no_path(run));
      continue;
    }
    RunInputs inputs;
    inputs.run = run;
    inputs.tube = named(tubes_, run.tube);
    inputs.bender = named(benders_, run.bender);
    const double diameter = inputs.tube->outside_diameter_mm;
    const std::size_t problems_before = problems.size();
    const auto from = resolved_connection(connection_of(job, run.from), job, diameter, problems);
    if (from) inputs.from = *from;
    if (run.to) inputs.to = resolved_connection(connection_of(job, *run.to), job, diameter, problems);
    inputs.targets = targets_of(run, job, diameter, problems);
    if (problems.size() > problems_before) continue;
    inputs.tolerance = job.tolerance;
    inputs.first_index = static_cast<int>(plan.runs.size());
    if (const JobBank* bank = bank_of(job, run.name)) {
      inputs.bank = *bank;
      inputs.bank_index = static_cast<int>(plan.banks.size());
    }
    const auto known = runs_.find(run.name);
    const bool same = known != runs_.end() && known->second.inputs == inputs;
    const auto built = same ? known->second.built : std::make_shared<const BuiltRun>(build_run(inputs));
    problems.insert(problems.end(), built->problems.begin(), built->problems.end());
    path_findings_.insert(path_findings_.end(), built->findings.begin(), built->findings.end());
    if (inputs.bank) {
      Bank bank{inputs.bank->of,     inputs.bank->count, inputs.bank->step, inputs.bank->equal_gaps, {},
                inputs.bank->pointer};
      for (std::size_t k = 0; k < built->pieces.size(); ++k)
        bank.runs.push_back(inputs.first_index + static_cast<int>(k));
      plan.banks.push_back(std::move(bank));
    }
    plan.runs.insert(plan.runs.end(), built->pieces.begin(), built->pieces.end());
    kept_runs[run.name] = {std::move(inputs), built};
  }
  runs_ = std::move(kept_runs);
}

void Planner::check(const Job& job, Plan& plan) {
  const CheckedWith with{job.unit, job.tolerance, job.stock, job.rules};
  if (!(with == checked_with_)) run_findings_.clear();
  checked_with_ = with;
  plan.findings = path_findings_;
  std::map<const Run*, KeptFindings> findings;
  RoomFound room;
  for (const auto& run : plan.runs) {
    const auto known = run_findings_.find(run.get());
    KeptFindings kept = known != run_findings_.end() ? known->second : KeptFindings{run, check_run({*run, job, &room})};
    plan.findings.insert(plan.findings.end(), kept.findings.begin(), kept.findings.end());
    findings.emplace(run.get(), std::move(kept));
  }
  run_findings_ = std::move(findings);
  const std::vector<Finding> of_plan = check_plan({plan, job});
  plan.findings.insert(plan.findings.end(), of_plan.begin(), of_plan.end());
}

Planned Planner::plan(const Job& job) {
  Planned planned;
  tubes_ = kept(tubes_, job.tubes);
  benders_ = kept(benders_, job.benders);
  fixtures_ = kept(fixtures_, job.fixtures);
  Plan plan = headed_plan(job);
  plan.fixtures = fixtures_;
  build_runs(job, plan, planned.problems);
  plan.connections = connections_of(job, plan, planned.problems);
  plan.site_checks = site_checks_of(job, planned.problems);
  if (!planned.problems.empty()) return planned;
  clearances_.measure(plan);
  for (const auto& run : plan.runs) {
    const std::vector<Clip> clips = clip_places(*run, clip_spacing(*run->tube, plan.rules));
    plan.clips.insert(plan.clips.end(), clips.begin(), clips.end());
  }
  check(job, plan);
  planned.plan = std::make_shared<const Plan>(std::move(plan));
  return planned;
}

Planned plan_job(const Job& job) { return Planner().plan(job); }

}  // namespace halfhard
