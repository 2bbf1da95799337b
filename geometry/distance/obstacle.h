// A body made ready to be measured against: its shape with its motion, every position of which counts. Site frame, mm.
//
// Exact: boxes, cylinders and half spaces at rest or sliding, and boxes and cylinders swinging about a line parallel to
// one of their axes (doors). Other moving bodies are exact from outside; inside, the depth is that of the deepest
// single position, which the swept body's own depth may exceed (`depth_is_exact`). Triangle bodies are exact to their
// triangles; `uncertainty_mm` is how far those may be from the true surface.
#pragma once

#include <memory>
#include <vector>

#include "geometry/base/bounds.h"
#include "geometry/distance/body.h"
#include "geometry/distance/solid_piece.h"

namespace halfhard {

class Obstacle {
 public:
  // Copies what it needs; a triangle body is shared, and its tree is built here (about 1 us a triangle).
  explicit Obstacle(const Body& body);

  // Signed distance, negative inside, and the nearest surface point.
  Foot foot(const Vec3& point) const;
  double signed_distance(const Vec3& point) const { return foot(point).distance; }

  const Bounds& bounds() const;  // every position; infinite for half spaces
  bool convex() const;           // what all positions fill together
  double uncertainty_mm() const;
  bool depth_is_exact() const;
  const Body& body() const;

  class Kind;  // what it is inside: obstacle_kinds.h
  const Kind& kind() const { return *kind_; }

 private:
  std::shared_ptr<const Kind> kind_;
};

}  // namespace halfhard
