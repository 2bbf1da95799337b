#include "geometry/curve/tube_skin.h"

#include <cmath>
#include <numbers>

#include "geometry/base/require.h"

namespace halfhard {
namespace {

// Seams nearer than this share one vertex: 1e-6 mm on the skin of a 15 mm tube.
constexpr double kSameSeam_rad = 1.3e-7;
// A straight keeps its seam away from a neighbour's that is this near, so that no sliver of an edge comes about.
constexpr double kCloseSeam_rad = 0.02;

Vec3 end_of(const SkinPiece& piece) {
  if (const auto* arc = std::get_if<Arc>(&piece.shape)) return arc->point(arc->sweep.radians());
  return std::get<Straight>(piece.shape).to;
}

Vec3 start_of(const SkinPiece& piece) {
  if (const auto* arc = std::get_if<Arc>(&piece.shape)) return arc->point(0);
  return std::get<Straight>(piece.shape).from;
}

Vec3 travel_at_end(const SkinPiece& piece) {
  if (const auto* arc = std::get_if<Arc>(&piece.shape)) return arc->direction(arc->sweep.radians());
  const Straight& straight = std::get<Straight>(piece.shape);
  return (straight.to - straight.from).normalized();
}

Vec3 travel_at_start(const SkinPiece& piece) {
  if (const auto* arc = std::get_if<Arc>(&piece.shape)) return arc->along;
  return travel_at_end(piece);
}

Vec3 square_to(const Vec3& wanted, const Vec3& unit) { return (wanted - wanted.dot(unit) * unit).normalized(); }

// From a to b about `axis`, in [0, 2 pi).
double angle_about(const Vec3& axis, const Vec3& a, const Vec3& b) {
  const double angle = std::atan2(axis.dot(a.cross(b)), a.dot(b));
  return angle < 0 ? angle + 2 * std::numbers::pi : angle;
}

Vec3 straight_seam(const SkinPiece* before, const SkinPiece* after, const Vec3& direction) {
  const bool bend_before = before && before->is_bend();
  const bool bend_after = after && after->is_bend();
  if (!bend_before && !bend_after) return any_square_to(direction);
  const Vec3 seam = square_to(bend_before ? before->seam_at_end : after->seam_at_start, direction);
  if (bend_before && bend_after) {
    const double apart = angle_between(seam, after->seam_at_start).radians();
    if (apart > kSameSeam_rad && apart < kCloseSeam_rad) return -seam;
  }
  return seam;
}

}  // namespace

TubeSkin tube_skin(const CentreLine& line) {
  TubeSkin skin;
  skin.pieces.reserve(line.pieces().size());
  for (const Piece& piece : line.pieces()) {
    if (piece.length_mm < kShortestSkin_mm) continue;
    SkinPiece& face = skin.pieces.emplace_back();
    face.shape = piece.shape;
    if (const auto* arc = std::get_if<Arc>(&piece.shape)) {
      const double sweep = arc->sweep.radians();
      face.seam_at_start = arc->outwards;
      face.seam_at_end = std::cos(sweep) * arc->outwards + std::sin(sweep) * arc->along;
    }
  }
  HALFHARD_REQUIRE(!skin.pieces.empty());
  const std::size_t count = skin.pieces.size();
  for (std::size_t i = 0; i < count; ++i) {
    SkinPiece& piece = skin.pieces[i];
    if (piece.is_bend()) continue;
    piece.seam_at_start = piece.seam_at_end = straight_seam(
        i > 0 ? &skin.pieces[i - 1] : nullptr, i + 1 < count ? &skin.pieces[i + 1] : nullptr, travel_at_start(piece));
  }
  const SkinPiece& first = skin.pieces.front();
  skin.rings.push_back({start_of(first), travel_at_start(first), first.seam_at_start, first.seam_at_start});
  for (std::size_t i = 0; i < count; ++i) {
    const SkinPiece& before = skin.pieces[i];
    SkinRing ring{end_of(before), travel_at_end(before), before.seam_at_end, before.seam_at_end};
    if (i + 1 < count) {
      const SkinPiece& after = skin.pieces[i + 1];
      ring.seam_after = after.seam_at_start;
      ring.gap_mm = (start_of(after) - ring.centre).norm();
      const double angle = angle_about(ring.travel, ring.seam_before, ring.seam_after);
      const bool same = angle < kSameSeam_rad || angle > 2 * std::numbers::pi - kSameSeam_rad;
      ring.split_rad = same ? 0 : angle;
    }
    skin.rings.push_back(ring);
  }
  return skin;
}

}  // namespace halfhard
