// Candidate paths as points (start, intersections, end), family by family; nothing is checked here but what the family
// itself needs. Lengths mm, site frame.
#pragma once

#include <vector>

#include "modeller/suggest/surroundings.h"

namespace halfhard {

using Points = std::vector<Vec3>;

std::vector<Points> straight_candidate(const Surroundings& scene);
std::vector<Points> one_bend_candidate(const Surroundings& scene);
// Between ends in one and the same direction, out of line.
std::vector<Points> offset_candidates(const Surroundings& scene);
// The same at every whole degree, for shifts that no standard angle fits.
std::vector<Points> whole_degree_offsets(const Surroundings& scene);
// Between ends square to each other whose lines miss each other: an offset in the first or the last leg.
std::vector<Points> offset_and_bend_candidates(const Surroundings& scene);
// Between ends in one and the same direction: the larger or the smaller part of the shift by two 90s, the other part by an
// offset below or above them.
std::vector<Points> offset_and_dog_leg_candidates(const Surroundings& scene);
// Between ends in line, over each body that the straight line meets, and over all of them at once, to either side along
// the site's words: with one bend at the top or a flat.
std::vector<Points> passover_candidates(const Surroundings& scene);

// Legs along whatever directions the standard angles reach, lengths solved exactly; the legs that stay free are tried at
// a stated step. The likeliest angles first; gives up after a fixed amount of work.
std::vector<Points> sequence_candidates(const Surroundings& scene, int bends);
// Standard angles from both ends, joined by a leg at whatever angles: 2 bends, or 3 with one more leg laid at either end.
std::vector<Points> joined_candidates(const Surroundings& scene, int bends);
// Legs along three square directions, 90s only, for ends that fit such a set of directions; every path with that many
// bends on a grid of coordinates beside what is in the way. Gives up quietly after a fixed amount of work.
std::vector<Points> square_candidates(const Surroundings& scene, int bends);

}  // namespace halfhard
