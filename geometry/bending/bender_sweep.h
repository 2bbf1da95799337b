// Every bend of a piece swept from nothing pulled to the angle that it is pulled to: what the formed part, the tube
// beyond it and the lever touch on the way, and when. Frame of the bender (forming.h), mm.
//
// What is on the hook side stays still; guide and lever swing about the former's axis; what is on the lever side rolls on
// the former with the straight that is still to be wound on. The tube in the bender itself, from the nearest formed bend
// on the one side to that on the other, lies in its groove and is not held against former, hook, guide and lever.
//
// Distances are those of geometry/distance. Still and swung bodies and the slide of the tube along the lever are exact in
// every position. A tube that rolls is followed by steps no longer than its own distance allows (no point moves faster
// than its distance from where the tube leaves the former), and of at least kGraze_mm: a touch less deep than that may
// be passed over, nothing else. Tube farther than 12 m from the hook is not looked at: nobody swings it whole.
#pragma once

#include <optional>

#include "geometry/bending/bender_body.h"

namespace halfhard {

inline constexpr double kGraze_mm = 0.2;

struct BenderContact {
  int made = 0;             // which bend in the order made
  Angle pulled;             // where it first touches
  bool itself = false;      // the tube meets the tube
  BenderPart part{};        // else what it touches
  bool by_default = false;  // by a usual figure of that part, not the job's own
  bool hook_side = false;   // the part of the piece that touches lies behind the hook
  Vec3 at = Vec3::Zero();   // where on the piece's centre line, in the frame, nothing pulled
  double along_mm = 0;      // the same along the blank from its datum end
};

// The first touch while bend `made` is pulled; nothing where there is none. 1 <= made <= number of bends.
std::optional<BenderContact> first_contact(const Run& run, int made, bool turned_over = false);
// Of the first bend in the order made that touches anything.
std::optional<BenderContact> first_contact(const Run& run);
// Whether there is any; sooner known than where the first is.
bool touches_anything(const Run& run, int made, bool turned_over = false);

}  // namespace halfhard
