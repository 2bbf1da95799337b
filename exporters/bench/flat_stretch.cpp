#include "exporters/bench/flat_stretch.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include "geometry/base/tolerances.h"
#include "geometry/bending/as_cut.h"

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

Piece shifted(Piece piece, const Vec3& by) {
  if (auto* straight = std::get_if<Straight>(&piece.shape)) {
    straight->from += by;
    straight->to += by;
  } else {
    std::get<Arc>(piece.shape).centre += by;
  }
  return piece;
}

constexpr double kKeep_mm = 110, kBreakGap_mm = 14, kAboutMark_mm = 30, kWorthBreaking_mm = 100;

// How much of a straight stays at each of its ends.
std::pair<double, double> kept_ends(const Run& run, const Piece& piece) {
  double first = kKeep_mm, last = kKeep_mm;
  for (const Bend& bend : run.bends) {
    const double into = bend.mark_mm - run.spare_datum_mm - piece.starts_at_mm;
    if (into < 0 || into > piece.length_mm) continue;
    if (into < piece.length_mm / 2) {
      first = std::max(first, into + kAboutMark_mm);
    } else {
      last = std::max(last, piece.length_mm - into + kAboutMark_mm);
    }
  }
  return {first, last};
}

}  // namespace

FlatStretch cut_short(const Run& run, const FlatStretch& stretch, double most_mm) {
  FlatStretch broken = stretch;
  broken.pieces.clear();
  Vec3 shift = Vec3::Zero();
  for (const Piece& piece : stretch.pieces) {
    const auto* straight = std::get_if<Straight>(&piece.shape);
    const auto [first, last] = kept_ends(run, piece);
    const double cut_out = piece.length_mm - first - last - kBreakGap_mm;
    if (straight == nullptr || piece.length_mm <= most_mm || cut_out < kWorthBreaking_mm) {
      broken.pieces.push_back(shifted(piece, shift));
      continue;
    }
    const Vec3 along = (straight->to - straight->from).normalized();
    Piece before = piece, after = piece;
    before.length_mm = first;
    before.shape = Straight{straight->from, straight->from + first * along};
    after.length_mm = last;
    after.starts_at_mm = piece.starts_at_mm + piece.length_mm - last;
    after.shape = Straight{straight->to - last * along, straight->to};
    broken.pieces.push_back(shifted(before, shift));
    shift -= cut_out * along;
    broken.pieces.push_back(shifted(after, shift));
    broken.breaks.push_back({std::get<Straight>((broken.pieces.end() - 2)->shape).to,
                             std::get<Straight>(broken.pieces.back().shape).from, piece.length_mm, cut_out});
  }
  return broken;
}

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
