// Whether a finished piece can be put in between the fittings at its two ends.
#pragma once

#include <vector>

#include "modeller/checks/check_table.h"

namespace halfhard {

// How far one of the two fittings has to give, along its own axis, more than it does, before both ends come in; 0 where
// the piece goes in as they stand.
//
// A tube in a socket can slide along it and turn in it, nothing else. Two sockets have a movement in common only where
// they are parallel: open the same way, both ends go in by one push; facing each other, what one end comes out the other
// goes in, so that together they have to give as much as the shallower of them holds. Else one of them has to come off
// its end by itself.
double play_needed_mm(const Run& run);

// A warn where that is more than nothing.
void check_entry(const RunContext& context, std::vector<Finding>& findings);

}  // namespace halfhard
