#include "modeller/checks/separation.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "geometry/base/tolerances.h"
#include "geometry/words/shown.h"
#include "modeller/checks/saying.h"

namespace halfhard {
namespace {

bool are(Service a, Service b, Service x, Service y) { return (a == x && b == y) || (a == y && b == x); }

bool runs_hot(Service service) {
  return service == Service::hot || service == Service::heating_flow || service == Service::heating_return;
}

// One side of a pair: a run or a fixture.
struct Side {
  const Run* run = nullptr;
  const Fixture* fixture = nullptr;
  Service service() const { return run ? run->service : fixture ? fixture->service : Service::none; }
  // Supply equipment is a box or a body; an electric run, or a fixture drawn as a round bar, is a cable.
  bool is_equipment() const { return fixture && fixture->kind != FixtureKind::cylinder; }
};

struct Names {
  std::map<std::string, Side> sides;
  explicit Names(const Plan& plan) {
    for (const auto& run : plan.runs) {
      if (run->service != Service::none) sides[run->name] = {run.get(), nullptr};
    }
    for (const auto& fixture : plan.fixtures) {
      if (fixture->service != Service::none) sides[fixture->name] = {nullptr, fixture.get()};
    }
  }
  Side of(const std::string& name) const {
    const auto found = sides.find(name);
    return found == sides.end() ? Side{} : found->second;
  }
  bool any(Service service) const {
    return std::any_of(sides.begin(), sides.end(), [&](const auto& side) { return side.second.service() == service; });
  }
};

void check_gas_beside_electric(const PlanContext& context, const Names& names, std::vector<Finding>& findings) {
  const Job& job = context.job;
  for (const Clearance& pair : context.plan.clearances) {
    const Side first = names.of(pair.first), second = names.of(pair.second);
    if (!are(first.service(), second.service(), Service::gas, Service::electric)) continue;
    const Side& electric = first.service() == Service::electric ? first : second;
    const Rule& limit = electric.is_equipment() ? job.rules.gas_from_equipment : job.rules.gas_from_cable;
    if (pair.distance_mm >= limit.value - kClearanceSlack_mm) continue;
    // Between two runs the rule is part of the clearance that they keep, and told there.
    if (first.run && second.run && pair.required_mm >= limit.value) continue;
    const Run& run = *(first.run ? first.run : second.run);
    const std::string& other = first.run ? pair.second : pair.first;
    findings.push_back(say("gas-electric-separation", Severity::fail, run,
                           in_quotes(run.name) + " comes within " + shown_clearance(pair.distance_mm, job.unit) +
                               " of " + in_quotes(other) + " where gas keeps " + length(limit.value, job) + " from " +
                               (electric.is_equipment() ? "electrical supply equipment" : "electric cables") +
                               limit.remark + ".",
                           {pair.distance_mm, limit.value, "mm", limit.source}));
  }
}

// Where pairs are listed within less than the rule asks for, some could go unseen: say so.
void check_listing(const PlanContext& context, const Names& names, std::vector<Finding>& findings) {
  const Job& job = context.job;
  const Rule& limit = job.rules.gas_from_equipment;
  const double within = context.plan.list_clearances_within_mm;
  if (within >= limit.value || !names.any(Service::gas) || !names.any(Service::electric)) return;
  findings.push_back(say_of_job("separation-not-seen", Severity::warn,
                                "Clearances are listed within " + length(within, job) + " only, so gas nearer than " +
                                    length(limit.value, job) +
                                    " to electrical equipment may go unseen: list them farther.",
                                {within, limit.value, "mm", limit.source}, "/list_clearances_within"));
}

// The textbook's figure is for floor voids: a place counts as in one where it lies between the top and the bottom of some
// joist of the job, along its span.
bool in_floor_void(const Plan& plan, const Vec3& at) {
  return std::any_of(plan.fixtures.begin(), plan.fixtures.end(), [&](const auto& fixture) {
    if (!fixture->joist) return false;
    const Joist& joist = *fixture->joist;
    const Vec3 axis = joist.to - joist.from, off = at - joist.from;
    const double along = off.dot(axis) / axis.squaredNorm();
    return along >= 0 && along <= 1 && std::abs(off.dot(joist.depth_direction)) <= joist.depth_mm / 2;
  });
}

struct Nearest {
  const Clearance* pair = nullptr;
  std::string hot;
};

void check_cold_beside_hot(const PlanContext& context, const Names& names, std::vector<Finding>& findings) {
  const Job& job = context.job;
  const Rule& limit = job.rules.cold_from_hot;
  std::map<std::string, Nearest> nearest;
  const auto look = [&](const std::string& cold, const std::string& hot, const Clearance& pair) {
    if (names.of(cold).service() != Service::cold || !runs_hot(names.of(hot).service())) return;
    Nearest& so_far = nearest[names.of(cold).run ? cold : hot];
    if (!so_far.pair || pair.distance_mm < so_far.pair->distance_mm) so_far = {&pair, names.of(cold).run ? hot : cold};
  };
  for (const Clearance& pair : context.plan.clearances) {
    if (pair.distance_mm >= limit.value - kClearanceSlack_mm) continue;
    if (!in_floor_void(context.plan, pair.at_first) && !in_floor_void(context.plan, pair.at_second)) continue;
    look(pair.first, pair.second, pair);
    look(pair.second, pair.first, pair);
  }
  for (const auto& run : context.plan.runs) {
    const auto found = nearest.find(run->name);
    if (found == nearest.end()) continue;
    const double apart = found->second.pair->distance_mm;
    const Side beside = names.of(found->second.hot);
    const bool lagged = run->lagging_mm > 0 && (!beside.run || beside.run->lagging_mm > 0);
    findings.push_back(say("hot-cold-separation", lagged ? Severity::note : Severity::warn, *run,
                           in_quotes(run->name) + " lies " + shown_clearance(apart, job.unit) + " from " +
                               in_quotes(found->second.hot) + " in the floor; side by side there " +
                               length(limit.value, job) + " between hot and cold keeps the cold cold" +
                               (lagged ? ": both are lagged, look that it is enough"
                                       : ": part them or lag them, a short crossing at least lag") +
                               limit.remark + ".",
                           {apart, limit.value, "mm", limit.source}));
  }
}

}  // namespace

void check_separation(const PlanContext& context, std::vector<Finding>& findings) {
  const Names names(context.plan);
  if (names.sides.size() < 2) return;
  check_gas_beside_electric(context, names, findings);
  check_listing(context, names, findings);
  check_cold_beside_hot(context, names, findings);
}

}  // namespace halfhard
