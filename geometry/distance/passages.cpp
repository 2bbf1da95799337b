#include "geometry/distance/passages.h"

#include <cmath>

namespace halfhard {
namespace {

constexpr double kFinest_mm = 0.01;
constexpr double kOnFace_mm = 1e-6;

// The changes between outside and inside, in order, found by halving only where the distance allows one.
class Crossings {
 public:
  Crossings(const CentreLine& line, const Obstacle& body) : line_(line), body_(body) {
    const double length = line.length_mm();
    // Cut first at the pieces' own ends: a straight or an arc turns less in between.
    double before = 0, at_before = depth(0);
    for (const Piece& piece : line.pieces()) {
      const double after = std::min(length, piece.starts_at_mm + piece.length_mm);
      const double at_after = depth(after);
      look(before, at_before, after, at_after);
      before = after;
      at_before = at_after;
    }
  }
  std::vector<double> places;

 private:
  // Signed distance, the face itself counting as outside.
  double depth(double s) const { return body_.signed_distance(line_.point_at(s)); }
  static bool inside(double value) { return value < 0; }

  void look(double a, double at_a, double b, double at_b) {
    const double width = b - a;
    if (inside(at_a) == inside(at_b) && std::abs(at_a + at_b) > width) return;
    if (width <= kFinest_mm) {
      if (inside(at_a) != inside(at_b)) places.push_back(root(a, at_a, b));
      return;
    }
    const double middle = (a + b) / 2, at_middle = depth(middle);
    look(a, at_a, middle, at_middle);
    look(middle, at_middle, b, at_b);
  }
  double root(double a, double at_a, double b) const {
    for (int i = 0; i < 60 && b - a > 1e-11; ++i) {
      const double middle = (a + b) / 2;
      (inside(depth(middle)) == inside(at_a) ? a : b) = middle;
    }
    return (a + b) / 2;
  }

  const CentreLine& line_;
  const Obstacle& body_;
};

double bow_of(const CentreLine& line, const Passage& passage) {
  constexpr int kLooks = 48;
  double bow = 0;
  for (int i = 1; i < kLooks; ++i) {
    const Vec3 off = line.point_at(passage.in_mm + (passage.out_mm - passage.in_mm) * i / kLooks) - passage.in;
    bow = std::max(bow, (off - off.dot(passage.direction) * passage.direction).norm());
  }
  return bow;
}

// Where the line has left the hole that it comes out of at `face_mm`, going `way` (1 or -1) along it, not beyond `end_mm`.
double left_at(const CentreLine& line, const Obstacle& body, double face_mm, double way, double end_mm,
               double clear_mm) {
  constexpr double kStep_mm = 0.25, kGrows = 1e-6;  // mm a mm
  double at = face_mm, depth = 0;
  while (way * (end_mm - at) > 0) {
    const double next = way > 0 ? std::min(at + kStep_mm, end_mm) : std::max(at - kStep_mm, end_mm);
    const double there = body.signed_distance(line.point_at(next));
    if (there <= depth + kGrows * std::abs(next - at)) return at;
    at = next;
    depth = there;
    if (depth >= clear_mm) return at;
  }
  return end_mm;
}

}  // namespace

std::vector<LineStretch> beside_passages(const CentreLine& line, const Obstacle& body,
                                         const std::vector<Passage>& passages, double clear_mm) {
  std::vector<LineStretch> stretches;
  for (std::size_t i = 0; i <= passages.size(); ++i) {
    const double begin = i == 0 ? 0 : passages[i - 1].out_mm;
    const double end = i == passages.size() ? line.length_mm() : passages[i].in_mm;
    const double from = i == 0 ? begin : left_at(line, body, begin, 1, end, clear_mm);
    const double until = i == passages.size() ? end : left_at(line, body, end, -1, begin, clear_mm);
    if (until > from) stretches.push_back({from, until});
  }
  return stretches;
}

std::vector<Passage> passages(const CentreLine& line, const Obstacle& body) {
  if (body.bounds().empty() || line.pieces().empty()) return {};
  const double length = line.length_mm();
  std::vector<double> places = Crossings(line, body).places;
  const bool starts_inside = body.signed_distance(line.point_at(0)) < 0;
  if (starts_inside) places.insert(places.begin(), 0.0);
  if (places.size() % 2 == 1) places.push_back(length);
  std::vector<Passage> result;
  for (std::size_t i = 0; i + 1 < places.size(); i += 2) {
    Passage passage;
    passage.in_mm = places[i];
    passage.out_mm = places[i + 1];
    passage.in = line.point_at(passage.in_mm);
    passage.out = line.point_at(passage.out_mm);
    const Vec3 way = passage.out - passage.in;
    passage.direction = way.norm() > kFinest_mm ? Vec3(way.normalized()) : line.direction_at(passage.in_mm);
    passage.bow_mm = bow_of(line, passage);
    passage.begins_inside = passage.in_mm <= kOnFace_mm && body.signed_distance(line.point_at(0)) <= kOnFace_mm;
    passage.ends_inside =
        passage.out_mm >= length - kOnFace_mm && body.signed_distance(line.point_at(length)) <= kOnFace_mm;
    result.push_back(passage);
  }
  return result;
}

}  // namespace halfhard
