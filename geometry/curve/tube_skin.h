// The skin of a tube along a centre line, cut into one face a piece: what the solid builder and the STEP writer share.
// A straight gives a cylinder, a bend a torus. Every face closes on itself along one seam line:
// - a bend's seam is its outermost line, where the torus's own angle is 0 (natural seam: no parameter leaves [0, 2
// pi]);
// - a straight's seam is free, and is taken from a neighbour where that saves a vertex.
// Rings (cross-sections) stand at both ends and between the pieces. Where the seams on the two sides of a ring point
// different ways, the ring carries two vertices, one a seam. Site frame, mm. Says nothing about the tube's radius.
#pragma once

#include <vector>

#include "geometry/curve/centreline.h"

namespace halfhard {

struct SkinPiece {
  std::variant<Straight, Arc> shape;
  Vec3 seam_at_start = Vec3::Zero(),
       seam_at_end = Vec3::Zero();  // unit, from the centre line to the seam; equal on a straight

  bool is_bend() const { return std::holds_alternative<Arc>(shape); }
};

struct SkinRing {
  Vec3 centre;
  Vec3 travel;                   // unit, square to the ring
  Vec3 seam_before, seam_after;  // unit; where the seams of the two neighbours meet the ring, equal at the tube's ends
  double split_rad = 0;  // from seam_before to seam_after about `travel`, in (0, 2 pi); 0: one vertex serves both
  double gap_mm = 0;     // how far apart the two pieces end, the tube's radius left out: rounding only
};

struct TubeSkin {
  std::vector<SkinPiece> pieces;  // at least one
  std::vector<SkinRing> rings;    // one more than pieces; ring i stands before piece i
};

// Straights below kShortestSkin_mm are left out (their neighbours end that far apart, see gap_mm).
// Requires at least one piece longer than that.
TubeSkin tube_skin(const CentreLine& line);

// A face shorter than this would be shorter than the kernel's own tolerance (1e-7 mm) can tell from nothing.
inline constexpr double kShortestSkin_mm = 2e-6;

}  // namespace halfhard
