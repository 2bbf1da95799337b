// The centre line of a bent tube: straights joined by circular arcs, each arc tangent to both its neighbours.
// Site frame, mm. Exact: pieces are analytic, no chords.
#pragma once

#include <variant>
#include <vector>

#include "geometry/base/angle.h"
#include "geometry/base/vec.h"

namespace halfhard {

struct Straight {
  Vec3 from, to;
};

// point(a) = centre + radius * (cos a * outwards + sin a * along), 0 <= a <= sweep.
struct Arc {
  Vec3 centre;
  Vec3 outwards;  // unit, from the centre to the arc's start
  Vec3 along;     // unit, the direction of travel at the start
  double radius = 0;
  Angle sweep;

  Vec3 axis() const { return outwards.cross(along); }  // unit; the bend is right-handed about it
  Vec3 point(double angle_rad) const;
  Vec3 direction(double angle_rad) const;  // of travel
};

struct Piece {
  std::variant<Straight, Arc> shape;
  double starts_at_mm = 0;  // along the centre line
  double length_mm = 0;
  int first_leg = 0;  // 0-based; a straight belongs to one leg, a bend to two
  int last_leg = 0;
};

class CentreLine {
 public:
  CentreLine() = default;

  // From the start, the intersections and the end, with one radius for every bend.
  // Requires (asserted): at least two points, no two neighbours in one place, every turn from kSameDirection_deg to
  // below 180 degrees, straights no shorter than -kStraightSlack_mm: see `shortage` for how to ask first.
  static CentreLine through(std::vector<Vec3> points, double radius_mm);

  const std::vector<Vec3>& points() const { return points_; }
  const std::vector<Piece>& pieces() const { return pieces_; }  // zero-length straights left out
  double radius_mm() const { return radius_; }
  double length_mm() const { return length_; }
  int bend_count() const { return static_cast<int>(points_.size()) - 2; }
  int leg_count() const { return static_cast<int>(points_.size()) - 1; }

  // Unit direction of travel of a leg, 0-based.
  Vec3 leg_direction(int leg) const;
  // Intersection to intersection.
  double leg_length_mm(int leg) const;
  // What is left of a leg between its bends; never below 0.
  double straight_mm(int leg) const;
  Angle bend_angle(int bend) const;  // 0-based

  // 0 <= s <= length_mm(), clamped.
  Vec3 point_at(double s_mm) const;
  Vec3 direction_at(double s_mm) const;

  CentreLine moved(const Vec3& shift_mm) const;

 private:
  const Piece& piece_at(double s_mm) const;

  std::vector<Vec3> points_;
  std::vector<Piece> pieces_;
  double radius_ = 0;
  double length_ = 0;
};

// The angle that the line turns by at `at`.
Angle turn(const Vec3& before, const Vec3& at, const Vec3& after);
Angle angle_between(const Vec3& a, const Vec3& b);

// Drops the intersections where the line turns by less than kSameDirection_deg; returns the indices dropped.
struct Straightened {
  std::vector<Vec3> points;
  std::vector<int> dropped;
};
Straightened without_straight_intersections(std::vector<Vec3> points);

// How much each leg lacks for its tangents (0 where it has enough), one a leg.
std::vector<double> shortage_mm(const std::vector<Vec3>& points, double radius_mm);

}  // namespace halfhard
