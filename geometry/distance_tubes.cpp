// Two tubes, and a tube against itself.
#include <array>
#include <cmath>
#include <span>
#include <vector>

#include "geometry/distance.h"
#include "geometry/distance_search.h"

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

// Two segments: where both feet are inside, else on the borders; t follows from s by clamping and s from t again.
OnSegments nearest_on_segments(const SolidPiece& a, const SolidPiece& b) {
  const Vec3 between = a.from - b.from;
  const double cos = a.direction.dot(b.direction), da = a.direction.dot(between), db = b.direction.dot(between);
  // sin^2 from the cross product keeps its digits for nearly parallel lines.
  const double sin2 = a.direction.cross(b.direction).squaredNorm();
  double s = sin2 > 1e-20 ? std::clamp((cos * db - da) / sin2, 0.0, a.length) : 0.0;
  double t = std::clamp(db + s * cos, 0.0, b.length);
  s = std::clamp(t * cos - da, 0.0, a.length);
  t = std::clamp(db + s * cos, 0.0, b.length);
  OnSegments best{s, t, (between + s * a.direction - t * b.direction).squaredNorm()};
  if (sin2 < 1e-8) {
    // Nearly parallel: the formula above has lost its digits; the four ends hold the answer to better than rounding.
    const auto offer = [&](double sa, double tb) {
      const double squared = (between + sa * a.direction - tb * b.direction).squaredNorm();
      if (squared < best.squared) best = {sa, tb, squared};
    };
    for (const double end : {0.0, a.length}) offer(end, std::clamp(db + end * cos, 0.0, b.length));
    for (const double end : {0.0, b.length}) offer(std::clamp(end * cos - da, 0.0, a.length), end);
  }
  return best;
}

void offer_pair(Nearest& best, Pieces first, Pieces second, int i, int j) {
  const SolidPiece &a = first[i], &b = second[j];
  if (a.straight && b.straight) {
    const OnSegments found = nearest_on_segments(a, b);
    const double value = std::sqrt(found.squared);
    if (value < best.value) best = {value, i, j, found.s, found.t, a.point(found.s), b.point(found.t)};
    return;
  }
  // Search along the bend (either, where both are) against the other.
  const bool along_first = !a.straight;
  const SolidPiece &path = along_first ? a : b, &other = along_first ? b : a;
  const auto field = [&other](const Vec3& at) { return other.foot(at); };
  const search::Least least = search::least_along(path, field, other.straight, best.value);
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
  const Vec3 on_a = least.value > 0 ? Vec3(middle + ra / least.value * (least.foot.at - middle)) : middle;
  const double along_a = a.starts_at + least.s, along_b = b.starts_at + b.nearest_s(least.foot.at);
  if (swapped)
    offer(best, least.value - ra, least.foot.at, on_a, along_b, along_a);
  else
    offer(best, least.value - ra, on_a, least.foot.at, along_a, along_b);
}

void offer_rims(Separation& best, Pieces first, double ra, Pieces second, double rb, bool swapped) {
  struct End {
    Vec3 centre, normal;
    double along;
  };
  const SolidPiece &head = first.front(), &tail = first.back();
  for (const End& end : {End{head.from, head.direction, head.starts_at},
                         End{tail.to, tail.end_tangent(), tail.starts_at + tail.length}}) {
    const SolidPiece rim = rim_piece(end.centre, end.normal, ra);
    for (const SolidPiece& b : second) {
      if (best.distance_mm <= 0) return;
      const auto field = [&](const Vec3& at) { return b.solid_foot(rb, at); };
      if (field(end.centre).distance - ra >= best.distance_mm) continue;
      const search::Least least = search::least_along(rim, field, b.straight, best.distance_mm, 0);
      if (least.piece < 0) continue;
      const double along_b = b.starts_at + b.nearest_s(least.foot.at);
      const Vec3 on_rim = rim.point(least.s);
      if (swapped)
        offer(best, least.value, least.foot.at, on_rim, along_b, end.along);
      else
        offer(best, least.value, on_rim, least.foot.at, end.along, along_b);
    }
  }
}

// The exact distance of the flat-ended solids where it is below best.distance_mm; 0 or less: they meet. Two solids are
// nearest side to side, side to end disc, or rim to rim or disc.
void offer_flat(Separation& best, Pieces first, double ra, Pieces second, double rb) {
  offer_rims(best, first, ra, second, rb, false);
  offer_rims(best, second, rb, first, ra, true);
  for (const SolidPiece& a : first) {
    for (const SolidPiece& b : second) {
      if (best.distance_mm <= 0) return;
      if (certainly_beyond(a, b, best.distance_mm + ra + rb)) continue;
      offer_side(best, a, ra, b, rb, false);
      offer_side(best, b, rb, a, ra, true);
    }
  }
}

// Whether the line at this place is square to the line to `other`, which only fails at an end.
bool square_at(Pieces pieces, int index, double s, const Vec3& at, const Vec3& other) {
  const SolidPiece& piece = pieces[index];
  const double tolerance = 1e-9 * (1 + (other - at).norm());
  const double ahead = (other - at).dot(piece.tangent(s));
  if (index == 0 && s <= 1e-9 && ahead < -tolerance) return false;
  return !(index + 1 == static_cast<int>(pieces.size()) && s >= piece.length - 1e-9 && ahead > tolerance);
}

// Solids that have no more than this in common only touch.
constexpr double kTouch_mm = 1e-6;

bool at_an_end(Pieces pieces, int index, double s) {
  return (index == 0 && s <= kTouch_mm) ||
         (index + 1 == static_cast<int>(pieces.size()) && s >= pieces[index].length - kTouch_mm);
}

bool both_square(Pieces first, Pieces second, const Nearest& nearest) {
  return square_at(first, nearest.first, nearest.s_first, nearest.at_first, nearest.at_second) &&
         square_at(second, nearest.second, nearest.s_second, nearest.at_second, nearest.at_first);
}

Separation exact_below(double limit, Pieces first, double ra, Pieces second, double rb) {
  Separation exact;
  exact.distance_mm = std::max(limit, 1e-300);
  offer_flat(exact, first, ra, second, rb);
  return exact;
}

std::vector<SolidPiece> shrunk(Pieces pieces) {
  std::vector<SolidPiece> result(pieces.begin(), pieces.end());
  result.front() = result.front().part(kTouch_mm, kAnyDistance);
  result.back() = result.back().part(0, result.back().length - kTouch_mm);
  return result;
}

// Whether the first tube, made a trifle smaller, still meets the second.
bool overlaps(Pieces first_whole, double ra_whole, Pieces second, double rb) {
  const std::vector<SolidPiece> first = shrunk(first_whole);
  const double ra = std::max(0.0, ra_whole - kTouch_mm);
  const Nearest nearest = nearest_lines(first, second, ra + rb);
  if (nearest.first < 0) return false;
  return both_square(first, second, nearest) || exact_below(0, first, ra, second, rb).distance_mm <= 0;
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
  const bool end_to_line = nearest.value <= kTouch_mm && (at_an_end(first, nearest.first, nearest.s_first) ||
                                                          at_an_end(second, nearest.second, nearest.s_second));
  if (end_to_line || !both_square(first, second, nearest)) {
    Separation exact = exact_below(limit, first, ra, second, rb);
    if (exact.distance_mm >= limit && limit > 0) return std::nullopt;
    if (exact.distance_mm > 0) return exact;
    if (!overlaps(first, ra, second, rb)) {
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
