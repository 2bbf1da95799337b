#include "geometry/plan/scene_extents.h"

#include <algorithm>

namespace halfhard {
namespace {

struct Corners {
  Extents& extents;

  void operator()(const Box& box) const {
    for (int corner = 0; corner < 8; ++corner) {
      const Vec3 sign(corner & 1 ? 1 : -1, corner & 2 ? 1 : -1, corner & 4 ? 1 : -1);
      extents.add(box.centre + box.axes * box.half.cwiseProduct(sign));
    }
  }
  void operator()(const Cylinder& cylinder) const {
    extents.add(cylinder.from, cylinder.radius);
    extents.add(cylinder.to, cylinder.radius);
  }
  void operator()(const HalfSpace&) const {}
  void operator()(const std::shared_ptr<const TriangleBody>& body) const {
    for (const Vec3& vertex : body->vertices) extents.add(vertex);
  }
};

}  // namespace

void Extents::add(const Vec3& point, double around_mm) {
  const Vec3 around = Vec3::Constant(around_mm);
  least = empty ? Vec3(point - around) : Vec3(least.cwiseMin(point - around));
  most = empty ? Vec3(point + around) : Vec3(most.cwiseMax(point + around));
  empty = false;
}

Extents extents_of(const Run& run) {
  Extents extents;
  for (const Vec3& point : run.line.points()) extents.add(point, run.outside_radius_mm());
  return extents;
}

Extents scene_extents(const Plan& plan) {
  Extents extents;
  for (const auto& run : plan.runs) {
    for (const Vec3& point : run->line.points()) extents.add(point, run->outside_radius_mm());
  }
  for (const auto& fixture : plan.fixtures) std::visit(Corners{extents}, fixture->body.shape);
  return extents;
}

Box slab_of(const HalfSpace& plane, const Extents& extents) {
  const double diagonal = std::max(extents.diagonal_mm(), 100.0);
  const double thickness = std::clamp(diagonal / 40, 5.0, 50.0);
  const Vec3 across = any_square_to(plane.facing);
  const Vec3 up = plane.facing.cross(across);
  Box slab;
  slab.axes.col(0) = across;
  slab.axes.col(1) = up;
  slab.axes.col(2) = plane.facing;
  const Vec3 middle = extents.centre();
  slab.centre = middle - (middle - plane.at).dot(plane.facing) * plane.facing - thickness / 2 * plane.facing;
  const Vec3 size = extents.empty ? Vec3::Constant(diagonal) : Vec3(extents.most - extents.least);
  const double margin = diagonal / 20;
  slab.half = Vec3(across.cwiseAbs().dot(size) / 2 + margin, up.cwiseAbs().dot(size) / 2 + margin, thickness / 2);
  return slab;
}

}  // namespace halfhard
