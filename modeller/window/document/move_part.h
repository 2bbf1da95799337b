// Moves a connection or fixture along the site's axes by changing the plain numbers of its coordinates in the text.
// Coordinates that are expressions, lengths with a unit or tapes belong to the person and are never overwritten.
// Pure functions of a text with its places.
#pragma once

#include <array>
#include <string>

#include "modeller/job/json_tree.h"

namespace halfhard {

// Whether a pointer is of a part that can be moved: "/connections/NAME" or "/fixtures/I".
bool can_be_moved(const JsonTree& tree, const std::string& pointer);

struct MovedText {
  std::string text;     // empty where it cannot be moved
  std::string why_not;  // in words; empty where it can
};
// `by` is right, back, up in the job's own unit. Coordinates along an axis with no shift are not looked at. What a part
// is turned or swung about moves with it.
MovedText moved_part(const JsonTree& tree, const std::string& pointer, const std::array<double, 3>& by);

}  // namespace halfhard
