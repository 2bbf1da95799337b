// A stretch of a run that lies in one plane: what can be laid on a full-size template.
#pragma once

#include <vector>

#include "exporters/sheet/drawing.h"
#include "geometry/run.h"

namespace halfhard {

struct FlatStretch {
  int first_bend = 0, last_bend = 0;         // numbers
  std::vector<Piece> pieces;                 // straights and bends of the piece as cut, within the stretch, site frame
  bool datum_end = false, free_end = false;  // the tube's own ends, not the start of a bend out of the plane
  // The plane: `right` along the longest leg, `up` square to it; the reader looks against `normal`.
  Vec3 origin = Vec3::Zero(), right = Vec3::UnitX(), up = Vec3::UnitY(), normal = Vec3::UnitZ();

  Vec2 flat(const Vec3& point) const { return {(point - origin).dot(right), (point - origin).dot(up)}; }
};

// From the datum end on; every bend is in one at least, the leg between two stretches is in both. Turns of the plane
// below 0.01 degree count as none. Empty for a straight piece.
std::vector<FlatStretch> flat_stretches(const Run& run);

// A piece in the plane, shifted sideways (left of travel positive) by `aside_mm`. Empty where a bend's radius is used up.
std::vector<Entity> beside(const FlatStretch& stretch, const Piece& piece, double aside_mm, const Pen& pen);

}  // namespace halfhard
