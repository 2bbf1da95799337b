#include "modeller/planner/clearances.h"

#include <algorithm>
#include <cmath>

#include "geometry/base/tolerances.h"
#include "geometry/distance/passages.h"
#include "geometry/rules/separation_rules.h"

namespace halfhard {
namespace {

// A pair exactly at the listing limit is listed, rounding or not.
constexpr double kListingSlack_mm = 1e-9;
// A straight line is straight, rounding or not.
constexpr double kStraightHoleSlack_mm = 1e-6;

bool joins(const std::vector<std::string>& joined, const std::string& fixture) {
  return std::find(joined.begin(), joined.end(), fixture) != joined.end();
}

// The part of the line that is compared with a fixture: an end that joins it is left out.
LineStretch part_compared(const Run& run, const Fixture& fixture) {
  const auto joined_for = [&](const Connection& end) {
    return end.joins_for_mm.value_or(run.tube->outside_diameter_mm);
  };
  LineStretch part{0, run.line.length_mm()};
  if (joins(run.from.joins, fixture.name)) part.from_mm = joined_for(run.from);
  if (run.to && joins(run.to->joins, fixture.name)) part.until_mm -= joined_for(*run.to);
  return part;
}

double drill_clearance(const Run& run, const Fixture& fixture, double usual_mm) {
  return run.drill_clearance_mm.value_or(fixture.drill_clearance_mm.value_or(usual_mm));
}

// The passages of a run drilled through a body; none where any of them stops inside, grazes, or is not straight enough
// for the hole, and none through a body that moves.
std::vector<Passage> drilled_passages(const Run& run, const Fixture& fixture, const Obstacle& obstacle,
                                      double clearance_mm) {
  if (!std::holds_alternative<std::monostate>(fixture.body.motion)) return {};
  std::vector<Passage> found = passages(run.line, obstacle);
  const bool all_through = std::all_of(found.begin(), found.end(), [&](const Passage& passage) {
    return passage.in_and_out() && passage.bow_mm <= clearance_mm + kStraightHoleSlack_mm;
  });
  return all_through ? found : std::vector<Passage>{};
}

double required_between(const Run& run, const Fixture& fixture) {
  return std::max(run.keep_clear_mm, fixture.keep_clear_mm);
}

// Of what a hole does not excuse; nothing where it keeps clear.
std::optional<Separation> beside_holes(const Run& run, const Fixture& fixture, const Obstacle& obstacle,
                                       const std::vector<Passage>& drilled, double from_mm, double until_mm) {
  const double required = required_between(run, fixture), radius = run.outside_radius_mm();
  std::optional<Separation> nearest;
  for (const LineStretch& each : beside_passages(run.line, obstacle, drilled, radius + required)) {
    const double from = std::max(each.from_mm, from_mm), until = std::min(each.until_mm, until_mm);
    if (until <= from) continue;
    const auto found = distance_nearer_than(required, TubeBody(run.line, radius, from, until), obstacle);
    if (!found || found->distance_mm >= required - kClearanceSlack_mm) continue;
    if (!nearest || found->distance_mm < nearest->distance_mm) nearest = found;
  }
  return nearest;
}

Drilling drilling_at(const Passage& passage, const Run& run, const Fixture& fixture, double clearance_mm) {
  return {run.name,
          fixture.name,
          passage.in,
          passage.direction,
          2 * run.outside_radius_mm() + 2 * clearance_mm,
          (passage.out - passage.in).norm()};
}

Clearance as_clearance(const Separation& separation, const std::string& first, const std::string& second,
                       double required_mm) {
  return {first,
          second,
          separation.distance_mm,
          required_mm,
          separation.uncertainty_mm,
          separation.at_first,
          separation.at_second};
}

// The nearest of many: tries them by how near their boxes are, and stops where no box is nearer than the best found.
template <class Gap, class Measure>
void for_nearest(std::size_t count, Gap squared_gap, Measure distance_within) {
  std::vector<std::pair<double, std::size_t>> by_gap;
  by_gap.reserve(count);
  for (std::size_t i = 0; i < count; ++i) by_gap.emplace_back(squared_gap(i), i);
  std::sort(by_gap.begin(), by_gap.end());
  double best = kAnyDistance;
  for (const auto& [gap, i] : by_gap) {
    if (best <= 0 || gap > best * best) break;
    best = std::min(best, distance_within(i, best));
  }
}

}  // namespace

std::size_t ClearanceBook::KeyHash::operator()(const Key& key) const {
  const std::size_t a = std::hash<const void*>()(key.first);
  const std::size_t b = std::hash<const void*>()(key.second);
  const std::size_t c = std::hash<double>()(key.drill_clearance_mm);
  return a ^ (b + 0x9e3779b97f4a7c15ULL + (a << 6) + (a >> 2)) ^ c;
}

ClearanceBook::Key ClearanceBook::key_of(const Run& run, const Fixture& fixture) const {
  return {&run, &fixture, fixture.may_drill ? drill_clearance(run, fixture, drill_clearance_mm_) : 0.0};
}

template <class Measure>
const ClearanceBook::Measured& ClearanceBook::remembered(const Key& key, double limit_mm, Measure measure) {
  const auto known = [&](const Measured& pair) { return pair.separation || pair.beyond_mm >= limit_mm; };
  auto [now, fresh] = pairs_.try_emplace(key);
  if (fresh) {
    const auto before = pairs_before_.find(key);
    if (before != pairs_before_.end()) now->second = std::move(before->second);
  }
  if (!known(now->second)) now->second = measure();
  return now->second;
}

const ClearanceBook::Measured& ClearanceBook::run_fixture(const RunSolid& run, const FixtureSolid& fixture,
                                                          double limit_mm) {
  const Key key = key_of(*run.run, *fixture.fixture);
  return remembered(key, limit_mm, [&] {
    const LineStretch part = part_compared(*run.run, *fixture.fixture);
    const bool whole = part.from_mm == 0 && part.until_mm == run.run->line.length_mm();
    const TubeBody body =
        whole ? run.body : TubeBody(run.run->line, run.run->outside_radius_mm(), part.from_mm, part.until_mm);
    Measured pair{distance_nearer_than(limit_mm, body, *fixture.obstacle), limit_mm, {}, {}};
    if (fixture.fixture->may_drill && pair.separation && pair.separation->distance_mm < 0) {
      pair.drilled = drilled_passages(*run.run, *fixture.fixture, *fixture.obstacle, key.drill_clearance_mm);
      if (!pair.drilled.empty())
        pair.beside_holes =
            beside_holes(*run.run, *fixture.fixture, *fixture.obstacle, pair.drilled, part.from_mm, part.until_mm);
    }
    return pair;
  });
}

const ClearanceBook::Measured& ClearanceBook::run_run(const RunSolid& first, const RunSolid& second, double limit_mm) {
  return remembered({first.run.get(), second.run.get()}, limit_mm, [&] {
    return Measured{distance_nearer_than(limit_mm, first.body, second.body), limit_mm, {}, {}};
  });
}

const ClearanceBook::Measured& ClearanceBook::run_self(const RunSolid& run, double limit_mm) {
  return remembered({run.run.get(), run.run.get()}, limit_mm, [&] {
    return Measured{self_distance_nearer_than(limit_mm, run.run->line, run.run->outside_radius_mm()), limit_mm, {}, {}};
  });
}

void ClearanceBook::prepare(const Plan& plan) {
  std::unordered_map<const void*, RunSolid> runs;
  for (RunSolid& known : runs_) runs.emplace(known.run.get(), std::move(known));
  runs_.clear();
  for (const auto& run : plan.runs) {
    const auto known = runs.find(run.get());
    runs_.push_back(known != runs.end() ? std::move(known->second)
                                        : RunSolid{run, TubeBody(run->line, run->outside_radius_mm())});
  }
  std::unordered_map<const void*, FixtureSolid> fixtures;
  for (FixtureSolid& known : fixtures_) fixtures.emplace(known.fixture.get(), std::move(known));
  fixtures_.clear();
  for (const auto& fixture : plan.fixtures) {
    const auto known = fixtures.find(fixture.get());
    fixtures_.push_back(known != fixtures.end() ? std::move(known->second)
                                                : FixtureSolid{fixture, std::make_shared<Obstacle>(fixture->body)});
  }
}

void ClearanceBook::list_fixtures(Plan& plan, std::size_t index) {
  const RunSolid& run = runs_[index];
  const double within = plan.list_clearances_within_mm + kListingSlack_mm;
  const auto required = [&](const FixtureSolid& other) { return required_between(*run.run, *other.fixture); };
  const auto squared_gap = [&](std::size_t i) {
    return run.body.bounds().squared_distance(fixtures_[i].obstacle->bounds());
  };
  std::vector<const Measured*> listed(fixtures_.size(), nullptr);
  bool any = false;
  for (std::size_t i = 0; i < fixtures_.size(); ++i) {
    const double limit = std::max(within, required(fixtures_[i]));
    if (squared_gap(i) > limit * limit) continue;
    const Measured& pair = run_fixture(run, fixtures_[i], limit);
    if (!pair.separation || pair.separation->distance_mm > limit) continue;
    listed[i] = &pair;
    any = any || (pair.drilled.empty() && !run.run->joins(fixtures_[i].fixture->name));
  }
  if (!any) {
    std::optional<std::size_t> nearest;
    for_nearest(fixtures_.size(), squared_gap, [&](std::size_t i, double best) {
      if (run.run->joins(fixtures_[i].fixture->name)) return kAnyDistance;
      const Measured& pair = run_fixture(run, fixtures_[i], best);
      if (!pair.separation || !pair.drilled.empty() || pair.separation->distance_mm >= best) return kAnyDistance;
      nearest = i;
      return pair.separation->distance_mm;
    });
    if (nearest) listed[*nearest] = &pairs_.at(key_of(*run.run, *fixtures_[*nearest].fixture));
  }
  for (std::size_t i = 0; i < fixtures_.size(); ++i) {
    if (!listed[i]) continue;
    const Fixture& fixture = *fixtures_[i].fixture;
    for (const Passage& passage : listed[i]->drilled) {
      plan.drillings.push_back(drilling_at(passage, *run.run, fixture, key_of(*run.run, fixture).drill_clearance_mm));
    }
    const auto& told = listed[i]->drilled.empty() ? listed[i]->separation : listed[i]->beside_holes;
    if (told) plan.clearances.push_back(as_clearance(*told, run.run->name, fixture.name, required(fixtures_[i])));
  }
}

void ClearanceBook::list_runs(Plan& plan) {
  const std::size_t count = runs_.size();
  const double within = plan.list_clearances_within_mm + kListingSlack_mm;
  const auto required = [&](std::size_t i, std::size_t j) {
    return std::max({runs_[i].run->keep_clear_mm, runs_[j].run->keep_clear_mm,
                     service_separation_mm(runs_[i].run->service, runs_[j].run->service, plan.rules)});
  };
  const auto squared_gap = [&](std::size_t i, std::size_t j) {
    return runs_[i].body.bounds().squared_distance(runs_[j].body.bounds());
  };
  const auto measured = [&](std::size_t i, std::size_t j, double limit) -> const Measured& {
    return run_run(runs_[std::min(i, j)], runs_[std::max(i, j)], limit);
  };
  std::vector<std::pair<std::size_t, std::size_t>> listed;
  std::vector<bool> has_neighbour(count, false);
  for (std::size_t i = 0; i < count; ++i) {
    for (std::size_t j = i + 1; j < count; ++j) {
      const double limit = std::max(within, required(i, j));
      if (squared_gap(i, j) > limit * limit) continue;
      const Measured& pair = measured(i, j, limit);
      if (!pair.separation || pair.separation->distance_mm > limit) continue;
      listed.emplace_back(i, j);
      has_neighbour[i] = has_neighbour[j] = true;
    }
  }
  for (std::size_t i = 0; i < count; ++i) {
    if (has_neighbour[i]) continue;
    std::optional<std::size_t> nearest;
    for_nearest(
        count, [&](std::size_t j) { return i == j ? kAnyDistance : squared_gap(i, j); },
        [&](std::size_t j, double best) {
          if (i == j) return kAnyDistance;
          const Measured& pair = measured(i, j, best);
          if (!pair.separation || pair.separation->distance_mm >= best) return kAnyDistance;
          nearest = j;
          return pair.separation->distance_mm;
        });
    if (nearest) listed.emplace_back(std::min(i, *nearest), std::max(i, *nearest));
  }
  std::sort(listed.begin(), listed.end());
  listed.erase(std::unique(listed.begin(), listed.end()), listed.end());
  for (const auto& [i, j] : listed) {
    const Measured& pair = pairs_.at({runs_[i].run.get(), runs_[j].run.get()});
    plan.clearances.push_back(as_clearance(*pair.separation, runs_[i].run->name, runs_[j].run->name, required(i, j)));
  }
}

void ClearanceBook::list_selves(Plan& plan) {
  for (const RunSolid& run : runs_) {
    const double limit = std::max(plan.list_clearances_within_mm + kListingSlack_mm, run.run->keep_clear_mm);
    // Pieces of one shape are as near to themselves: measured once, and slid.
    const RunSolid& shape = runs_[run.run->same_as];
    const Measured& pair = run_self(shape, limit);
    if (!pair.separation || pair.separation->distance_mm > limit) continue;
    Clearance self = as_clearance(*pair.separation, run.run->name, run.run->name, run.run->keep_clear_mm);
    self.at_first += run.run->slid_mm;
    self.at_second += run.run->slid_mm;
    plan.clearances.push_back(self);
  }
}

void ClearanceBook::measure(Plan& plan) {
  drill_clearance_mm_ = plan.drill_clearance_mm;
  prepare(plan);
  pairs_before_ = std::move(pairs_);
  pairs_.clear();
  for (std::size_t i = 0; i < runs_.size(); ++i) list_fixtures(plan, i);
  list_runs(plan);
  list_selves(plan);
  pairs_before_.clear();
}

}  // namespace halfhard
