#include "exporters/page/cautions.h"

#include <algorithm>

namespace halfhard {

// Common practice, no source, where none is named; local codes come before all of it.
std::vector<std::string> cautions_of(const Plan& plan) {
  const auto any_run = [&](auto holds) {
    return std::any_of(plan.runs.begin(), plan.runs.end(), [&](const auto& run) { return holds(*run); });
  };
  const auto carries = [&](std::initializer_list<Service> services) {
    return any_run(
        [&](const Run& run) { return std::find(services.begin(), services.end(), run.service) != services.end(); });
  };
  std::vector<std::string> cautions = {
      "Local codes and the makers' instructions come before anything on this page.",
      "Turn off, drain and prove empty any pipe that is to be cut or joined, and see that nobody can turn it on again.",
      "Keep fingers clear of former, hook and lever: a bender pinches. Cut ends are sharp: deburr inside and out."};
  if (!plan.drillings.empty()) {
    cautions.push_back("Find cables and pipes with a detector before drilling; switch the circuit off where in doubt.");
  }
  const bool timber = std::any_of(plan.fixtures.begin(), plan.fixtures.end(),
                                  [](const auto& fixture) { return fixture->kind == FixtureKind::joist; });
  if (timber) {
    cautions.push_back(
        "A joist carries a floor: holes and notches only where the rules allow, and ask a structural "
        "engineer where they do not.");
  }
  if (carries({Service::hot, Service::heating_flow, Service::heating_return, Service::discharge})) {
    cautions.push_back("Pipes that carry hot water burn: let them cool, and lag what can be touched.");
  }
  if (carries({Service::gas})) {
    cautions.push_back("Gas is for the registered gas fitter alone: fitting, testing and putting to use.");
  }
  if (carries({Service::vent, Service::discharge})) {
    cautions.push_back(
        "Vents and discharge pipes keep a system from bursting: only a competent person may change them.");
  }
  cautions.push_back(
      "Check the first piece against its check dimensions before bending the rest, and pressure test "
      "the finished work before it is covered.");
  return cautions;
}

}  // namespace halfhard
