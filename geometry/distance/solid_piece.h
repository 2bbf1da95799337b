// One piece of a tube, straight or bend, laid out for fast closed-form distances. Site frame, mm.
#pragma once

#include "geometry/base/bounds.h"
#include "geometry/base/vec.h"
#include "geometry/curve/centreline.h"

namespace halfhard {

// Where a point is nearest to something: negative distance inside it, `at` on its surface (or on the line itself).
struct Foot {
  double distance = 0;
  Vec3 at = Vec3::Zero();
  // Unit, out of a convex body, for a point so near to its surface that the direction from `at` is lost; else zero.
  Vec3 outwards = Vec3::Zero();
};

inline Foot foot_at(double distance, const Vec3& at) { return {distance, at, Vec3::Zero()}; }

// Nearer to a surface than this, the direction from the foot is noise.
inline constexpr double kOnSurface_mm = 1e-9;

// A straight or an arc of a centre line; `s` below runs from 0 to `length` within the piece.
struct SolidPiece {
  bool straight = true;
  Vec3 from = Vec3::Zero(), to = Vec3::Zero();
  Vec3 direction = Vec3::UnitX();  // of travel at the start
  double length = 0;
  double starts_at = 0;  // along the whole line
  int first_leg = 0, last_leg = 0;
  // Arcs only.
  Vec3 centre = Vec3::Zero(), outwards = Vec3::UnitX(), axis = Vec3::UnitZ();
  Vec3 middle = Vec3::UnitX();  // unit, from the centre to the middle of the arc
  double radius = 0, sweep = 0, cos_half = 0;
  // A ball around the centre line's piece.
  Vec3 ball = Vec3::Zero();
  double ball_radius = 0;
  // A thin bar with round ends around it: a segment from core_from, core_length along core_direction, and how far the
  // piece leaves it at most.
  Vec3 core_from = Vec3::Zero(), core_direction = Vec3::UnitX();
  double core_length = 0, core_radius = 0;

  double curvature() const { return straight ? 0 : 1 / radius; }
  Vec3 point(double s) const;
  Vec3 tangent(double s) const;  // unit, of travel
  Vec3 end_tangent() const { return tangent(length); }
  // The nearest place of the centre line's piece to a point, as `s`; the piece need not be near.
  double nearest_s(const Vec3& point) const;
  Foot foot(const Vec3& point) const;  // on the centre line, distance never negative
  // The solid of the discs of `tube_radius` along the piece, flat ends; distance 0 inside it. Exact for tubes thinner
  // than the bend's radius.
  Foot solid_foot(double tube_radius, const Vec3& point) const;
  Bounds line_bounds() const;  // of the centre line's piece
  // From `from_s` to `until_s`, both clamped.
  SolidPiece part(double from_s, double until_s) const;
  void move(const Vec3& shift);
  void carry(const Eigen::Isometry3d& by);
};

SolidPiece straight_piece(const Vec3& from, const Vec3& to);
SolidPiece arc_piece(const Arc& arc);
// The whole rim of a disc: an arc of 360 degrees.
SolidPiece rim_piece(const Vec3& centre, const Vec3& normal, double radius);

// The nearest point of a solid disc; distance never negative.
Foot disc_foot(const Vec3& centre, const Vec3& normal, double radius, const Vec3& point);

}  // namespace halfhard
