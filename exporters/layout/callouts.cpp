#include "exporters/layout/callouts.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace halfhard {
namespace {

constexpr double kAlike_mm = 0.05;

// The family of a run, or the fixture's own name.
std::string family_of(const Plan& plan, const std::string& name) {
  const Run* run = plan.run_named(name);
  return run ? "run " + run->family : name;
}

bool worth_a_look(const Plan& plan, const Clearance& clearance, double within_mm) {
  if (clearance.distance_mm < clearance.required_mm) return true;
  const Run* run = plan.run_named(clearance.first);
  if (run && run->joins(clearance.second)) return false;
  return clearance.first != clearance.second && clearance.distance_mm <= std::max(within_mm, 2 * clearance.required_mm);
}

}  // namespace

std::vector<Callout> callouts(const Plan& plan, size_t at_most, double within_mm) {
  std::vector<Callout> all;
  for (const Clearance& clearance : plan.clearances)
    if (worth_a_look(plan, clearance, within_mm)) all.push_back({"", &clearance, 1});
  std::stable_sort(all.begin(), all.end(),
                   [](const Callout& a, const Callout& b) { return a.margin_mm() < b.margin_mm(); });
  std::vector<Callout> chosen;
  std::vector<std::pair<std::string, std::string>> families;
  for (const Callout& next : all) {
    const std::pair<std::string, std::string> pair{family_of(plan, next.clearance->first),
                                                   family_of(plan, next.clearance->second)};
    bool counted = false;
    for (size_t i = 0; i < chosen.size() && !counted; ++i) {
      const bool same_pair = families[i] == pair;
      const bool same_distance = families[i].first == pair.first &&
                                 std::abs(chosen[i].clearance->distance_mm - next.clearance->distance_mm) < kAlike_mm &&
                                 std::abs(chosen[i].clearance->required_mm - next.clearance->required_mm) < kAlike_mm &&
                                 chosen[i].clearance->first != next.clearance->first;
      if (!same_pair && !same_distance) continue;
      counted = true;
      if (std::abs(chosen[i].clearance->distance_mm - next.clearance->distance_mm) < kAlike_mm) ++chosen[i].alike;
    }
    if (counted || chosen.size() >= at_most) continue;
    chosen.push_back(next);
    families.push_back(pair);
  }
  for (size_t i = 0; i < chosen.size(); ++i) chosen[i].letter = std::string(1, static_cast<char>('A' + i % 26));
  return chosen;
}

}  // namespace halfhard
