// Tube against body; two tubes are in distance_tubes.cpp.
#include "geometry/distance/distance.h"

#include <cmath>

#include "geometry/base/tolerances.h"
#include "geometry/distance/distance_moving.h"
#include "geometry/distance/distance_search.h"
#include "geometry/distance/distance_triangles.h"
#include "geometry/distance/obstacle_kinds.h"

namespace halfhard {
namespace {

// Stretches below this come from rounding, of a straight between two bends that has just no length for example.
constexpr double kSliver_mm = 1e-9;

SolidPiece prepared(const Piece& piece, double skip, double keep) {
  SolidPiece solid;
  if (const auto* straight = std::get_if<Straight>(&piece.shape)) {
    solid = straight_piece(straight->from, straight->to);
  } else {
    solid = arc_piece(std::get<Arc>(piece.shape));
  }
  solid.starts_at = piece.starts_at_mm;
  solid.first_leg = piece.first_leg;
  solid.last_leg = piece.last_leg;
  return skip > 0 || keep < piece.length_mm ? solid.part(skip, keep) : solid;
}

}  // namespace

TubeBody::TubeBody(const CentreLine& line, double radius_mm) : TubeBody(line, radius_mm, 0, line.length_mm()) {}

TubeBody::TubeBody(const CentreLine& line, double radius_mm, double from_mm, double until_mm) : radius_(radius_mm) {
  const double from = std::clamp(from_mm, 0.0, line.length_mm());
  const double until = std::clamp(until_mm, from, line.length_mm());
  pieces_.reserve(line.pieces().size());
  for (std::size_t i = 0; i < line.pieces().size(); ++i) {
    const Piece& piece = line.pieces()[i];
    const double skip = std::max(0.0, from - piece.starts_at_mm);
    const double keep = std::min(piece.length_mm, until - piece.starts_at_mm);
    const bool last = i + 1 == line.pieces().size();
    // A piece is kept where it has length, or as the one disc that is left.
    if (keep > skip + kSliver_mm || (last && pieces_.empty()))
      pieces_.push_back(prepared(piece, std::min(skip, keep), keep));
  }
  for (const SolidPiece& piece : pieces_) bounds_.add(piece.line_bounds());
  bounds_ = bounds_.grown(radius_);
}

TubeBody TubeBody::moved(const Vec3& shift_mm) const {
  TubeBody result = *this;
  for (SolidPiece& piece : result.pieces_) piece.move(shift_mm);
  result.bounds_.low += shift_mm;
  result.bounds_.high += shift_mm;
  return result;
}

TubeBody TubeBody::shrunk(double by_mm) const {
  TubeBody result = *this;
  result.radius_ = std::max(0.0, radius_ - by_mm);
  if (!pieces_.empty()) {
    result.pieces_.front() = result.pieces_.front().part(by_mm, kAnyDistance);
    result.pieces_.back() = result.pieces_.back().part(0, result.pieces_.back().length - by_mm);
  }
  return result;
}

TubeBody TubeBody::carried(const Eigen::Isometry3d& by) const {
  TubeBody result = *this;
  result.bounds_ = Bounds();
  for (SolidPiece& piece : result.pieces_) {
    piece.carry(by);
    result.bounds_.add(piece.line_bounds());
  }
  result.bounds_ = result.bounds_.grown(radius_);
  return result;
}

namespace {

struct Disc {
  Vec3 centre, normal;
  double along = 0;
};

std::array<Disc, 2> end_discs(const TubeBody& tube) {
  const SolidPiece &first = tube.pieces().front(), &last = tube.pieces().back();
  return {Disc{first.from, first.direction, first.starts_at},
          Disc{last.to, last.end_tangent(), last.starts_at + last.length}};
}

void offer(Separation& best, double value, const Vec3& at_first, const Vec3& at_second, double along) {
  if (value < best.distance_mm) best = Separation{value, at_first, at_second, along, 0, 0};
}

// A convex set as the end discs see it.
struct ConvexObstacle {
  const Obstacle::Kind& kind;
  Foot foot(const Vec3& point) const { return kind.foot(point); }
  std::optional<Vec3> farthest(const Vec3& direction) const { return kind.farthest(direction); }
  // A point in the plane, `above` and `below` being the farthest points on its two sides. Any will do: where the set
  // lies across the disc's rim, the rim knows.
  Vec3 in_plane(const Vec3& at, const Vec3& normal, const Vec3& above, const Vec3& below) const {
    const double up = (above - at).dot(normal), down = (below - at).dot(normal);
    return below + (-down / (up - down)) * (above - below);
  }
};

// A disc and a convex set are nearest at the rim, or at the set's own farthest point along the disc's normal; the set
// may also pass through the disc without touching the rim.
template <class Convex>
void offer_disc(Separation& best, const Disc& disc, double radius, const Convex& set) {
  const SolidPiece rim = rim_piece(disc.centre, disc.normal, radius);
  const auto field = [&set](const Vec3& at) { return set.foot(at); };
  const search::Least least = search::least_along(rim, field, true, best.distance_mm, 0);
  if (least.piece >= 0) offer(best, least.value, rim.point(least.s), least.foot.at, disc.along);
  const std::optional<Vec3> above = set.farthest(disc.normal), below = set.farthest(-disc.normal);
  if (!above || !below) return;
  for (const Vec3& point : {*above, *below}) {
    const Foot on_disc = disc_foot(disc.centre, disc.normal, radius, point);
    offer(best, on_disc.distance, on_disc.at, point, disc.along);
  }
  const double up = (*above - disc.centre).dot(disc.normal), down = (*below - disc.centre).dot(disc.normal);
  if (up < 0 || down > 0 || !(up > down)) return;
  const Vec3 through = set.in_plane(disc.centre, disc.normal, *above, *below);
  if ((through - disc.centre).norm() <= radius) offer(best, 0, through, through, disc.along);
}

// The exact distance of the flat-ended tube and a convex set where that is below best.distance_mm; 0 or less: they
// meet.
template <class Convex>
void offer_convex(Separation& best, const TubeBody& tube, const Convex& set) {
  const double r = tube.radius_mm();
  const auto field = [&set](const Vec3& at) { return set.foot(at); };
  for (const Disc& disc : end_discs(tube)) {
    if (best.distance_mm <= 0) return;
    if (set.foot(disc.centre).distance - r < best.distance_mm) offer_disc(best, disc, r, set);
  }
  for (const SolidPiece& piece : tube.pieces()) {
    if (best.distance_mm <= 0) return;
    if (set.foot(piece.ball).distance - piece.ball_radius - r >= best.distance_mm) continue;
    const search::Least least = search::least_square(piece, field, true, best.distance_mm + r);
    if (least.piece < 0) continue;
    const Vec3 middle = piece.point(least.s);
    const Vec3 towards = least.foot.at - middle;
    // A foot within the tube is common to both.
    const Vec3 on_tube = least.value > r ? Vec3(middle + r / least.value * towards) : least.foot.at;
    offer(best, least.value - r, on_tube, least.foot.at, piece.starts_at + least.s);
  }
}

void offer_triangles(Separation& best, const TubeBody& tube, const TriangleTree& tree) {
  tree.each_near(
      tube.bounds(), [&best] { return best.distance_mm > 0 ? std::max(kTouching_mm, best.distance_mm) : 0.0; },
      [&](int index) { offer_convex(best, tube, TriangleSet{tree.triangle(index)}); });
}

// Whether a place of the centre line lies within so much of an end of the tube.
bool near_an_end(const TubeBody& tube, const search::Least& least, double within) {
  const SolidPiece& last = tube.pieces().back();
  const double along = tube.pieces()[least.piece].starts_at + least.s;
  return along <= tube.pieces().front().starts_at + within || along >= last.starts_at + last.length - within;
}

// Whether the place where the centre line is nearest is square to the line, so that the tube's side is what is nearest;
// at an end the body may instead lie beyond the flat end.
bool side_is_nearest(const TubeBody& tube, const search::Least& least) {
  const SolidPiece &piece = tube.pieces()[least.piece], &last = tube.pieces().back();
  const double tolerance = 1e-9 * (1 + std::abs(least.value));
  const double ahead = (least.foot.at - piece.point(least.s)).dot(piece.tangent(least.s));
  const double along = piece.starts_at + least.s;
  if (along <= tube.pieces().front().starts_at + kTouching_mm && ahead < -tolerance) return false;
  return !(along >= last.starts_at + last.length - kTouching_mm && ahead > tolerance);
}

Separation beside(const TubeBody& tube, const search::Least& least) {
  const SolidPiece& piece = tube.pieces()[least.piece];
  const Vec3 middle = piece.point(least.s);
  Separation result{least.value - tube.radius_mm(), middle, least.foot.at, piece.starts_at + least.s, 0, 0};
  if (result.distance_mm > 0) result.at_first += tube.radius_mm() / least.value * (least.foot.at - middle);
  return result;
}

search::Least nearest_place(const TubeBody& tube, const Obstacle::Kind& kind, double limit) {
  if (kind.tree() && !kind.convex) return least_to_triangles(tube, *kind.tree(), limit + tube.radius_mm());
  const auto get = [&tube](int i) -> const SolidPiece& { return tube.pieces()[i]; };
  const auto field = [&kind](const Vec3& at) { return kind.foot(at); };
  const auto convex = [&kind](const SolidPiece& piece) { return kind.convex_along(piece); };
  const bool by_position = kind.at_rest() && !kind.depth_is_exact;
  const search::Least least = search::least_along(static_cast<int>(tube.pieces().size()), get, field, convex,
                                                  limit + tube.radius_mm(), by_position ? 0 : -search::kInfinite);
  return by_position && least.piece >= 0 && least.value <= 0 ? deepest_place(tube, kind, least) : least;
}

// The exact distance of the flat-ended solids where below the limit; 0 or less: they touch or meet.
Separation exact_below(double limit, const TubeBody& tube, const Obstacle::Kind& kind) {
  Separation exact;
  exact.distance_mm = std::max(limit, 1e-300);
  if (kind.at_rest()) {
    offer_positions(exact, tube, kind, exact_below);
  } else if (kind.tree()) {
    offer_triangles(exact, tube, *kind.tree());
  } else {
    offer_convex(exact, tube, ConvexObstacle{kind});
  }
  return exact;
}

// Whether solids that touch or meet have more than kTouching_mm in common: whether the tube, made as much smaller, still
// meets. Near an end only the exact solids tell, as the body may lie beyond the flat end.
bool overlaps(const TubeBody& whole, const Obstacle::Kind& kind) {
  const TubeBody tube = whole.shrunk(kTouching_mm);
  const search::Least least = nearest_place(tube, kind, 0);
  if (least.piece < 0) return false;
  if (least.value <= 0) return true;
  return !near_an_end(tube, least, kFlushEnd_mm) || exact_below(0, tube, kind).distance_mm <= 0;
}

}  // namespace

std::optional<Separation> distance_nearer_than(double limit_mm, const TubeBody& tube, const Obstacle& body) {
  const Obstacle::Kind& kind = body.kind();
  if (tube.pieces().empty() || body.bounds().empty()) return std::nullopt;
  if (limit_mm < kAnyDistance) {
    const double limit = std::max(0.0, limit_mm);
    if (tube.bounds().squared_distance(body.bounds()) > limit * limit) return std::nullopt;
  }
  const search::Least least = nearest_place(tube, kind, limit_mm);
  if (least.piece < 0) return std::nullopt;
  Separation result = beside(tube, least);
  // An end whose axis lies outside may stand flush beside the body, or before it.
  const bool may_touch =
      least.value > -kTouching_mm && result.distance_mm < 0 && near_an_end(tube, least, kFlushEnd_mm);
  if (may_touch || (least.value > 0 && !side_is_nearest(tube, least))) {
    const Separation exact = exact_below(limit_mm, tube, kind);
    if (exact.distance_mm >= std::max(limit_mm, 1e-300)) return std::nullopt;
    if (exact.distance_mm > 0) {
      result = exact;
    } else if (!overlaps(tube, kind)) {
      if (limit_mm <= 0) return std::nullopt;
      result = exact;
      result.distance_mm = 0;
    }
  }
  result.uncertainty_mm = kind.uncertainty_mm;
  return result;
}

Separation distance(const TubeBody& tube, const Obstacle& body) {
  if (const auto found = distance_nearer_than(kAnyDistance, tube, body)) return *found;
  return Separation{kAnyDistance, Vec3::Zero(), Vec3::Zero(), 0, 0, 0};
}

}  // namespace halfhard
