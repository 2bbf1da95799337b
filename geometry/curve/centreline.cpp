#include "geometry/curve/centreline.h"

#include <algorithm>
#include <cmath>

#include "geometry/base/require.h"
#include "geometry/base/tolerances.h"

namespace halfhard {

Vec3 Arc::point(double angle_rad) const {
  return centre + radius * (std::cos(angle_rad) * outwards + std::sin(angle_rad) * along);
}

Vec3 Arc::direction(double angle_rad) const { return std::cos(angle_rad) * along - std::sin(angle_rad) * outwards; }

Angle angle_between(const Vec3& a, const Vec3& b) {
  // atan2 keeps its precision at 0, 90 and 180 degrees, where acos loses half the digits.
  return Angle::radians(std::atan2(a.cross(b).norm(), a.dot(b)));
}

Angle turn(const Vec3& before, const Vec3& at, const Vec3& after) { return angle_between(at - before, after - at); }

Straightened without_straight_intersections(std::vector<Vec3> points) {
  Straightened result;
  for (int i = 0; i < static_cast<int>(points.size()); ++i) {
    const bool interior = i > 0 && i + 1 < static_cast<int>(points.size());
    // Measured from the last point kept, so that a row of tiny turns cannot add up unseen.
    if (interior && turn(result.points.back(), points[i], points[i + 1]).degrees() < kSameDirection_deg) {
      result.dropped.push_back(i);
    } else {
      result.points.push_back(points[i]);
    }
  }
  return result;
}

std::vector<double> shortage_mm(const std::vector<Vec3>& points, double radius_mm) {
  const int legs = static_cast<int>(points.size()) - 1;
  std::vector<double> setback(legs + 1, 0.0);
  for (int i = 1; i < legs; ++i) setback[i] = radius_mm * turn(points[i - 1], points[i], points[i + 1]).tan_of_half();
  std::vector<double> lacking(legs);
  for (int leg = 0; leg < legs; ++leg) {
    const double straight = (points[leg + 1] - points[leg]).norm() - setback[leg] - setback[leg + 1];
    lacking[leg] = std::max(0.0, -straight);
  }
  return lacking;
}

CentreLine CentreLine::through(std::vector<Vec3> points, double radius_mm) {
  HALFHARD_REQUIRE(points.size() >= 2);
  CentreLine line;
  line.points_ = std::move(points);
  line.radius_ = radius_mm;
  const auto& p = line.points_;
  double s = 0;
  double setback_before = 0;
  for (int leg = 0; leg < line.leg_count(); ++leg) {
    const bool bends_after = leg + 1 < line.leg_count();
    const double leg_length = (p[leg + 1] - p[leg]).norm();
    HALFHARD_REQUIRE(leg_length > 0);
    const Vec3 direction = (p[leg + 1] - p[leg]) / leg_length;
    Angle angle;
    double setback = 0;
    if (bends_after) {
      angle = turn(p[leg], p[leg + 1], p[leg + 2]);
      HALFHARD_REQUIRE(angle.degrees() >= kSameDirection_deg && angle.degrees() < 180);
      setback = radius_mm * angle.tan_of_half();
    }
    const double straight = leg_length - setback_before - setback;
    HALFHARD_REQUIRE(straight >= -kStraightSlack_mm * 1.5);
    const Vec3 from = p[leg] + setback_before * direction;
    const Vec3 until = p[leg + 1] - setback * direction;
    if (straight > kNoStraight_mm) {
      line.pieces_.push_back({Straight{from, until}, s, straight, leg, leg});
      s += straight;
    }
    if (bends_after) {
      const Vec3 next = (p[leg + 2] - p[leg + 1]).normalized();
      const Vec3 axis = direction.cross(next).normalized();
      const Vec3 inwards = axis.cross(direction);
      const double arc = radius_mm * angle.radians();
      line.pieces_.push_back(
          {Arc{until + radius_mm * inwards, -inwards, direction, radius_mm, angle}, s, arc, leg, leg + 1});
      s += arc;
    }
    setback_before = setback;
  }
  line.length_ = s;
  return line;
}

Vec3 CentreLine::leg_direction(int leg) const { return (points_[leg + 1] - points_[leg]).normalized(); }

double CentreLine::leg_length_mm(int leg) const { return (points_[leg + 1] - points_[leg]).norm(); }

Angle CentreLine::bend_angle(int bend) const { return turn(points_[bend], points_[bend + 1], points_[bend + 2]); }

double CentreLine::straight_mm(int leg) const {
  double straight = leg_length_mm(leg);
  if (leg > 0) straight -= radius_ * bend_angle(leg - 1).tan_of_half();
  if (leg + 1 < leg_count()) straight -= radius_ * bend_angle(leg).tan_of_half();
  return straight > kNoStraight_mm ? straight : 0.0;
}

const Piece& CentreLine::piece_at(double s_mm) const {
  const auto after = std::upper_bound(pieces_.begin(), pieces_.end(), s_mm,
                                      [](double s, const Piece& piece) { return s < piece.starts_at_mm; });
  return after == pieces_.begin() ? *after : *(after - 1);
}

Vec3 CentreLine::point_at(double s_mm) const {
  const double s = std::clamp(s_mm, 0.0, length_);
  const Piece& piece = piece_at(s);
  const double into = s - piece.starts_at_mm;
  if (const auto* straight = std::get_if<Straight>(&piece.shape)) {
    return straight->from + (straight->to - straight->from) * (into / piece.length_mm);
  }
  const Arc& arc = std::get<Arc>(piece.shape);
  return arc.point(into / arc.radius);
}

Vec3 CentreLine::direction_at(double s_mm) const {
  const double s = std::clamp(s_mm, 0.0, length_);
  const Piece& piece = piece_at(s);
  if (const auto* straight = std::get_if<Straight>(&piece.shape)) return (straight->to - straight->from).normalized();
  const Arc& arc = std::get<Arc>(piece.shape);
  return arc.direction((s - piece.starts_at_mm) / arc.radius);
}

CentreLine CentreLine::moved(const Vec3& shift_mm) const {
  CentreLine line = *this;
  for (Vec3& point : line.points_) point += shift_mm;
  for (Piece& piece : line.pieces_) {
    if (auto* straight = std::get_if<Straight>(&piece.shape)) {
      straight->from += shift_mm;
      straight->to += shift_mm;
    } else {
      std::get<Arc>(piece.shape).centre += shift_mm;
    }
  }
  return line;
}

}  // namespace halfhard
