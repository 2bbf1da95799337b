#include "exporters/bench/shortened_piece.h"

#include <algorithm>
#include <limits>

namespace halfhard {
namespace {

constexpr double kWorthCutting = 1.3;

// The nearest place of the centre line, along it. Bends by their ends and middle: near enough to tell cuts apart, which
// lie on straights.
double nearest_along(const CentreLine& line, const Vec3& place) {
  double best = std::numeric_limits<double>::infinity(), along = 0;
  const auto offer = [&](const Vec3& at, double s) {
    const double apart = (at - place).squaredNorm();
    if (apart < best) {
      best = apart;
      along = s;
    }
  };
  for (const Piece& piece : line.pieces()) {
    if (const auto* straight = std::get_if<Straight>(&piece.shape)) {
      const Vec3 way = straight->to - straight->from;
      const double share = std::clamp((place - straight->from).dot(way) / way.squaredNorm(), 0.0, 1.0);
      offer(straight->from + share * way, piece.starts_at_mm + share * piece.length_mm);
    } else {
      for (const double share : {0.0, 0.5, 1.0}) {
        const double s = piece.starts_at_mm + share * piece.length_mm;
        offer(line.point_at(s), s);
      }
    }
  }
  return along;
}

}  // namespace

ShortenedPiece::ShortenedPiece(const FormedPiece& piece, double keep_mm)
    : whole_(piece.line), hook_at_mm_(piece.hook_at_mm) {
  for (const Piece& part : whole_.pieces()) {
    if (!std::holds_alternative<Straight>(part.shape)) continue;
    const double from = part.starts_at_mm, until = from + part.length_mm;
    if (hook_at_mm_ > from && hook_at_mm_ < until) {
      cut(from, hook_at_mm_, keep_mm);
      cut(hook_at_mm_, until, keep_mm);
    } else {
      cut(from, until, keep_mm);
    }
  }
  std::vector<Vec3> points = whole_.points();
  points.front() += shift(0);
  points.back() += shift(whole_.length_mm());
  int at = 1;
  for (const Piece& part : whole_.pieces()) {
    if (std::holds_alternative<Arc>(part.shape)) points[at++] += shift(part.starts_at_mm + part.length_mm / 2);
  }
  line_ = CentreLine::through(std::move(points), whole_.radius_mm());
}

void ShortenedPiece::cut(double from_mm, double until_mm, double keep_mm) {
  const double length = until_mm - from_mm;
  if (length <= kWorthCutting * keep_mm) return;
  const bool starts = from_mm <= 0, ends = until_mm >= whole_.length_mm() - 1e-9;
  const double at = starts ? from_mm : ends ? until_mm : (from_mm + until_mm) / 2;
  cuts_.push_back({at, length - keep_mm, whole_.direction_at((from_mm + until_mm) / 2), from_mm, until_mm});
}

Vec3 ShortenedPiece::shift(double s_mm) const {
  Vec3 sum = Vec3::Zero();
  for (const Cut& cut : cuts_) {
    if (cut.at_mm > hook_at_mm_ && s_mm >= cut.at_mm) sum -= cut.removed_mm * cut.along;
    if (cut.at_mm < hook_at_mm_ && s_mm <= cut.at_mm) sum += cut.removed_mm * cut.along;
  }
  return sum;
}

Vec3 ShortenedPiece::moved(const Vec3& place) const {
  const double s = nearest_along(whole_, place);
  Vec3 sum = Vec3::Zero();
  for (const Cut& cut : cuts_) {
    const double removed = cut.removed_before(s);
    if (cut.at_mm > hook_at_mm_) sum -= removed * cut.along;
    if (cut.at_mm < hook_at_mm_) sum += (cut.removed_mm - removed) * cut.along;
  }
  return place + sum;
}

double ShortenedPiece::Cut::removed_before(double s_mm) const {
  constexpr double kUntouched = 0.9;  // of what is left
  const double left = until_mm - from_mm - removed_mm;
  const bool at_start = at_mm <= from_mm, at_end = at_mm >= until_mm;
  const double first = at_start ? 0 : (at_end ? kUntouched : kUntouched / 2) * left;
  const double last = at_end ? 0 : (at_start ? kUntouched : kUntouched / 2) * left;
  const double begin = from_mm + first, end = until_mm - last;
  return removed_mm * std::clamp((s_mm - begin) / (end - begin), 0.0, 1.0);
}

double ShortenedPiece::moved_along(double s_mm) const {
  double removed = 0;
  for (const Cut& cut : cuts_) {
    if (cut.at_mm < s_mm) removed += cut.removed_mm;
  }
  return s_mm - removed;
}

std::vector<ShortenedPiece::Break> ShortenedPiece::breaks() const {
  std::vector<Break> found;
  for (const Cut& cut : cuts_) {
    const bool end = cut.at_mm <= 0 || cut.at_mm >= whole_.length_mm() - 1e-9;
    Vec3 at = whole_.point_at(cut.at_mm) + shift(cut.at_mm);
    // What is left of a straight cut in its middle: half a keep on either side of this.
    if (!end) at += (cut.at_mm > hook_at_mm_ ? 0.5 : -0.5) * cut.removed_mm * cut.along;
    found.push_back({at, cut.along, end});
  }
  return found;
}

}  // namespace halfhard
