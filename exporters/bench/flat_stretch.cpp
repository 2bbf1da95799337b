#include "exporters/bench/flat_stretch.h"

#include <cmath>
#include <numbers>

#include "geometry/as_cut.h"
#include "geometry/tolerances.h"

namespace halfhard {
namespace {

bool same_plane(Angle rotation) { return std::abs(std::remainder(rotation.degrees(), 180)) <= kSameDirection_deg; }

double degrees_of(const Vec2& direction) { return std::atan2(direction.y(), direction.x()) * 180 / std::numbers::pi; }

FlatStretch stretch_of(const CentreLine& line, int first_bend, int last_bend) {
  FlatStretch stretch;
  stretch.first_bend = first_bend;
  stretch.last_bend = last_bend;
  const int first_leg = first_bend - 1, last_leg = last_bend;
  stretch.datum_end = first_leg == 0;
  stretch.free_end = last_leg + 1 == line.leg_count();
  int longest = first_leg;
  for (const Piece& piece : line.pieces()) {
    if (piece.first_leg < first_leg || piece.last_leg > last_leg) continue;
    stretch.pieces.push_back(piece);
    if (line.leg_length_mm(piece.first_leg) > line.leg_length_mm(longest)) longest = piece.first_leg;
  }
  stretch.origin = line.points()[first_leg];
  stretch.right = line.leg_direction(longest);
  stretch.normal = line.leg_direction(first_leg).cross(line.leg_direction(first_leg + 1)).normalized();
  stretch.up = stretch.normal.cross(stretch.right).normalized();
  return stretch;
}

}  // namespace

std::vector<FlatStretch> flat_stretches(const Run& run) {
  std::vector<FlatStretch> stretches;
  if (run.bends.empty()) return stretches;
  const CentreLine line = line_as_cut(run);
  const int count = static_cast<int>(run.bends.size());
  int first = 1;
  for (int number = 2; number <= count + 1; ++number) {
    if (number <= count && same_plane(run.bends[number - 1].rotation)) continue;
    stretches.push_back(stretch_of(line, first, number - 1));
    first = number;
  }
  return stretches;
}

std::vector<Entity> beside(const FlatStretch& stretch, const Piece& piece, double aside_mm, const Pen& pen) {
  std::vector<Entity> out;
  if (const auto* straight = std::get_if<Straight>(&piece.shape)) {
    const Vec2 from = stretch.flat(straight->from), to = stretch.flat(straight->to);
    const Vec2 along = (to - from).normalized();
    const Vec2 aside = aside_mm * Vec2(-along.y(), along.x());
    out.emplace_back(line_between(from + aside, to + aside, pen));
    return out;
  }
  const Arc& arc = std::get<Arc>(piece.shape);
  const bool left = arc.axis().dot(stretch.normal) > 0;  // turns left: its inside lies to the left
  const double radius = arc.radius + (left ? -aside_mm : aside_mm);
  if (radius <= 0) return out;
  const Vec2 centre = stretch.flat(arc.centre);
  const Vec3 first = left ? arc.point(0) : arc.point(arc.sweep.radians());
  out.emplace_back(ArcCurve{centre, radius, degrees_of(stretch.flat(first) - centre), arc.sweep.degrees(), pen});
  return out;
}

}  // namespace halfhard
