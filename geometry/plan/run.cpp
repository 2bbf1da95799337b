#include "geometry/plan/run.h"

#include <algorithm>

namespace halfhard {

bool Run::joins(const std::string& fixture) const {
  const auto named_by = [&](const Connection& end) {
    return std::find(end.joins.begin(), end.joins.end(), fixture) != end.joins.end();
  };
  return named_by(from) || (to && named_by(*to));
}

std::vector<const Bend*> Run::bends_as_made() const {
  std::vector<const Bend*> made;
  made.reserve(bends.size());
  for (const Bend& bend : bends) made.push_back(&bend);
  std::sort(made.begin(), made.end(), [](const Bend* a, const Bend* b) { return a->made < b->made; });
  return made;
}

}  // namespace halfhard
