// Why no path was found: which limit, let go alone, would have let one through. Lengths mm in, words out.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "modeller/suggest/surroundings.h"

namespace halfhard {

// Limits are let go one at a time and `finds` is asked again; one sentence for each that lets a path through, the
// mildest change at a fixture only. Of the fixtures and pipes the kMostAsked nearest the ends are asked about. One
// sentence that says so where no single limit is to blame.
inline constexpr std::size_t kMostAsked = 8;
std::vector<std::string> stopped_by(const Surroundings& scene, const std::function<bool(const Surroundings&)>& finds);

}  // namespace halfhard
