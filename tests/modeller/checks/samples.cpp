#include "tests/modeller/checks/samples.h"

#include <algorithm>

namespace halfhard {

Checked checked(std::vector<std::shared_ptr<const Run>> runs) {
  Checked made;
  for (const auto& run : runs) {
    const auto has = [](const auto& list, const std::string& name) {
      return std::any_of(list.begin(), list.end(), [&](const auto& thing) { return thing.name == name; });
    };
    if (!has(made.job.tubes, run->tube->name)) made.job.tubes.push_back(*run->tube);
    if (!has(made.job.benders, run->bender->name)) made.job.benders.push_back(*run->bender);
  }
  made.plan = support::plan_of(std::move(runs));
  made.plan.list_clearances_within_mm = made.job.list_clearances_within_mm;
  return made;
}

Checked checked(const Run& run) { return checked({std::make_shared<Run>(run)}); }

std::vector<Finding> findings_of(const Checked& made) {
  std::vector<Finding> findings;
  for (const auto& run : made.plan.runs) {
    for (Finding& finding : check_run({*run, made.job})) findings.push_back(std::move(finding));
  }
  for (Finding& finding : check_plan({made.plan, made.job})) findings.push_back(std::move(finding));
  return findings;
}

std::shared_ptr<Run> good_offset(support::RunOptions options) {
  if (options.service == Service::hot) options.service = Service::none;
  return support::run_through("tail", support::offset_points(300, 70, Angle::degrees(45), 300), std::move(options));
}

std::shared_ptr<Run> with_service(Service service, std::vector<Vec3> points) {
  support::RunOptions options;
  options.service = service;
  return support::run_through("tail", std::move(points), options);
}

}  // namespace halfhard
