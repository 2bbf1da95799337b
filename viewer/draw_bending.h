// The piece in the bender, step by step: the formed part turned about the tube, then pulled, and where it touches the
// bench or the bender. As the person sees it who stands there (x right, y away, z up; hook on the left and the lever
// towards the person where the job does not say), the origin where the curve starts at the hook. Millimetres.
#pragma once

#include <string>

#include "geometry/bending/forming.h"
#include "viewer/draw_bender.h"

namespace halfhard {

struct BendingMoment {
  int step = 1;       // counts bends in the order made, from 1
  double pulled = 0;  // from 0 to 1 of the set angle
  double turned = 1;  // from 0 to 1 of the turn about the tube that this bend takes, before it is pulled
};

struct DrawnBending {
  Drawn drawn;
  std::string words;    // what to do now, in one sentence
  std::string trouble;  // what the piece runs into; empty where it swings freely
};
// Figures are shown in `unit`. Framed so that every step of the run is in sight. Pure.
DrawnBending draw_bending(const Run& run, const BendingMoment& moment, LengthUnit unit);

// Right-handed about the bender's x: the turn about the tube between the bend made before and this one. Nothing for the
// first bend, or where other bends lie between the two.
std::optional<Angle> turn_for(const Run& run, int step);

}  // namespace halfhard
