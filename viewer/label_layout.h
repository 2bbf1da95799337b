// Where labels go, so that none covers another. Picture coordinates in pixels, from the lower left. Pure.
#pragma once

#include <vector>

#include "viewer/drawn.h"

namespace halfhard {

struct LabelWanted {
  double x = 0, y = 0;           // the place that the label is about
  double width = 0, height = 0;  // of the text with its frame
  int importance = 0;            // the greater is placed first
  int reach = 6;                 // how many rings about its place are tried before it is given up
  bool may_cover = true;         // where there is no room off what is kept clear; else it is not shown then
  bool on_place = false;         // may sit right on its place (numbers on bends, names of bodies)
};

struct LabelPlaced {
  bool shown = false;
  double x = 0, y = 0;  // lower left corner
  bool leader = false;  // far enough from its place to need a line
};

// What labels keep off where there is room beside it: a stretch of so many pixels' breadth.
struct KeptClear {
  double from_x = 0, from_y = 0, to_x = 0, to_y = 0;
  double half_breadth = 0;
};

// One answer a label, in the order asked. Labels lie inside the picture and at least 2 pixels apart; those for which
// there is no room are not shown; one stands on what is kept clear only where there is no room off it. The same labels give the same answer.
std::vector<LabelPlaced> lay_out_labels(const std::vector<LabelWanted>& labels, double width, double height,
                                        const std::vector<KeptClear>& kept_clear = {});

int importance_of(LabelKind kind);
// What must be shown is sought across the whole picture; what only helps is left out where it would stand far off.
int reach_of(LabelKind kind);
inline constexpr int kFarAfield = 40;

}  // namespace halfhard
