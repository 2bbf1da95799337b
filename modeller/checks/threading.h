// Whether a finished piece can be brought through the holes that it runs through.
#pragma once

#include <vector>

#include "modeller/checks/check_table.h"

namespace halfhard {

// The least hole that a bend of this radius passes through a body so thick: the back of the bend stands out where the
// throat's line through the hole is straight, by a chord as long as the hole is deep. A bend shorter than that needs less.
double hole_for_bend_mm(double radius_mm, double outside_diameter_mm, double depth_mm);

// A closed hole takes only what can be pushed along its axis: the piece straight, from one of its ends to the hole farthest
// from that end; then it is slid out of all of them along that straight, and nothing at rest may stand in its way (looked
// at in every position). That is sound where it says yes.
// Bends go through where there is one hole, wide enough for them: a note, since where the rest of the piece swings
// meanwhile is not looked at. Where neither is found: a warn, with a slot or a joint proposed. Notches are open and take
// anything.
void check_threading(const PlanContext& context, std::vector<Finding>& findings);

}  // namespace halfhard
