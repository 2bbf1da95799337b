// The places of a plan that have a name, so that they can be reached without a mouse: ends and bends of pipes, mouths of
// connections, corners of fixtures. Site frame, mm.
#pragma once

#include <vector>

#include "geometry/plan/plan.h"
#include "viewer/pick.h"

namespace halfhard {

struct NamedPlace {
  Picked picked;      // what clicking there would give
  std::string words;  // "hot tail, bend 2"
};

// A run, connection or fixture with its places, the most useful first. Never without one.
using NamedThing = std::vector<NamedPlace>;

// In the plan's own order: runs, connections, fixtures.
std::vector<NamedThing> named_things(const Plan& plan);

}  // namespace halfhard
