// The search behind every clearance: where along a straight or an arc a signed distance is least. Internal to geometry.
//
// A field gives, for a point, its Foot: the signed distance to some set and the set's nearest point. Branch and bound
// on arc length, best first; an interval's certified lower bound is the best of
//  - the distance changes no faster than the point moves;
//  - outside any set, half the squared distance less (M/2)s^2 is concave along the line (a least of functions
//    |c(s) - q|^2/2, each with a second derivative of at most M = 1 + curvature * reach), so it is above its chord;
//  - a convex set's signed distance is above its tangent planes at both ends;
//  - inside any set, the depth at s is at most |c(s) - q| for the surface points q found at the ends.
// All but the first close in with the square of the interval, so a few dozen evaluations do.
// Guarantees: no place is lower than the result by more than kCertain_mm (see kPatience for the exception; and rounding); the result is then closed in
// on to about 1e-10 mm.
#pragma once

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "geometry/distance/solid_piece.h"

namespace halfhard::search {

inline constexpr double kCertain_mm = 1e-6;
inline constexpr double kInfinite = std::numeric_limits<double>::infinity();

struct Sample {
  double s = 0;
  double value = 0;  // signed distance
  double slope = 0;  // (c - q).t: half the derivative of the squared distance, where that has one
  double rise = 0;   // the slope of the signed distance itself
  bool rise_known = true;
  double curvature = 0;  // of the line as the tangent plane at the foot sees it
  Foot foot;
};

template <class Field>
Sample sample(const SolidPiece& piece, const Field& field, double s) {
  const Vec3 at = piece.point(s);
  Sample result;
  result.s = s;
  result.foot = field(at);
  result.value = result.foot.distance;
  const Vec3 away = at - result.foot.at, along = piece.tangent(s);
  result.slope = away.dot(along);
  const bool near = std::abs(result.value) <= kOnSurface_mm;
  const Vec3 normal = near ? result.foot.outwards : Vec3(away / result.value);
  result.rise_known = !near || result.foot.outwards != Vec3::Zero();
  result.rise = normal.dot(along);
  if (!piece.straight) {
    // Only the part of the normal in the arc's plane sees it bend.
    const double up = normal.dot(piece.axis);
    result.curvature = piece.curvature() * std::sqrt(std::max(0.0, 1 - up * up));
  }
  return result;
}

inline double lower_bound_outside(const Sample& a, const Sample& b, double width, double curvature) {
  const double reach = (a.value + b.value + width) / 2 + width;
  const double m = 1 + curvature * reach;
  const double first = a.value * a.value / 2, second = b.value * b.value / 2;
  const double u = std::clamp(width / 2 - (second - first) / (m * width), 0.0, width);
  const double least = first + (second - first) * (u / width) - m / 2 * u * (width - u);
  return least > 0 ? std::sqrt(2 * least) : -kInfinite;
}

inline double lower_bound_convex(const Sample& a, const Sample& b, double width) {
  const double rise_a = a.rise_known ? a.rise : -1, rise_b = b.rise_known ? b.rise : 1;
  const double square = width * width / 2;
  if (rise_a >= 0) return std::min(a.value, a.value + rise_a * width - a.curvature * square);
  if (rise_b <= 0) return std::min(b.value, b.value - rise_b * width - b.curvature * square);
  const double u = std::clamp((b.value - rise_b * width - a.value) / (rise_a - rise_b), 0.0, width);
  return a.value + rise_a * u - std::max(a.curvature, b.curvature) * square;
}

inline double lower_bound_inside(const Sample& a, const Sample& b, double width, double curvature) {
  const double m = 1 + curvature * std::max(-a.value, -b.value);
  const auto from_a = [&](double u) { return a.value * a.value + 2 * a.slope * u + m * u * u; };
  const auto from_b = [&](double u) {
    const double v = width - u;
    return b.value * b.value - 2 * b.slope * v + m * v * v;
  };
  double most = std::max(std::min(from_a(0), from_b(0)), std::min(from_a(width), from_b(width)));
  const double difference = from_a(0) - from_b(0), change = 2 * (a.slope - b.slope + m * width);
  if (change != 0) {
    const double u = -difference / change;
    if (u > 0 && u < width) most = std::max(most, std::min(from_a(u), from_b(u)));
  }
  return -std::sqrt(std::max(0.0, most));
}

inline double lower_bound(const Sample& a, const Sample& b, double curvature, bool convex) {
  const double width = b.s - a.s;
  double bound = (a.value + b.value - width) / 2;
  if (width <= 0) return std::min(a.value, b.value);
  if (a.value > 0 && b.value > 0) bound = std::max(bound, lower_bound_outside(a, b, width, curvature));
  if (convex) bound = std::max(bound, lower_bound_convex(a, b, width));
  if (!convex && a.value < 0 && b.value < 0) bound = std::max(bound, lower_bound_inside(a, b, width, curvature));
  return bound;
}

// Where to cut an interval: where the slopes say that the least distance is, else in the middle.
inline double cut(const Sample& a, const Sample& b, bool convex) {
  const double width = b.s - a.s;
  if (a.slope < 0 && b.slope > 0 && a.value > 0 && b.value > 0) {
    return a.s + width * std::clamp(-a.slope / (b.slope - a.slope), 0.02, 0.98);
  }
  if (convex && a.value < 0 && b.value < 0) {
    // Where the two tangents meet: between two faces of a box that is the deepest place at once.
    if (a.rise_known && b.rise_known && a.rise < 0 && b.rise > 0) {
      const double u = (b.value - b.rise * width - a.value) / (a.rise - b.rise);
      return a.s + std::clamp(u, 0.02 * width, 0.98 * width);
    }
  }
  return a.s + width / 2;
}

struct Least {
  double value = kInfinite;
  int piece = -1;
  double s = 0;  // within the piece
  Foot foot;
};

struct Interval {
  double bound;
  int piece;
  Sample a, b;
};

// Tells the heap to keep the interval with the lowest bound on top.
inline bool later(const Interval& x, const Interval& y) { return x.bound > y.bound; }

// Rounding: differences below this cannot be told apart where the piece is.
inline double rounding(const SolidPiece& piece) { return 1e-10 + 2e-15 * piece.ball.cwiseAbs().maxCoeff(); }

// A line that runs exactly along a surface that is not convex leaves nothing certain but by going over all of it; after
// each so many cuts the search asks for less (1e-3 mm at the fifth).
inline constexpr int kPatience = 2048;

// Gives up at this width: nothing within it can be told apart.
inline constexpr double kNarrowest_mm = 1e-7;

// Closes in on the least place near a sample: outside by halving on the slope's sign, inside by golden section.
template <class Field>
void polish(Least& best, const SolidPiece& piece, const Field& field) {
  const double reach = 0.05;
  Sample a = sample(piece, field, std::max(0.0, best.s - reach));
  Sample b = sample(piece, field, std::min(piece.length, best.s + reach));
  const auto offer = [&](const Sample& at) {
    if (at.value < best.value) best = Least{at.value, best.piece, at.s, at.foot};
  };
  offer(a);
  offer(b);
  if (best.value > 0) {
    for (int i = 0; i < 40 && a.slope < 0 && b.slope > 0 && b.s - a.s > 1e-11; ++i) {
      const double share = std::clamp(-a.slope / (b.slope - a.slope), 0.01, 0.99);
      const Sample middle = sample(piece, field, a.s + (i % 3 == 2 ? 0.5 : share) * (b.s - a.s));
      offer(middle);
      if (middle.slope == 0) return;
      (middle.slope < 0 ? a : b) = middle;
    }
    return;
  }
  constexpr double kGolden = 0.6180339887498949;
  double low = a.s, high = b.s;
  Sample left = sample(piece, field, high - kGolden * (high - low));
  Sample right = sample(piece, field, low + kGolden * (high - low));
  for (int i = 0; i < 50; ++i) {
    offer(left);
    offer(right);
    if (left.value < right.value) {
      high = right.s;
      right = left;
      left = sample(piece, field, high - kGolden * (high - low));
    } else {
      low = left.s;
      left = right;
      right = sample(piece, field, low + kGolden * (high - low));
    }
  }
}

// The heaps of searches on this thread; a field may itself search, so each call takes one and gives it back.
class Heap {
 public:
  Heap() {
    if (!spare().empty()) {
      intervals = std::move(spare().back());
      spare().pop_back();
    }
    intervals.clear();
  }
  ~Heap() { spare().push_back(std::move(intervals)); }
  Heap(const Heap&) = delete;
  Heap& operator=(const Heap&) = delete;
  void push(const Interval& interval) {
    intervals.push_back(interval);
    std::push_heap(intervals.begin(), intervals.end(), later);
  }
  Interval pop() {
    std::pop_heap(intervals.begin(), intervals.end(), later);
    const Interval top = intervals.back();
    intervals.pop_back();
    return top;
  }
  std::vector<Interval> intervals;

 private:
  static std::vector<std::vector<Interval>>& spare() {
    thread_local std::vector<std::vector<Interval>> heaps;
    return heaps;
  }
};

// The least value over `count` pieces, get(i) each, below `limit`; `piece` is -1 where nothing is. convex(piece) says
// whether the field is a convex function along that piece's lines. A value of `enough` or less ends the search at once;
// `certain` is how much lower than the result a place may go unseen.
template <class GetPiece, class Field, class Convex>
Least least_along(int count, const GetPiece& get, const Field& field, const Convex& convex, double limit,
                  double enough = -kInfinite, double certain = kCertain_mm) {
  Least best;
  best.value = limit;
  double lowest_left = kInfinite;  // lowest bound among what was left out though it could be a little lower
  Heap heap;
  const auto offer = [&](int index, const Sample& at) {
    if (at.value < best.value) best = Least{at.value, index, at.s, at.foot};
  };
  const auto push = [&](int index, const Sample& a, const Sample& b) {
    const SolidPiece& piece = get(index);
    const double bound = lower_bound(a, b, piece.curvature(), convex(piece));
    if (bound < best.value - certain && b.s - a.s > kNarrowest_mm) {
      heap.push({bound, index, a, b});
    } else {
      lowest_left = std::min(lowest_left, bound);
    }
  };
  for (int i = 0; i < count; ++i) {
    const SolidPiece& piece = get(i);
    // A piece whose whole ball is too far needs no looking at.
    if (best.value < kInfinite && count > 1 && field(piece.ball).distance - piece.ball_radius >= best.value) continue;
    const Sample a = sample(piece, field, 0), b = sample(piece, field, piece.length);
    offer(i, a);
    offer(i, b);
    push(i, a, b);
  }
  int cuts = 0;
  while (!heap.intervals.empty() && best.value > enough) {
    if (++cuts % kPatience == 0) certain *= 4;
    const Interval interval = heap.pop();
    if (interval.bound >= best.value - certain) {
      lowest_left = std::min(lowest_left, interval.bound);
      break;
    }
    const Sample middle = sample(get(interval.piece), field, cut(interval.a, interval.b, convex(get(interval.piece))));
    offer(interval.piece, middle);
    push(interval.piece, interval.a, middle);
    push(interval.piece, middle, interval.b);
  }
  if (best.piece >= 0 && best.value > enough && lowest_left < best.value - rounding(get(best.piece))) {
    polish(best, get(best.piece), field);
  }
  return best;
}

// One piece.
template <class Field>
Least least_along(const SolidPiece& piece, const Field& field, bool convex, double limit, double enough = -kInfinite) {
  return least_along(
      1, [&piece](int) -> const SolidPiece& { return piece; }, field, [convex](const SolidPiece&) { return convex; },
      limit, enough);
}

// The least value among places where the line runs square to its own foot (the slope passes through 0 upwards) and
// that is below `limit`: where a tube's side, not its end, is nearest. Looked for down to kFinest_mm, then closed in
// on.
inline constexpr double kFinest_mm = 0.02;

template <class Field>
Least least_square(const SolidPiece& piece, const Field& field, bool convex, double limit) {
  Least best;
  best.value = limit;
  std::vector<std::pair<Sample, Sample>> stack;
  const auto offer = [&](const Sample& at) {
    if (at.value < best.value) best = Least{at.value, 0, at.s, at.foot};
  };
  const auto square = [&](const Sample& at) { return std::abs(at.slope) <= 1e-9 * (1 + std::abs(at.value)); };
  const Sample first = sample(piece, field, 0), last = sample(piece, field, piece.length);
  if (square(first)) offer(first);
  if (square(last)) offer(last);
  // The callers ask no more than whether solids meet: a place on the other solid says so.
  if (best.value <= 0) return best;
  if (piece.length > 0) stack.emplace_back(first, last);
  while (!stack.empty()) {
    auto [a, b] = stack.back();
    stack.pop_back();
    const double width = b.s - a.s;
    if (lower_bound(a, b, piece.curvature(), convex) >= best.value - kCertain_mm) continue;
    if (convex && a.value > 0 && b.value > 0) {
      // Beside a convex set the slope falls by no more than curvature * reach a millimetre (its foot moves no faster
      // than the point): too steep at an end to come to nothing within the interval.
      const double fall = piece.curvature() * ((a.value + b.value + width) / 2) * width;
      if (a.slope > fall || b.slope < -fall) continue;
      if (piece.straight && (a.slope >= 0 || b.slope <= 0)) continue;
    }
    if (width > kFinest_mm) {
      const Sample middle = sample(piece, field, a.s + width / 2);
      if (square(middle)) offer(middle);
      if (best.value <= 0) return best;
      stack.emplace_back(middle, b);
      stack.emplace_back(a, middle);
      continue;
    }
    if (!(a.slope < 0 && b.slope > 0)) continue;
    for (int i = 0; i < 60 && b.s - a.s > 1e-11; ++i) {
      const Sample middle = sample(piece, field, (a.s + b.s) / 2);
      (middle.slope < 0 ? a : b) = middle;
    }
    offer(a);
    offer(b);
  }
  return best;
}

}  // namespace halfhard::search
