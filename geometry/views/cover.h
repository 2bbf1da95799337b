// What may stand between a point and the viewer. View frame: x right, y up, z towards the viewer, mm.
//
// Each body answers for a point: does the ray from it to the viewer go through the body, and how far may the point move
// before that answer can change? The second number lets a whole stretch of outline be settled by one question.
// A tube's pieces are met as spheres along the centre line (the nearest one decides: closed form for a straight, a
// bracketed root for a bend), with its free ends cut flat. A convex body is met by its shadow: the points behind all
// its near faces and within the planes through its contour along the sight line.
#pragma once

#include <array>
#include <memory>
#include <variant>
#include <vector>

#include "geometry/curve/centreline.h"
#include "geometry/views/view.h"

namespace halfhard::views {

struct Hiding {
  bool hidden = false;
  double settled_mm = 0;  // the answer is the same for every point within this distance
};

struct Plane {
  Vec3 normal;  // unit
  double offset = 0;
};

struct StraightCover {
  Vec3 from = Vec3::Zero(), direction = Vec3::UnitX();
  double length = 0, radius = 0;
  bool flat_start = false, flat_end = false;
  Hiding hiding(const Vec3& point, double grown) const;
};

struct ArcCover {
  Arc arc;
  double radius = 0;
  bool flat_start = false, flat_end = false;
  double spacing = 0;         // along the arc between samples
  std::vector<Vec3> samples;  // of the centre line, both ends included
  Hiding hiding(const Vec3& point, double grown) const;
};

// The shadow of a convex body; hidden where inside all planes. None: hides nothing.
struct ShadowCover {
  std::vector<Plane> planes;
  Hiding hiding(const Vec3& point) const;
};

// A body of triangles: those that face the viewer, in a grid over the view.
class MeshCover {
 public:
  MeshCover(std::vector<Vec3> vertices, const std::vector<std::array<int, 3>>& triangles, double deviation);
  // Triangles with either of these corners are passed over: the body's own edge does not hide itself.
  Hiding hiding(const Vec3& point, std::array<int, 2> corners) const;
  const std::vector<Vec3>& vertices() const { return vertices_; }

 private:
  int cell(double x, double y) const;
  std::vector<Vec3> vertices_;
  std::vector<std::array<int, 3>> near_;  // triangles that face the viewer
  std::vector<std::vector<int>> cells_;
  Vec2 low_ = Vec2::Zero(), size_ = Vec2::Ones();
  int across_ = 1;
  double behind_ = 0;  // how far behind a triangle counts as hidden
};

struct Cover {
  int object = 0;
  int owner = 0;  // index over tubes, then bodies: whose piece this is
  int piece = 0;  // of that tube
  std::variant<StraightCover, ArcCover, ShadowCover, std::shared_ptr<const MeshCover>> body;
  Vec2 low = Vec2::Zero(), high = Vec2::Zero();  // the box around it in the view
  double top = 0;                                // its nearest point to the viewer
};

ShadowCover shadow_of(const Box& box);
ShadowCover shadow_of(const HalfSpace& half);

}  // namespace halfhard::views
