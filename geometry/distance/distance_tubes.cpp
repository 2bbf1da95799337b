// Two tubes, and a tube against itself.
#include <array>
#include <cmath>
#include <span>
#include <vector>

#include "geometry/base/tolerances.h"
#include "geometry/distance/distance.h"
#include "geometry/distance/distance_search.h"

namespace halfhard {
namespace {

using Pieces = std::span<const SolidPiece>;

// Where two centre lines are nearest: places within piece `first` of the one and `second` of the other.
struct Nearest {
  double value = kAnyDistance;
  int first = -1, second = -1;
  double s_first = 0, s_second = 0;
  Vec3 at_first = Vec3::Zero(), at_second = Vec3::Zero();
};

struct OnSegments {
  double s, t, squared;
};

// Two segments, each given by its start, unit direction and length: where both feet are inside, else on the borders; t
// follows from s by clamping and s from t again.
OnSegments nearest_on_segments(const Vec3& between, const Vec3& a, double length_a, const Vec3& b, double length_b) {
  const double cos = a.dot(b), da = a.dot(between), db = b.dot(between);
  // sin^2 from the cross product keeps its digits for nearly parallel lines.
  const double sin2 = a.cross(b).squaredNorm();
  double s = sin2 > 1e-20 ? std::clamp((cos * db - da) / sin2, 0.0, length_a) : 0.0;
  double t = std::clamp(db + s * cos, 0.0, length_b);
  s = std::clamp(t * cos - da, 0.0, length_a);
  t = std::clamp(db + s * cos, 0.0, length_b);
  OnSegments best{s, t, (between + s * a - t * b).squaredNorm()};
  if (sin2 < 1e-8) {
    // Nearly parallel: the formula above has lost its digits; the four ends hold the answer to better than rounding.
    const auto offer = [&](double sa, double tb) {
      const double squared = (between + sa * a - tb * b).squaredNorm();
      if (squared < best.squared) best = {sa, tb, squared};
    };
    for (const double end : {0.0, length_a}) offer(end, std::clamp(db + end * cos, 0.0, length_b));
    for (const double end : {0.0, length_b}) offer(std::clamp(end * cos - da, 0.0, length_a), end);
  }
  return best;
}

// Whether the bars around two pieces say that they are farther apart than the limit.
bool cores_beyond(const SolidPiece& a, const SolidPiece& b, double limit) {
  const double reach = limit + a.core_radius + b.core_radius;
  const OnSegments nearest =
      nearest_on_segments(a.core_from - b.core_from, a.core_direction, a.core_length, b.core_direction, b.core_length);
  return nearest.squared >= reach * reach * (1 + 1e-12);
}

// Two arcs about parallel axes, as in every bank of pipes: seen along the axes, circles are nearest on the line of their
// centres, where they cross, or at an arc's end. Nothing where the axes differ.
bool offer_parallel_arcs(Nearest& best, const SolidPiece& a, const SolidPiece& b, int i, int j) {
  if (a.axis.cross(b.axis).norm() > 1e-11) return false;
  const auto offer = [&](double value, const Vec3& on_a, const Vec3& on_b) {
    if (value < best.value) best = {value, i, j, a.nearest_s(on_a), b.nearest_s(on_b), on_a, on_b};
  };
  const auto offer_from_a = [&](const Vec3& near_a) {
    const Vec3 on_a = a.foot(near_a).at;
    const Foot on_b = b.foot(on_a);
    offer(on_b.distance, on_a, on_b.at);
  };
  for (const Vec3& end : {a.from, a.to}) offer_from_a(end);
  for (const Vec3& end : {b.from, b.to}) {
    const Foot on_a = a.foot(end);
    offer(on_a.distance, on_a.at, end);
  }
  Vec3 between = b.centre - a.centre;
  between -= between.dot(a.axis) * a.axis;
  const double gap = between.norm();
  if (gap <= 1e-9) return true;  // one axis: wherever both arcs reach, an end of one of them does
  const Vec3 unit = between / gap;
  offer_from_a(a.centre + a.radius * unit);
  offer_from_a(a.centre - a.radius * unit);
  const double along = (gap * gap + a.radius * a.radius - b.radius * b.radius) / (2 * gap);
  const double half = a.radius * a.radius - along * along;
  if (half <= 0) return true;
  const Vec3 side = std::sqrt(half) * a.axis.cross(unit);
  offer_from_a(a.centre + along * unit + side);
  offer_from_a(a.centre + along * unit - side);
  return true;
}

void offer_pair(Nearest& best, Pieces first, Pieces second, int i, int j) {
  const SolidPiece &a = first[i], &b = second[j];
  if (a.straight && b.straight) {
    const OnSegments found = nearest_on_segments(a.from - b.from, a.direction, a.length, b.direction, b.length);
    const double value = std::sqrt(found.squared);
    if (value < best.value) best = {value, i, j, found.s, found.t, a.point(found.s), b.point(found.t)};
    return;
  }
  if (best.value < kAnyDistance && cores_beyond(a, b, best.value)) return;
  if (!a.straight && !b.straight && offer_parallel_arcs(best, a, b, i, j)) return;
  // Search along the bend (either, where both are) against the other.
  const bool along_first = !a.straight;
  const SolidPiece &path = along_first ? a : b, &other = along_first ? b : a;
  const auto field = [&other](const Vec3& at) { return other.foot(at); };
  const search::Least least = search::least_along(path, field, other.straight, best.value, 0);
  if (least.piece < 0) return;
  const double t = other.nearest_s(least.foot.at);
  const Vec3 at = path.point(least.s);
  best = along_first ? Nearest{least.value, i, j, least.s, t, at, least.foot.at}
                     : Nearest{least.value, i, j, t, least.s, least.foot.at, at};
}

// Certainly not more than the distance of two pieces' centre lines.
double at_least(const SolidPiece& a, const SolidPiece& b) {
  const double balls = (a.ball - b.ball).norm() - a.ball_radius - b.ball_radius;
  return balls;
}

bool certainly_beyond(const SolidPiece& a, const SolidPiece& b, double limit) {
  const double reach = limit + a.ball_radius + b.ball_radius;
  return (a.ball - b.ball).squaredNorm() >= reach * reach;
}

Nearest nearest_lines(Pieces first, Pieces second, double limit) {
  Nearest best;
  best.value = limit;
  int start_i = -1, start_j = -1;
  double least = kAnyDistance;
  if (!(limit < kAnyDistance)) {
    for (int i = 0; i < static_cast<int>(first.size()); ++i) {
      for (int j = 0; j < static_cast<int>(second.size()); ++j) {
        const double bound = at_least(first[i], second[j]);
        if (bound < least) {
          least = bound;
          start_i = i;
          start_j = j;
        }
      }
    }
    offer_pair(best, first, second, start_i, start_j);
  }
  for (int i = 0; i < static_cast<int>(first.size()); ++i) {
    for (int j = 0; j < static_cast<int>(second.size()); ++j) {
      if (i == start_i && j == start_j) continue;
      if (certainly_beyond(first[i], second[j], best.value)) continue;
      offer_pair(best, first, second, i, j);
    }
  }
  return best;
}

void offer(Separation& best, double value, const Vec3& at_first, const Vec3& at_second, double first, double second) {
  if (value < best.distance_mm) best = Separation{value, at_first, at_second, first, second, 0};
}

// Places along `a` that are square to their foot on the solid of `b`: the side of a tube against anything of the other.
void offer_side(Separation& best, const SolidPiece& a, double ra, const SolidPiece& b, double rb, bool swapped) {
  const auto field = [&](const Vec3& at) { return b.solid_foot(rb, at); };
  const search::Least least = search::least_square(a, field, b.straight, best.distance_mm + ra);
  if (least.piece < 0) return;
  const Vec3 middle = a.point(least.s);
  // A foot within the tube is common to both.
  const Vec3 on_a = least.value > ra ? Vec3(middle + ra / least.value * (least.foot.at - middle)) : least.foot.at;
  const double along_a = a.starts_at + least.s, along_b = b.starts_at + b.nearest_s(least.foot.at);
  if (swapped)
    offer(best, least.value - ra, least.foot.at, on_a, along_b, along_a);
  else
    offer(best, least.value - ra, on_a, least.foot.at, along_a, along_b);
}

struct End {
  Vec3 centre, normal;
  double along;
};

std::array<End, 2> ends_of(Pieces pieces) {
  const SolidPiece &head = pieces.front(), &tail = pieces.back();
  return {End{head.from, head.direction, head.starts_at},
          End{tail.to, tail.end_tangent(), tail.starts_at + tail.length}};
}

// A rim against anything convex enough.
template <class Field>
void offer_rim(Separation& best, const End& end, double ra, const Field& field, bool convex, bool swapped,
               const auto& along_other) {
  if (best.distance_mm <= 0 || field(end.centre).distance - ra >= best.distance_mm) return;
  const SolidPiece rim = rim_piece(end.centre, end.normal, ra);
  const search::Least least = search::least_along(rim, field, convex, best.distance_mm, 0);
  if (least.piece < 0) return;
  const Vec3 on_rim = rim.point(least.s);
  const double other = along_other(least.foot.at);
  if (swapped)
    offer(best, least.value, least.foot.at, on_rim, other, end.along);
  else
    offer(best, least.value, on_rim, least.foot.at, end.along, other);
}

// Rims of the first against the end discs of the second.
void offer_discs(Separation& best, Pieces first, double ra, Pieces second, double rb, bool swapped) {
  for (const End& end : ends_of(first)) {
    for (const End& other : ends_of(second)) {
      const auto field = [&](const Vec3& at) { return disc_foot(other.centre, other.normal, rb, at); };
      offer_rim(best, end, ra, field, true, swapped, [&](const Vec3&) { return other.along; });
    }
  }
}

// Rims of the first inside the second: only asked where the solids may meet.
void offer_rims(Separation& best, Pieces first, double ra, Pieces second, double rb, bool swapped) {
  for (const End& end : ends_of(first)) {
    for (const SolidPiece& b : second) {
      const auto field = [&](const Vec3& at) { return b.solid_foot(rb, at); };
      offer_rim(best, end, ra, field, b.straight, swapped,
                [&](const Vec3& at) { return b.starts_at + b.nearest_s(at); });
    }
  }
}

void offer_sides(Separation& best, const SolidPiece& a, double ra, const SolidPiece& b, double rb) {
  const double limit = best.distance_mm + ra + rb;
  if (best.distance_mm <= 0 || certainly_beyond(a, b, limit) || cores_beyond(a, b, limit)) return;
  offer_side(best, a, ra, b, rb, false);
  offer_side(best, b, rb, a, ra, true);
}

// Two points of the discs where the centre lines are nearest, drawn to each other: close to the answer at once.
void offer_hint(Separation& best, Pieces first, double ra, Pieces second, double rb, const Nearest& hint) {
  const SolidPiece &a = first[hint.first], &b = second[hint.second];
  const Vec3 along_a = a.tangent(hint.s_first), along_b = b.tangent(hint.s_second);
  Vec3 on_b = hint.at_second;
  for (int i = 0; i < 2; ++i) {
    const Vec3 on_a = disc_foot(hint.at_first, along_a, ra, on_b).at;
    const Foot foot = disc_foot(hint.at_second, along_b, rb, on_a);
    on_b = foot.at;
    offer(best, foot.distance, on_a, on_b, a.starts_at + hint.s_first, b.starts_at + hint.s_second);
  }
}

// The exact distance of the flat-ended solids where it is below best.distance_mm; 0 or less: they meet. Two solids are
// nearest side to side, side to end disc, or rim to rim or disc. `hint` is where their centre lines are nearest.
void offer_flat(Separation& best, Pieces first, double ra, Pieces second, double rb, const Nearest& hint) {
  offer_hint(best, first, ra, second, rb, hint);
  offer_sides(best, first[hint.first], ra, second[hint.second], rb);
  offer_discs(best, first, ra, second, rb, false);
  offer_discs(best, second, rb, first, ra, true);
  for (const SolidPiece& a : first) {
    for (const SolidPiece& b : second) offer_sides(best, a, ra, b, rb);
  }
  if (hint.value - ra - rb > kTouching_mm) return;
  offer_rims(best, first, ra, second, rb, false);
  offer_rims(best, second, rb, first, ra, true);
}

// Whether the line at this place is square to the line to `other`, which only fails at an end.
bool square_at(Pieces pieces, int index, double s, const Vec3& at, const Vec3& other) {
  const SolidPiece &piece = pieces[index], &last = pieces.back();
  const double tolerance = 1e-9 * (1 + (other - at).norm());
  const double ahead = (other - at).dot(piece.tangent(s));
  const double along = piece.starts_at + s;
  if (along <= pieces.front().starts_at + kTouching_mm && ahead < -tolerance) return false;
  return !(along >= last.starts_at + last.length - kTouching_mm && ahead > tolerance);
}

bool near_an_end(Pieces pieces, int index, double s) {
  const double along = pieces[index].starts_at + s;
  return along <= pieces.front().starts_at + kFlushEnd_mm ||
         along >= pieces.back().starts_at + pieces.back().length - kFlushEnd_mm;
}

bool near_an_end(Pieces first, Pieces second, const Nearest& nearest) {
  return near_an_end(first, nearest.first, nearest.s_first) || near_an_end(second, nearest.second, nearest.s_second);
}

bool both_square(Pieces first, Pieces second, const Nearest& nearest) {
  return square_at(first, nearest.first, nearest.s_first, nearest.at_first, nearest.at_second) &&
         square_at(second, nearest.second, nearest.s_second, nearest.at_second, nearest.at_first);
}

Separation exact_below(double limit, Pieces first, double ra, Pieces second, double rb, const Nearest& hint) {
  Separation exact;
  exact.distance_mm = std::max(limit, 1e-300);
  offer_flat(exact, first, ra, second, rb, hint);
  return exact;
}

std::vector<SolidPiece> shrunk(Pieces pieces) {
  std::vector<SolidPiece> result(pieces.begin(), pieces.end());
  result.front() = result.front().part(kTouching_mm, kAnyDistance);
  result.back() = result.back().part(0, result.back().length - kTouching_mm);
  return result;
}

// Whether the first tube, made a trifle smaller, still meets the second. Near an end only the exact solids tell.
bool overlaps(Pieces first_whole, double ra_whole, Pieces second, double rb) {
  const std::vector<SolidPiece> first = shrunk(first_whole);
  const double ra = std::max(0.0, ra_whole - kTouching_mm);
  const Nearest nearest = nearest_lines(first, second, ra + rb);
  if (nearest.first < 0) return false;
  return !near_an_end(first, second, nearest) || exact_below(0, first, ra, second, rb, nearest).distance_mm <= 0;
}

std::optional<Separation> separation(Pieces first, double ra, Pieces second, double rb, double limit) {
  if (first.empty() || second.empty()) return std::nullopt;
  const Nearest nearest = nearest_lines(first, second, limit + ra + rb);
  if (nearest.first < 0) return std::nullopt;
  Separation result{nearest.value - ra - rb,
                    nearest.at_first,
                    nearest.at_second,
                    first[nearest.first].starts_at + nearest.s_first,
                    second[nearest.second].starts_at + nearest.s_second,
                    0};
  // Ends may stand flush beside each other, or one beyond the other.
  const bool may_touch = result.distance_mm < 0 && near_an_end(first, second, nearest);
  if (may_touch || !both_square(first, second, nearest)) {
    Separation exact = exact_below(limit, first, ra, second, rb, nearest);
    if (exact.distance_mm >= std::max(limit, 1e-300)) return std::nullopt;
    if (exact.distance_mm > 0) return exact;
    if (!overlaps(first, ra, second, rb)) {
      if (limit <= 0) return std::nullopt;
      exact.distance_mm = 0;
      return exact;
    }
  }
  if (result.distance_mm > 0) {
    const Vec3 towards = (nearest.at_second - nearest.at_first) / nearest.value;
    result.at_first += ra * towards;
    result.at_second -= rb * towards;
  }
  return result;
}

}  // namespace

std::optional<Separation> distance_nearer_than(double limit_mm, const TubeBody& first, const TubeBody& second) {
  if (limit_mm < kAnyDistance && !first.pieces().empty() && !second.pieces().empty()) {
    const double limit = std::max(0.0, limit_mm);
    if (first.bounds().squared_distance(second.bounds()) > limit * limit) return std::nullopt;
  }
  return separation(first.pieces(), first.radius_mm(), second.pieces(), second.radius_mm(), limit_mm);
}

Separation distance(const TubeBody& first, const TubeBody& second) {
  if (const auto found = distance_nearer_than(kAnyDistance, first, second)) return *found;
  return Separation{kAnyDistance, Vec3::Zero(), Vec3::Zero(), 0, 0, 0};
}

std::optional<Separation> self_distance_nearer_than(double limit_mm, const CentreLine& line, double radius_mm) {
  const TubeBody tube(line, radius_mm);
  const Pieces pieces = tube.pieces();
  std::optional<Separation> best;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    for (std::size_t j = i + 1; j < pieces.size(); ++j) {
      if (pieces[j].first_leg - pieces[i].last_leg < 2) continue;
      const double limit = best ? best->distance_mm : limit_mm;
      if (certainly_beyond(pieces[i], pieces[j], limit + 2 * radius_mm)) continue;
      const auto found = separation(pieces.subspan(i, 1), radius_mm, pieces.subspan(j, 1), radius_mm, limit);
      if (found && found->distance_mm < limit) best = found;
    }
  }
  return best;
}

std::optional<Separation> self_distance(const CentreLine& line, double radius_mm) {
  return self_distance_nearer_than(kAnyDistance, line, radius_mm);
}

}  // namespace halfhard
