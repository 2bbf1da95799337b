// Will the tube, as it lies in the bender for each bend, be long enough for the hook and for the lever?
#pragma once

#include <vector>

#include "modeller/checks/check_table.h"

namespace halfhard {

// The straight tube on one side of a bend when it is made: up to the tube's end (spare and insertion count), or up to
// the nearest bend made before it. Bends that are still to be made are straight tube.
struct Side {
  double straight_mm = 0;
  int bend = 0;  // number of the formed bend that ends it; 0: the tube's end
};
struct Loaded {
  Side hook, lever;
};
// As if bend `number` were made with `hook` on the hook, all others as the run says. 1 <= number <= bends.
Loaded loaded(const Run& run, int number, End hook);

// Whether the tube is long enough for that; a limit that the bender leaves out allows anything.
bool can_be_made(const Run& run, int number, End hook);

// Least depth, from the mouth to the outside of the bend, that a leg ending on the hook can be made for without spare:
// shortest_end less insertion, plus (R + OD/2) * tan(A/2), a bend above 90 degrees counted as 90.
double least_void_mm(const Run& run, int number, double shortest_end_mm);

// Tube's end nearer than the hook needs: fail; nearer than usual: warn; less than the lever needs: fail. Against a
// formed bend on the hook side `shortest_between` is what counts (modeller/checks/straights.h).
void check_loading(const RunContext& context, std::vector<Finding>& findings);

}  // namespace halfhard
