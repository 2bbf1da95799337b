#include "geometry/distance/solid_piece.h"

#include <cmath>
#include <numbers>

namespace halfhard {
namespace {

void set_ball(SolidPiece& piece) {
  piece.ball = piece.straight ? Vec3((piece.from + piece.to) / 2) : piece.point(piece.length / 2);
  if (!piece.straight && piece.sweep < std::numbers::pi) {
    // The chord's middle serves better: the ball over the chord holds the whole arc.
    piece.ball = (piece.from + piece.to) / 2;
    piece.ball_radius = (piece.to - piece.from).norm() / 2;
    return;
  }
  piece.ball_radius = piece.straight ? (piece.to - piece.from).norm() / 2 : piece.radius;
  if (!piece.straight) piece.ball = piece.centre;
}

void set_core(SolidPiece& piece) {
  piece.core_from = piece.from;
  piece.core_direction = piece.direction;
  piece.core_length = piece.length;
  if (piece.straight) return;
  if (piece.sweep >= std::numbers::pi) {
    piece.core_from = piece.centre;
    piece.core_length = 0;
    piece.core_radius = piece.radius;
    return;
  }
  // The chord moved half the way towards the crown; the arc leaves it by half its rise at most, up and down alike.
  const double rise = piece.radius * (1 - piece.cos_half);
  const Vec3 chord = piece.to - piece.from;
  piece.core_length = chord.norm();
  if (piece.core_length > 0) piece.core_direction = chord / piece.core_length;
  piece.core_from = piece.from + rise / 2 * piece.middle;
  piece.core_radius = rise / 2;
}

}  // namespace

SolidPiece straight_piece(const Vec3& from, const Vec3& to) {
  SolidPiece piece;
  piece.from = from;
  piece.to = to;
  piece.length = (to - from).norm();
  piece.direction = piece.length > 0 ? Vec3((to - from) / piece.length) : Vec3(Vec3::UnitX());
  set_ball(piece);
  set_core(piece);
  return piece;
}

SolidPiece arc_piece(const Arc& arc) {
  SolidPiece piece;
  piece.straight = false;
  piece.centre = arc.centre;
  piece.outwards = arc.outwards;
  piece.direction = arc.along;
  piece.axis = arc.axis();
  piece.radius = arc.radius;
  piece.sweep = arc.sweep.radians();
  piece.length = arc.radius * piece.sweep;
  piece.cos_half = std::cos(piece.sweep / 2);
  piece.middle = piece.cos_half * arc.outwards + std::sin(piece.sweep / 2) * arc.along;
  piece.from = piece.point(0);
  piece.to = piece.point(piece.length);
  set_ball(piece);
  set_core(piece);
  return piece;
}

SolidPiece rim_piece(const Vec3& centre, const Vec3& normal, double radius) {
  const Vec3 outwards = any_square_to(normal);
  return arc_piece(Arc{centre, outwards, normal.cross(outwards), radius, Angle::degrees(360)});
}

Vec3 SolidPiece::point(double s) const {
  if (straight) return from + s * direction;
  const double a = s / radius;
  return centre + radius * (std::cos(a) * outwards + std::sin(a) * direction);
}

Vec3 SolidPiece::tangent(double s) const {
  if (straight) return direction;
  const double a = s / radius;
  return std::cos(a) * direction - std::sin(a) * outwards;
}

namespace {

// Where a point stands beside an arc, seen from the arc's centre.
struct Polar {
  double out, along, up, across;  // along the start's outwards, its tangent and the axis; from the axis
  bool within;                    // between the arc's end planes
  bool past_end;                  // else: nearer to the end than to the start
};

Polar polar_of(const SolidPiece& arc, const Vec3& point) {
  const Vec3 d = point - arc.centre;
  Polar polar{d.dot(arc.outwards), d.dot(arc.direction), d.dot(arc.axis), 0, false, false};
  polar.across = std::sqrt(polar.out * polar.out + polar.along * polar.along);
  polar.within = d.dot(arc.middle) >= polar.across * arc.cos_half;
  if (!polar.within) polar.past_end = d.dot(arc.axis.cross(arc.middle)) > 0;
  return polar;
}

// The point of the arc's own circle in the direction of `polar`; the arc's middle for a point on the axis.
Vec3 on_circle(const SolidPiece& arc, const Polar& polar) {
  if (polar.across <= 0) return arc.centre + arc.radius * arc.middle;
  return arc.centre + (arc.radius / polar.across) * (polar.out * arc.outwards + polar.along * arc.direction);
}

}  // namespace

double SolidPiece::nearest_s(const Vec3& p) const {
  if (straight) return std::clamp((p - from).dot(direction), 0.0, length);
  const Polar polar = polar_of(*this, p);
  if (!polar.within) return polar.past_end ? length : 0;
  if (polar.across <= 0) return length / 2;
  double angle = std::atan2(polar.along, polar.out);
  // The range starts half of what is left over before the start, so that rounding at the start stays at the start.
  if (angle < -(std::numbers::pi - sweep / 2)) angle += 2 * std::numbers::pi;
  return std::clamp(angle * radius, 0.0, length);
}

Foot SolidPiece::foot(const Vec3& p) const {
  if (straight) {
    const Vec3 at = from + std::clamp((p - from).dot(direction), 0.0, length) * direction;
    return foot_at((p - at).norm(), at);
  }
  const Polar polar = polar_of(*this, p);
  if (polar.within) return foot_at(std::hypot(polar.across - radius, polar.up), on_circle(*this, polar));
  const Vec3& at = polar.past_end ? to : from;
  return foot_at((p - at).norm(), at);
}

Foot SolidPiece::solid_foot(double tube_radius, const Vec3& p) const {
  if (straight) {
    const double s = (p - from).dot(direction);
    if (s < 0) return disc_foot(from, direction, tube_radius, p);
    if (s > length) return disc_foot(to, direction, tube_radius, p);
    const Vec3 middle_at = from + s * direction;
    const double off = (p - middle_at).norm();
    if (off <= tube_radius) return foot_at(0, p);
    return foot_at(off - tube_radius, middle_at + (tube_radius / off) * (p - middle_at));
  }
  const Polar polar = polar_of(*this, p);
  if (!polar.within)
    return polar.past_end ? disc_foot(to, end_tangent(), tube_radius, p) : disc_foot(from, direction, tube_radius, p);
  const Vec3 middle_at = on_circle(*this, polar);
  const double off = (p - middle_at).norm();
  if (off <= tube_radius) return foot_at(0, p);
  return foot_at(off - tube_radius, middle_at + (tube_radius / off) * (p - middle_at));
}

Bounds SolidPiece::line_bounds() const {
  Bounds bounds;
  bounds.add(from);
  bounds.add(to);
  if (straight) return bounds;
  // An arc reaches farthest along an axis of the site where its circle does, if that place is on the arc.
  for (int i = 0; i < 3; ++i) {
    const double reach = std::hypot(outwards[i], direction[i]);
    if (reach <= 0) continue;
    const Vec3 most = (outwards[i] * outwards + direction[i] * direction) / reach;  // unit, in the arc's plane
    if (most.dot(middle) >= cos_half) bounds.high[i] = std::max(bounds.high[i], centre[i] + radius * reach);
    if (-most.dot(middle) >= cos_half) bounds.low[i] = std::min(bounds.low[i], centre[i] - radius * reach);
  }
  return bounds;
}

SolidPiece SolidPiece::part(double from_s, double until_s) const {
  const double start = std::clamp(from_s, 0.0, length), stop = std::clamp(until_s, start, length);
  SolidPiece result;
  if (straight) {
    result = straight_piece(point(start), point(stop));
    result.direction = direction;
    result.core_direction = direction;
    result.length = stop - start;
  } else {
    result = arc_piece(Arc{centre, (point(start) - centre).normalized(), tangent(start), radius,
                           Angle::radians((stop - start) / radius)});
  }
  result.starts_at = starts_at + start;
  result.first_leg = first_leg;
  result.last_leg = last_leg;
  return result;
}

void SolidPiece::move(const Vec3& shift) {
  from += shift;
  to += shift;
  centre += shift;
  ball += shift;
  core_from += shift;
}

void SolidPiece::carry(const Eigen::Isometry3d& by) {
  for (Vec3* place : {&from, &to, &centre, &ball, &core_from}) *place = by * *place;
  for (Vec3* way : {&direction, &outwards, &axis, &middle, &core_direction}) *way = by.linear() * *way;
}

Foot disc_foot(const Vec3& centre, const Vec3& normal, double radius, const Vec3& point) {
  const Vec3 d = point - centre;
  const double up = d.dot(normal);
  const Vec3 flat = d - up * normal;
  const double off = flat.norm();
  if (off <= radius) return foot_at(std::abs(up), centre + flat);
  return foot_at(std::hypot(off - radius, up), centre + (radius / off) * flat);
}

}  // namespace halfhard
