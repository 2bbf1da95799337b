// The piece in the bender, step by step: a generic bench bender of our own drawing, the tube part-way pulled, and where
// it touches the bench or itself. In the bender's own frame (see forming.h): x along the tube from the hook, y to where
// the bend swings, z square to both; drawn with the bench below. Millimetres.
#pragma once

#include <string>

#include "geometry/forming.h"
#include "viewer/drawn.h"

namespace halfhard {

// Figures are shown in `unit`. `step` counts bends in the order made, from 1. `pulled` is from 0 to 1 of the set angle. Pure.
struct BendingMoment {
  int step = 1;
  double pulled = 0;
};

struct DrawnBending {
  Drawn drawn;
  std::string words;    // what to do now, in one sentence
  std::string trouble;  // what the piece runs into; empty where it swings freely
};
DrawnBending draw_bending(const Run& run, const BendingMoment& moment, LengthUnit unit);

// How far the bench's top is below the tube in the bender: a common height of a bender's arms, no source.
inline constexpr double kBenchBelow_mm = 180;

}  // namespace halfhard
