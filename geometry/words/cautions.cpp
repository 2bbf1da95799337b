#include "geometry/words/cautions.h"

namespace halfhard {
namespace {

// What a set of runs asks to be said.
struct Needs {
  bool gas = false, electric = false, hot = false, discharge = false, relief = false, water = false;
  bool timber = false;
  bool bends = false, not_calibrated = false;
};

const Fixture* fixture_named(const Plan& plan, const std::string& name) {
  for (const auto& fixture : plan.fixtures)
    if (fixture->name == name) return fixture.get();
  return nullptr;
}

void add_service(Needs& needs, Service service) {
  switch (service) {
    case Service::gas:
      needs.gas = true;
      return;
    case Service::electric:
      needs.electric = true;
      return;
    case Service::hot:
    case Service::heating_flow:
    case Service::heating_return:
      needs.hot = needs.water = true;
      return;
    case Service::discharge:
      needs.hot = needs.discharge = needs.relief = true;
      return;
    case Service::vent:
      needs.hot = needs.relief = true;
      return;
    case Service::none:
    case Service::cold:
    case Service::waste:
    case Service::other:
      needs.water = true;
      return;
  }
}

void add_run(Needs& needs, const Plan& plan, const Run& run) {
  add_service(needs, run.service);
  needs.bends = needs.bends || !run.bends.empty();
  needs.not_calibrated =
      needs.not_calibrated || (!run.bends.empty() && (run.bender->spring_back.empty() || !run.bender->mark_offset_mm));
  for (const Drilling& drilling : plan.drillings) {
    if (drilling.run != run.name) continue;
    const Fixture* fixture = fixture_named(plan, drilling.fixture);
    needs.timber = needs.timber || (fixture != nullptr && fixture->kind == FixtureKind::joist);
  }
}

std::vector<std::string> sentences(const Needs& needs) {
  std::vector<std::string> out;
  const auto say = [&out](bool when, const char* sentence) {
    if (when) out.emplace_back(sentence);
  };
  say(needs.gas, "Gas pipework is for the licensed only: nobody else may fit, alter or test it.");
  say(needs.electric, "Electrical work is for the qualified only: isolate, lock off and prove dead.");
  say(true, "Find cables and pipes before drilling or cutting.");
  say(needs.timber, "Structural timber is drilled only where the rules allow; ask before going beyond them.");
  say(needs.water || needs.hot || needs.discharge, "Isolate and drain, and prove it, before cutting into a pipe.");
  say(needs.hot, "Hot pipes burn: keep them off cold water and off what can scorch, and let them move.");
  say(needs.discharge,
      "A discharge pipe must end where scalding water can hurt nobody, at the size and fall of the code.");
  say(needs.relief, "Vents and discharge pipes keep a system from bursting: only a competent person may change them.");
  say(needs.bends, "Keep fingers clear of former, guide and lever; hold the bender fast; wear eye protection.");
  say(needs.not_calibrated, "The bender is not fully measured: prove mark and angle on a trial bend first.");
  say(true, "Take off burrs, prove the first piece before the rest, and test under pressure before covering up.");
  say(true, "Local codes come before this sheet.");
  return out;
}

}  // namespace

std::vector<std::string> cautions(const Plan& plan, const Run& run) {
  Needs needs;
  add_run(needs, plan, run);
  return sentences(needs);
}

std::vector<std::string> cautions(const Plan& plan) {
  Needs needs;
  for (const auto& run : plan.runs) add_run(needs, plan, *run);
  // What the work is done beside asks for care as well.
  for (const auto& fixture : plan.fixtures) {
    if (fixture->service == Service::gas || fixture->service == Service::electric) add_service(needs, fixture->service);
    needs.timber = needs.timber || fixture->kind == FixtureKind::joist;
  }
  return sentences(needs);
}

std::string caution_paragraph(const std::vector<std::string>& all) {
  std::string text;
  for (const std::string& sentence : all) text += (text.empty() ? "" : " ") + sentence;
  return text;
}

}  // namespace halfhard
