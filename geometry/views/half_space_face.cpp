#include "geometry/views/half_space_face.h"

#include <algorithm>
#include <cmath>

namespace halfhard::views {
namespace {

struct Bounds {
  Vec3 low = Vec3::Constant(1e300), high = Vec3::Constant(-1e300);
  void add(const Vec3& p, double r) {
    low = low.cwiseMin((p.array() - r).matrix());
    high = high.cwiseMax((p.array() + r).matrix());
  }
};

Bounds bounds_of(const Scene& scene) {
  Bounds bounds;
  for (const SceneTube& tube : scene.tubes)
    for (const Vec3& p : tube.line.points()) bounds.add(p, tube.outside_radius_mm);
  for (const SceneBody& body : scene.bodies) {
    if (const auto* box = std::get_if<Box>(&body.shape)) {
      const Vec3 reach = box->axes.cwiseAbs() * box->half;
      bounds.add(box->centre + reach, 0);
      bounds.add(box->centre - reach, 0);
    } else if (const auto* cylinder = std::get_if<Cylinder>(&body.shape)) {
      bounds.add(cylinder->from, cylinder->radius);
      bounds.add(cylinder->to, cylinder->radius);
    } else if (const auto* mesh = std::get_if<std::shared_ptr<const TriangleBody>>(&body.shape)) {
      for (const Vec3& p : (*mesh)->vertices) bounds.add(p, 0);
    }
  }
  return bounds;
}

// Keeps what is on the side that `facing` points to (Sutherland and Hodgman's way of clipping a polygon).
std::vector<Vec3> kept(const std::vector<Vec3>& polygon, const Vec3& at, const Vec3& facing) {
  std::vector<Vec3> result;
  for (size_t i = 0; i < polygon.size(); ++i) {
    const Vec3 &a = polygon[i], &b = polygon[(i + 1) % polygon.size()];
    const double da = facing.dot(a - at), db = facing.dot(b - at);
    if (da >= 0) result.push_back(a);
    if ((da >= 0) != (db >= 0)) result.push_back(a + (b - a) * (da / (da - db)));
  }
  return result;
}

}  // namespace

std::vector<Vec3> half_space_face(const Scene& scene, size_t which, double margin_mm) {
  const HalfSpace& half = std::get<HalfSpace>(scene.bodies[which].shape);
  Bounds bounds = bounds_of(scene);
  if (bounds.low.x() > bounds.high.x()) bounds.add(half.at, 0);
  const Vec3 middle = (bounds.low + bounds.high) / 2;
  const double near = (bounds.high - bounds.low).norm();
  const auto foot_on = [&](const HalfSpace& face) -> Vec3 {
    return middle - face.facing.dot(middle - face.at) * face.facing;
  };
  // The box reaches to this face, however far off it stands, and to the others that stand near, so that a wall and a
  // floor meet.
  for (const SceneBody& body : scene.bodies)
    if (const auto* other = std::get_if<HalfSpace>(&body.shape); other && (foot_on(*other) - middle).norm() < near)
      bounds.add(foot_on(*other), 0);
  bounds.add(foot_on(half), 0);
  bounds.low.array() -= margin_mm;
  bounds.high.array() += margin_mm;
  const Vec3 foot = foot_on(half);
  const double size = (bounds.high - bounds.low).norm();
  const Vec3 a = any_square_to(half.facing) * size, b = half.facing.cross(a);
  std::vector<Vec3> face = {foot - a - b, foot + a - b, foot + a + b, foot - a + b};
  for (int axis = 0; axis < 3; ++axis) {
    const Vec3 unit = Vec3::Unit(axis);
    face = kept(face, bounds.low, unit);
    face = kept(face, bounds.high, -unit);
  }
  for (size_t i = 0; i < scene.bodies.size(); ++i) {
    const auto* other = std::get_if<HalfSpace>(&scene.bodies[i].shape);
    if (i != which && other && std::abs(other->facing.dot(half.facing)) < 1 - 1e-9)
      face = kept(face, other->at, other->facing);
  }
  return face;
}

}  // namespace halfhard::views
