#include "modeller/suggest/stopped_by.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace halfhard {
namespace {

using Finds = std::function<bool(const Surroundings&)>;

std::string rounded_mm(double mm) {
  const long tenths = std::lround(mm * 10);
  std::string text = std::to_string(tenths / 10);
  if (tenths % 10 != 0) text += "." + std::to_string(tenths % 10);
  return text + " mm";
}

std::string quoted(const std::string& name) { return "'" + name + "'"; }

// Nearest to the stretch between the ends first.
std::vector<std::size_t> likeliest(const Surroundings& scene) {
  Bounds ends;
  ends.add(scene.start);
  ends.add(scene.end);
  std::vector<std::size_t> order(scene.in_the_way.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  const auto off = [&](std::size_t i) { return ends.squared_distance(scene.in_the_way[i].bounds()); };
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return off(a) < off(b); });
  if (order.size() > kMostAsked) order.resize(kMostAsked);
  return order;
}

// The mildest of: less keep-clear, a hole, the thing gone.
void ask_about(const Surroundings& scene, std::size_t index, const Finds& finds, std::vector<std::string>& reasons) {
  const InTheWay& here = scene.in_the_way[index];
  Surroundings eased = scene;
  InTheWay& there = eased.in_the_way[index];
  if (here.required_mm > 0) {
    there.required_mm = 0;
    if (finds(eased)) {
      reasons.push_back("with nothing to keep clear at " + quoted(here.name) + " instead of " +
                        rounded_mm(here.required_mm) + " there is a way");
      return;
    }
    there.required_mm = here.required_mm;
  }
  if (here.body && !here.may_drill) {
    there.may_drill = true;
    if (finds(eased)) {
      reasons.push_back("if " + quoted(here.name) + " may be drilled there is a way");
      return;
    }
  }
  eased.in_the_way.erase(eased.in_the_way.begin() + static_cast<std::ptrdiff_t>(index));
  if (finds(eased)) reasons.push_back("with " + quoted(here.name) + " out of the way there is a way");
}

}  // namespace

std::vector<std::string> stopped_by(const Surroundings& scene, const Finds& finds) {
  std::vector<std::string> reasons;
  const auto ask = [&](double Surroundings::*limit, double eased_to, const std::string& reason) {
    if (scene.*limit == eased_to) return;
    Surroundings eased = scene;
    eased.*limit = eased_to;
    if (finds(eased)) reasons.push_back(reason);
  };
  ask(&Surroundings::first_straight_mm, 0,
      "with less than the " + rounded_mm(scene.first_straight_mm) + " of straight at the start end there is a way");
  ask(&Surroundings::last_straight_mm, 0,
      "with less than the " + rounded_mm(scene.last_straight_mm) + " of straight at the far end there is a way");
  ask(&Surroundings::between_mm, 0,
      "with less than the " + rounded_mm(scene.between_mm) + " of straight between bends there is a way");
  if (scene.most_angle_deg < 120) {
    ask(&Surroundings::most_angle_deg, 120, "with a bender that reaches 120 degrees there is a way");
  }
  for (const std::size_t index : likeliest(scene)) ask_about(scene, index, finds, reasons);
  if (reasons.empty()) {
    reasons.push_back(
        "no single limit: ends, bender and what is in the way leave no way together; move an end or lay it by hand");
  }
  return reasons;
}

}  // namespace halfhard
