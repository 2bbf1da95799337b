#include "geometry/distance/distance_triangles.h"

namespace halfhard {

Foot TriangleSet::foot(const Vec3& point) const {
  const Vec3 at = triangle_foot(corners[0], corners[1], corners[2], point).at;
  return foot_at((point - at).norm(), at);
}

std::optional<Vec3> TriangleSet::farthest(const Vec3& direction) const {
  int best = 0;
  for (int i = 1; i < 3; ++i) {
    if (direction.dot(corners[i]) > direction.dot(corners[best])) best = i;
  }
  return corners[best];
}

Vec3 TriangleSet::in_plane(const Vec3& at, const Vec3& normal, const Vec3& above, const Vec3& below) const {
  // The crossing runs from the long edge to the third corner's two edges; the side that the third is on says which.
  const auto up = [&](const Vec3& point) { return (point - at).dot(normal); };
  const auto crossing = [&](const Vec3& high, const Vec3& low) -> Vec3 {
    const double rise = up(high) - up(low);
    return rise > 0 ? Vec3(low + std::clamp(-up(low) / rise, 0.0, 1.0) * (high - low)) : low;
  };
  Vec3 third = corners[0];
  for (const Vec3& corner : corners) {
    if (corner != above && corner != below) third = corner;
  }
  const Vec3 one = crossing(above, below), other = up(third) > 0 ? crossing(third, below) : crossing(above, third);
  const Vec3 way = other - one;
  const double squared = way.squaredNorm();
  return squared > 0 ? Vec3(one + std::clamp((at - one).dot(way) / squared, 0.0, 1.0) * way) : one;
}

search::Least least_to_triangles(const TubeBody& tube, const TriangleTree& tree, double limit) {
  const auto& pieces = tube.pieces();
  const auto get = [&pieces](int i) -> const SolidPiece& { return pieces[i]; };
  const auto signed_foot = [&tree](const Vec3& at) { return tree.foot(at); };
  const auto deepest = [&] {
    return search::least_along(
        static_cast<int>(pieces.size()), get, signed_foot, [](const SolidPiece&) { return false; }, limit,
        -search::kInfinite, kDepth_mm);
  };
  search::Least best;
  best.value = limit;
  // A few places first, so that most triangles are certainly too far at once. The cap stays a little above them, so that
  // the search below finds the place itself.
  for (int i = 0; i < static_cast<int>(pieces.size()); ++i) {
    const Foot foot = tree.foot(pieces[i].point(pieces[i].length / 2));
    if (foot.distance <= 0) return deepest();
    best.value = std::min(best.value, foot.distance + 2 * search::kCertain_mm);
  }
  for (int i = 0; i < static_cast<int>(pieces.size()); ++i) {
    const SolidPiece& piece = pieces[i];
    tree.each_near(
        piece.line_bounds(), [&best] { return best.value; },
        [&](int index) {
          const TriangleSet triangle{tree.triangle(index)};
          // Most triangles are farther than the whole piece's ball allows.
          if (triangle.foot(piece.ball).distance - piece.ball_radius >= best.value) return;
          const auto field = [&triangle](const Vec3& at) { return triangle.foot(at); };
          search::Least found = search::least_along(piece, field, true, best.value, 1e-9);
          if (found.piece < 0) return;
          found.piece = i;
          best = found;
        });
    if (best.piece >= 0 && best.value <= 1e-9) return deepest();
  }
  return best;
}

}  // namespace halfhard
