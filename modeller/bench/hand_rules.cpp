#include "modeller/bench/hand_rules.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstring>

#include "geometry/base/require.h"

namespace halfhard {
namespace {

constexpr const char* kCommon = "common practice, no source";
constexpr double kMostClosing_deg = 15;  // beyond, the bend is a new one and the marks no longer stand
constexpr double kMostOpening_deg = 5;
constexpr double kMostClosingHeated_deg = 5;
constexpr double kSamePair_deg = 0.01;

constexpr std::array<HandRule, 8> kRules = {{
    {"close", "Close a bend on the former, at the same mark, by 15 degrees at most.", kCommon},
    {"open", "Open a bend by hand once, and by 5 degrees at most: beyond, the tube goes out of round.", kCommon},
    {"gas", "A gas pipe is never opened: cut a new piece.", kCommon},
    {"offset", "Change both bends of an offset, or the pipe leaves it out of parallel.", kCommon},
    {"ripple", "A ripple, a flat or a crack is scrap: cut a new piece.", kCommon},
    {"squeezed", "A bend worked by hand twice is hard and may crack: cut a new piece.", kCommon},
    {"once", "It was worked by hand once already: it is not opened again.", kCommon},
    {"heated",
     "Heated tube is soft: its spring-back no longer holds and it kinks sooner, so close it by 5 degrees at most, a "
     "little at a time.",
     kCommon},
}};

bool offset_pair(const Run& run, std::size_t first) {
  const Bend &a = run.bends[first], &b = run.bends[first + 1];
  return std::abs((a.angle - b.angle).degrees()) <= kSamePair_deg &&
         std::abs(std::abs(b.rotation.degrees()) - 180) <= kSamePair_deg;
}

}  // namespace

std::span<const HandRule> hand_rules() { return kRules; }

std::string hand_rule(const char* id) {
  for (const HandRule& rule : kRules)
    if (std::strcmp(rule.id, id) == 0) return rule.says;
  HALFHARD_REQUIRE(false);
}

HandLimits hand_limits(const Run& run, const Seen& seen) {
  HandLimits limits{seen.heated ? kMostClosingHeated_deg : kMostClosing_deg, kMostOpening_deg, ""};
  if (run.service == Service::gas) limits.no_opening = hand_rule("gas");
  if (limits.no_opening.empty() && seen.squeezed > 0) limits.no_opening = hand_rule("once");
  if (!limits.no_opening.empty()) limits.most_opening = 0;
  return limits;
}

std::optional<std::string> scrap_by_sight(const Seen& seen) {
  if (seen.ripple || seen.flat || seen.crack) return hand_rule("ripple");
  if (seen.squeezed >= 2) return hand_rule("squeezed");
  return std::nullopt;
}

std::vector<std::vector<int>> bends_together(const Run& run) {
  std::vector<std::vector<int>> groups;
  for (std::size_t i = 0; i < run.bends.size(); ++i) {
    const int bend = static_cast<int>(i);
    if (i + 1 < run.bends.size() && offset_pair(run, i)) {
      groups.push_back({bend, bend + 1});
      ++i;
    } else {
      groups.push_back({bend});
    }
  }
  return groups;
}

}  // namespace halfhard
