#include "geometry/bending/check_dimension.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include "geometry/base/require.h"
#include "geometry/base/tolerances.h"
#include "geometry/bending/forming.h"

namespace halfhard {
namespace {

// A bend and its neighbourhood in the piece just after it.
struct Scene {
  const FormedPiece& piece;
  int at;  // index into piece.bends of the bend just made
  double outside_radius_mm;

  const CentreLine& line() const { return piece.line; }
  int number(int index) const { return piece.bends[index]; }
  bool has(int index) const { return index >= 0 && index < static_cast<int>(piece.bends.size()); }
};

// Legs by the bends that they lie between.
std::string leg_name(const Scene& scene, int leg) {
  if (!scene.has(leg - 1)) return "the start end's leg";
  if (!scene.has(leg)) return "the far end's leg";
  return "the leg between bends " + std::to_string(scene.number(leg - 1)) + " and " + std::to_string(scene.number(leg));
}

double same_direction_rad() { return Angle::degrees(kSameDirection_deg).radians(); }

// Case 1: the legs on either side of this bend and its neighbour are parallel.
std::optional<LocatedCheck> over_parallel_legs(const Scene& scene, int neighbour) {
  if (!scene.has(neighbour)) return std::nullopt;
  const CentreLine& line = scene.line();
  const int middle = std::max(scene.at, neighbour);  // the leg between the two bends
  const Vec3 along = line.leg_direction(middle - 1);
  if (along.cross(line.leg_direction(middle + 1)).norm() > same_direction_rad()) return std::nullopt;
  const Vec3 between = line.points()[middle + 1] - line.points()[middle];
  const Vec3 across = between - between.dot(along) * along;
  const bool first_is_longer = line.leg_length_mm(middle - 1) >= line.leg_length_mm(middle + 1);
  const int edge = first_is_longer ? middle - 1 : middle + 1, other = first_is_longer ? middle + 1 : middle - 1;
  // Taped at the far end of the shorter leg, or where its next bend begins.
  const Vec3 far = first_is_longer ? line.points()[other + 1] : line.points()[other];
  const Vec3 near = first_is_longer ? line.points()[other] : line.points()[other + 1];
  const Vec3 outwards = (first_is_longer ? across : Vec3(-across)).normalized();
  const Vec3 at = near + 0.9 * (far - near);
  const bool overlap = along.dot(line.leg_direction(middle + 1)) < 0;
  const std::string text = overlap
                               ? "over both outsides of " + leg_name(scene, edge) + " and " + leg_name(scene, other) +
                                     ", square across; the same near the bends and at the far end of the shorter leg"
                               : "over both outsides: from a straight edge laid along the outside of " +
                                     leg_name(scene, edge) + ", square across to the outside of " +
                                     leg_name(scene, other) + "; the same near its bend and at its far end";
  LocatedCheck found;
  found.check = {text, across.norm() + 2 * scene.outside_radius_mm, 0};
  found.edge_along = along;
  found.kind = CheckKind::outsides;
  const int far_point = first_is_longer ? other + 1 : other;
  found.reading = [edge, far_point, radius = scene.outside_radius_mm](const FormedPiece& piece) {
    const Vec3 way = piece.line.leg_direction(edge), off = piece.line.points()[far_point] - piece.line.points()[edge];
    return (off - off.dot(way) * way).norm() + 2 * radius;
  };
  found.from = at - (across.norm() + scene.outside_radius_mm) * outwards;
  found.to = at + scene.outside_radius_mm * outwards;
  const Vec3 bend_end = first_is_longer ? line.points()[middle] : line.points()[middle + 1];
  found.edge = bend_end - scene.outside_radius_mm * outwards;
  return found;
}

bool is_square(const Scene& scene, int index) {
  return std::abs(scene.line().bend_angle(index).degrees() - 90) <= kSameDirection_deg;
}

// Case 2, on one side of a 90: `leg` is the one that the tape lies along.
std::optional<LocatedCheck> along_leg(const Scene& scene, int leg) {
  const CentreLine& line = scene.line();
  const bool before = leg == scene.at;                     // the leg comes before the 90
  const int other = before ? scene.at - 1 : scene.at + 1;  // the bend at the leg's other end
  const int target = before ? scene.at + 1 : scene.at;     // the leg on the far side of the 90
  const double radius = scene.outside_radius_mm;
  const Vec3 towards = before ? line.leg_direction(leg) : Vec3(-line.leg_direction(leg));
  LocatedCheck found;
  found.from = before ? line.points()[leg] : line.points()[leg + 1];
  found.to = (before ? line.points()[leg + 1] : line.points()[leg]) + radius * towards;
  found.aside = before ? Vec3(-line.leg_direction(target)) : line.leg_direction(target);
  const std::string to = " to the outside of " + leg_name(scene, target);
  if (!scene.has(other)) {
    found.check.text = std::string("from ") + (leg == 0 ? "the start end" : "the far end") + ", along its leg," + to;
  } else if (is_square(scene, other)) {
    found.from -= radius * towards;
    found.check.text =
        "along " + leg_name(scene, leg) + ", from the outside of " + leg_name(scene, before ? leg - 1 : leg + 1) + to;
  } else {
    return std::nullopt;
  }
  found.check.mm = (found.to - found.from).norm();
  found.kind = CheckKind::along;
  const double at_other = scene.has(other) ? radius : 0;
  found.reading = [leg, at = scene.at, at_other, radius](const FormedPiece& piece) {
    return piece.line.leg_length_mm(leg) + at_other + radius / piece.line.bend_angle(at).sin();
  };
  return found;
}

// A place that a tape can touch, on one side of the bend.
struct Place {
  std::string text;
  Vec3 at;
  double along_mm;  // on the centre line
  int bend;         // whose back it is, as an index; -1 an end face
  bool datum;       // on which side of the bend just made
};

Place end_face(const Scene& scene, bool datum) {
  if (datum) return {"the middle of the start end", scene.line().points().front(), 0, -1, true};
  return {"the middle of the far end", scene.line().points().back(), scene.line().length_mm(), -1, false};
}

const Arc& arc_of(const Scene& scene, int index, double* starts_at_mm = nullptr) {
  int seen = 0;
  for (const Piece& piece : scene.line().pieces()) {
    const auto* arc = std::get_if<Arc>(&piece.shape);
    if (arc == nullptr || seen++ != index) continue;
    if (starts_at_mm != nullptr) *starts_at_mm = piece.starts_at_mm;
    return *arc;
  }
  HALFHARD_REQUIRE(false);
}

Place back_of_bend(const Scene& scene, int index) {
  double starts_at = 0;
  const Arc& arc = arc_of(scene, index, &starts_at);
  const double half = arc.sweep.radians() / 2;
  const Vec3 outwards = (arc.point(half) - arc.centre).normalized();
  return {"the middle of the back of bend " + std::to_string(scene.number(index)),
          arc.point(half) + scene.outside_radius_mm * outwards, starts_at + arc.radius * half, index, index < scene.at};
}

Place same_place(const Scene& scene, const Place& place) {
  return place.bend < 0 ? end_face(scene, place.datum) : back_of_bend(scene, place.bend);
}

LocatedCheck between(const Scene& scene, const Place& from, const Place& to) {
  LocatedCheck found;
  found.check = {"straight from " + from.text + " to " + to.text, (to.at - from.at).norm(), 0};
  found.from = from.at;
  found.to = to.at;
  found.reading = [at = scene.at, radius = scene.outside_radius_mm, from, to](const FormedPiece& piece) {
    const Scene other{piece, at, radius};
    return (same_place(other, to).at - same_place(other, from).at).norm();
  };
  return found;
}

// The end face first, then the bends from the nearest on.
std::vector<Place> places(const Scene& scene, bool datum) {
  std::vector<Place> found = {end_face(scene, datum)};
  const int step = datum ? -1 : 1;
  for (int index = scene.at + step; scene.has(index); index += step) found.push_back(back_of_bend(scene, index));
  return found;
}

// The least distance between two segments: clamp one parameter, then the other.
double segments_apart(const Vec3& p, const Vec3& p_way, const Vec3& q, const Vec3& q_way) {
  const Vec3 between = p - q;
  const double a = p_way.squaredNorm(), e = q_way.squaredNorm(), f = q_way.dot(between);
  const double b = p_way.dot(q_way), c = p_way.dot(between), denominator = a * e - b * b;
  double s = denominator > 1e-12 * a * e ? std::clamp((b * f - c * e) / denominator, 0.0, 1.0) : 0;
  double t = (b * s + f) / e;
  if (t < 0 || t > 1) {
    t = std::clamp(t, 0.0, 1.0);
    s = std::clamp((t * b - c) / a, 0.0, 1.0);
  }
  return (between + s * p_way - t * q_way).norm();
}

// Does this stretch of the tube stand in the way? Bends as chords of at most 10 degrees: 0.4 % of their radius off, and
// only a choice hangs on it.
bool stretch_bars(const Piece& piece, double from_mm, double until_mm, const Vec3& start, const Vec3& way,
                  double radius) {
  if (const auto* straight = std::get_if<Straight>(&piece.shape)) {
    const Vec3 along = (straight->to - straight->from) / piece.length_mm;
    const Vec3 first = straight->from + from_mm * along;
    return segments_apart(start, way, first, (until_mm - from_mm) * along) < radius;
  }
  const Arc& arc = std::get<Arc>(piece.shape);
  const double nearest = std::clamp((arc.centre - start).dot(way) / way.squaredNorm(), 0.0, 1.0);
  if ((arc.centre - start - nearest * way).norm() > arc.radius + radius) return false;
  const double begin = from_mm / arc.radius, sweep = (until_mm - from_mm) / arc.radius;
  const int chords = 1 + static_cast<int>(sweep / Angle::degrees(10).radians());
  Vec3 at = arc.point(begin);
  for (int i = 1; i <= chords; ++i) {
    const Vec3 next = arc.point(begin + sweep * i / chords);
    if (segments_apart(start, way, at, next - at) < radius) return true;
    at = next;
  }
  return false;
}

// Does the tube itself stand in the tape's way, away from the two places? `from` lies before `to` along the tube.
bool tube_bars(const Scene& scene, const Place& from, const Place& to) {
  const Vec3 way = to.at - from.at;
  const double radius = scene.outside_radius_mm, near = 4 * radius;
  if (way.norm() < 1e-9) return true;
  const std::pair<double, double> windows[] = {{0, from.along_mm - near},
                                               {from.along_mm + near, to.along_mm - near},
                                               {to.along_mm + near, scene.line().length_mm()}};
  for (const Piece& piece : scene.line().pieces()) {
    for (const auto& [begin, end] : windows) {
      const double from_mm = std::max(begin - piece.starts_at_mm, 0.0);
      const double until_mm = std::min(end - piece.starts_at_mm, piece.length_mm);
      if (until_mm - from_mm > 1e-9 && stretch_bars(piece, from_mm, until_mm, from.at, way, radius)) return true;
    }
  }
  return false;
}

// How far the dimension moves, to first order, for a degree too many and for a mark a millimetre out. The curve starts
// at the hook; what is beyond its other end turns about that end, or shifts by the difference of the two directions.
struct Moves {
  double per_degree_mm, per_mark_mm;
};

Moves moves(const Scene& scene, const Place& from, const Place& to) {
  const Arc& arc = arc_of(scene, scene.at);
  const double sweep = arc.sweep.radians();
  const bool datum = scene.piece.hook == End::datum;
  const Vec3 pivot = datum ? arc.point(sweep) : arc.point(0);
  const Vec3 swung = datum ? to.at : from.at;
  const Vec3 way = (to.at - from.at).normalized();
  return {std::abs(way.dot(arc.axis().cross(swung - pivot))) * Angle::degrees(1).radians(),
          std::abs(way.dot(arc.direction(sweep) - arc.along))};
}

// Case 3. The two end faces where they tell enough of the angle; else the best of the places, the angle before the
// mark.
LocatedCheck straight_across(const Scene& scene) {
  constexpr double kTellsEnough_mm = 0.75;  // per degree: a tape read to the millimetre shows two degrees
  constexpr double kTellsNoMore_mm = 2.0;   // beyond this per degree, what the mark moves decides
  constexpr double kBarred = 100;
  double best = -std::numeric_limits<double>::infinity();
  std::optional<LocatedCheck> chosen;
  for (const Place& from : places(scene, true)) {
    for (const Place& to : places(scene, false)) {
      const Moves by = moves(scene, from, to);
      double score = std::min(by.per_degree_mm, kTellsNoMore_mm) + by.per_mark_mm / 10;
      if (score <= best) continue;
      // A barred line is still a true dimension: taken only where there is nothing else.
      const bool barred = tube_bars(scene, from, to);
      if (barred) score -= kBarred;
      if (score > best) {
        best = score;
        chosen = between(scene, from, to);
      }
      const bool end_faces = from.along_mm == 0 && to.along_mm == scene.line().length_mm();
      if (end_faces && !barred && by.per_degree_mm >= kTellsEnough_mm) return *chosen;
    }
  }
  return *chosen;
}

LocatedCheck choose(const Scene& scene, End hook) {
  for (const int neighbour : {scene.at - 1, scene.at + 1}) {
    if (const auto check = over_parallel_legs(scene, neighbour)) return *check;
  }
  if (is_square(scene, scene.at)) {
    // The hook side first: its leg is the one that the mark was laid on.
    const bool datum = hook == End::datum;
    for (const int leg : {datum ? scene.at : scene.at + 1, datum ? scene.at + 1 : scene.at}) {
      if (const auto check = along_leg(scene, leg)) return *check;
    }
  }
  return straight_across(scene);
}

}  // namespace

LocatedCheck located_check(const Run& run, int number, double tolerance_mm) {
  HALFHARD_REQUIRE(number >= 1 && number <= static_cast<int>(run.bends.size()));
  const Bend& bend = run.bends[number - 1];
  const FormedPiece piece = after_bend(run, bend.made);
  const Scene scene{piece, piece.intersection_of(number) - 1, run.tube->outside_radius_mm()};
  LocatedCheck found = choose(scene, bend.hook);
  found.check.tolerance_mm = tolerance_mm;
  return found;
}

CheckDimension check_dimension(const Run& run, int number, double tolerance_mm) {
  return located_check(run, number, tolerance_mm).check;
}

LocatedCheck straight_check(const Run& run, int number, bool of_turn) {
  const Bend& bend = run.bends[number - 1];
  const FormedPiece piece = after_bend(run, bend.made);
  const Scene scene{piece, piece.intersection_of(number) - 1, run.tube->outside_radius_mm()};
  if (!of_turn) return straight_across(scene);
  constexpr Angle kALittle = Angle::degrees(0.01);
  const FormedPiece turned = formed_piece(run, bend.made, bend.angle, kALittle);
  std::optional<LocatedCheck> chosen;
  double best = -1;
  for (const Place& from : places(scene, true)) {
    for (const Place& to : places(scene, false)) {
      const LocatedCheck check = between(scene, from, to);
      const double moves = std::abs(check.reading(turned) - check.check.mm);
      if (moves <= best || (chosen && tube_bars(scene, from, to))) continue;
      best = moves;
      chosen = check;
    }
  }
  return *chosen;
}

}  // namespace halfhard
