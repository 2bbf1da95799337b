// A stretch of a run that lies in one plane: what can be laid on a full-size template.
#pragma once

#include <vector>

#include "exporters/sheet/drawing.h"
#include "geometry/plan/run.h"

namespace halfhard {

// Where the middle of a long straight is left out, so that its ends fit on paper.
struct StretchBreak {
  Vec3 from = Vec3::Zero(), to = Vec3::Zero();  // the two ends of the gap that is drawn, in travel
  double straight_mm = 0, cut_out_mm = 0;       // the straight's true length, and how much of it is not drawn
};

struct FlatStretch {
  int first_bend = 0, last_bend = 0;         // numbers
  std::vector<Piece> pieces;                 // straights and bends of the piece as cut, within the stretch, site frame
  std::vector<StretchBreak> breaks;          // none unless cut_short
  bool datum_end = false, free_end = false;  // the tube's own ends, not the start of a bend out of the plane
  // The plane: `right` along the longest leg, `up` square to it; the reader looks against `normal`.
  Vec3 origin = Vec3::Zero(), right = Vec3::UnitX(), up = Vec3::UnitY(), normal = Vec3::UnitZ();

  Vec2 flat(const Vec3& point) const { return {(point - origin).dot(right), (point - origin).dot(up)}; }
};

// From the start end on; every bend is in one at least, the leg between two stretches is in both. Turns of the plane
// below 0.01 degree count as none. Empty for a straight piece.
std::vector<FlatStretch> flat_stretches(const Run& run);

// The same with straights longer than `most_mm` broken: every leg keeps its direction, what lies beyond a break moves
// towards the start end. Marks and 30 mm about them are never cut out.
FlatStretch cut_short(const Run& run, const FlatStretch& stretch, double most_mm);

// A piece in the plane, shifted sideways (left of travel positive) by `aside_mm`. Empty where a bend's radius is used up.
std::vector<Entity> beside(const FlatStretch& stretch, const Piece& piece, double aside_mm, const Pen& pen);

}  // namespace halfhard
