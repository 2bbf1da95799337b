// What may be done to a bent piece by hand, as rules: each with its sentence and where it comes from.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "geometry/plan/run.h"
#include "modeller/bench/measured.h"

namespace halfhard {

struct HandRule {
  const char* id;
  const char* says;  // a sentence for the person at the bench
  const char* source;
};
std::span<const HandRule> hand_rules();
// The sentence of a rule. Requires a known id.
std::string hand_rule(const char* id);

// How far a bend of this piece may be changed, degrees.
struct HandLimits {
  double most_closing = 0, most_opening = 0;
  std::string no_opening;  // why not, where opening is not allowed at all
};
HandLimits hand_limits(const Run& run, const Seen& seen);
// Why the piece is scrap by what is seen on it; nothing where it is not.
std::optional<std::string> scrap_by_sight(const Seen& seen);

// Bends that are changed together, 0-based: the two of an offset, since one alone leaves the legs out of parallel; every
// other bend by itself.
std::vector<std::vector<int>> bends_together(const Run& run);

}  // namespace halfhard
