// The floor plan of a door: what a rectangle or a disc sweeps when it turns about the origin of its plane. Lengths mm.
//
// The outline is made once: edges at both ends of the swing and the circles that corners, and points of edges nearest the
// hinge, run along, cut where they cross and kept where one side is swept and the other is not. Distances to it are then
// closed form. Exact to rounding (1e-9 mm at 10 m).
#pragma once

#include <array>
#include <vector>

#include "geometry/base/vec.h"

namespace halfhard {

using Vec2 = Eigen::Vector2d;

class SwungSection {
 public:
  // Corners in order around; right-handed swing by `radians`, from -2 pi to 2 pi.
  static SwungSection of_rectangle(const std::array<Vec2, 4>& corners, double radians);
  static SwungSection of_disc(const Vec2& centre, double radius, double radians);

  bool covers(const Vec2& point) const;
  struct Foot2 {
    double distance;  // negative inside
    Vec2 at;
  };
  Foot2 foot(const Vec2& point) const;

 private:
  struct Edge {
    bool straight = true;
    Vec2 from = Vec2::Zero(), to = Vec2::Zero();
    Vec2 centre = Vec2::Zero();
    double radius = 0, start = 0, sweep = 0;  // counter-clockwise from angle `start`

    Vec2 at(double share) const;  // 0 to 1
    Vec2 normal(double share) const;
    Edge part(double from_share, double to_share) const;
    double length() const;
    Vec2 nearest(const Vec2& point) const;
    void crossings(const Edge& other, std::vector<double>& shares) const;
    double share_of(const Vec2& point) const;  // of a point on the edge's line or circle; outside 0 to 1 if not on it
  };
  static Edge segment(const Vec2& from, const Vec2& to);
  static Edge arc(const Vec2& centre, double radius, double start, double sweep);
  Edge path_of(const Vec2& point) const;
  void keep_outline(const std::vector<Edge>& edges);

  std::vector<Vec2> corners_;  // of the rectangle; empty for a disc
  Vec2 disc_ = Vec2::Zero();
  double disc_radius_ = 0;
  double radians_ = 0;
  std::vector<Edge> outline_;
};

}  // namespace halfhard
