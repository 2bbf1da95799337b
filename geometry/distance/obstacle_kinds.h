// What an Obstacle is inside: one class a way of being measured. Internal to geometry; users see obstacle.h.
#pragma once

#include <limits>
#include <optional>

#include "geometry/distance/obstacle.h"
#include "geometry/distance/triangle_tree.h"

namespace halfhard {

class Obstacle::Kind {
 public:
  virtual ~Kind() = default;
  virtual Foot foot(const Vec3& point) const = 0;
  // Convex kinds: a point of the body that lies farthest along `direction`; nothing where there is none (half spaces).
  virtual std::optional<Vec3> farthest(const Vec3&) const { return std::nullopt; }
  // No place of the body is deeper.
  virtual double greatest_depth() const { return std::numeric_limits<double>::infinity(); }
  // Whether the signed distance is a convex function along the lines of a piece.
  virtual bool convex_along(const SolidPiece&) const { return convex; }
  // Kinds made of triangles.
  virtual const TriangleTree* tree() const { return nullptr; }
  // Moving kinds that are not convex: the body at rest, and how a point is carried back from a position of the motion
  // (0 at rest, 1 at the end) into the frame of the body at rest.
  virtual const Obstacle* at_rest() const { return nullptr; }
  virtual Eigen::Isometry3d back_from(double) const { return Eigen::Isometry3d::Identity(); }

  Body body;
  Bounds bounds;
  bool convex = true;
  bool depth_is_exact = true;
  double uncertainty_mm = 0;
};

std::shared_ptr<Obstacle::Kind> box_kind(const Box& box);
std::shared_ptr<Obstacle::Kind> cylinder_kind(const Cylinder& cylinder);
std::shared_ptr<Obstacle::Kind> half_space_kind(const HalfSpace& half_space);
std::shared_ptr<Obstacle::Kind> triangle_kind(std::shared_ptr<const TriangleBody> body, bool convex);
// Moving bodies; they choose the exact form where there is one.
std::shared_ptr<Obstacle::Kind> sliding_kind(const Body& body, const Slide& slide);
std::shared_ptr<Obstacle::Kind> swinging_kind(const Body& body, const Swing& swing);

}  // namespace halfhard
