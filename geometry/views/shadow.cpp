// Shadows of boxes and half spaces, and the grid of triangles.
#include <algorithm>
#include <cmath>

#include "geometry/views/cover.h"

namespace halfhard::views {
namespace {

constexpr double kEdgeOn = 1e-9;     // a face is edge-on where its normal's part towards the viewer is below this
constexpr double kBehind_mm = 1e-3;  // a point on a near face is not behind it
constexpr double kBeside_mm = 1e-3;  // a line right behind an edge is hidden by it

}  // namespace

ShadowCover shadow_of(const Box& box) {
  ShadowCover shadow;
  const auto normal = [&](int axis, int side) -> Vec3 { return side * box.axes.col(axis); };
  const auto near = [&](int axis, int side) { return normal(axis, side).z() > kEdgeOn; };
  for (int axis = 0; axis < 3; ++axis) {
    for (const int side : {-1, 1}) {
      if (!near(axis, side)) continue;
      const Vec3 n = normal(axis, side);
      shadow.planes.push_back({n, n.dot(box.centre) + box.half[axis] - kBehind_mm});
      for (int other = 0; other < 3; ++other) {
        for (const int other_side : {-1, 1}) {
          if (other == axis || near(other, other_side)) continue;
          const Vec3 on_edge = box.centre + n * box.half[axis] + normal(other, other_side) * box.half[other];
          const Vec3 edge = box.axes.col(3 - axis - other);
          Vec3 out = edge.cross(Vec3::UnitZ());
          if (out.norm() < kEdgeOn) continue;
          out.normalize();
          if (out.dot(on_edge - box.centre) < 0) out = -out;
          shadow.planes.push_back({out, out.dot(on_edge) + kBeside_mm});
        }
      }
    }
  }
  return shadow;
}

ShadowCover shadow_of(const HalfSpace& half) {
  ShadowCover shadow;
  if (half.facing.z() > kEdgeOn) shadow.planes.push_back({half.facing, half.facing.dot(half.at) - kBehind_mm});
  return shadow;
}

MeshCover::MeshCover(std::vector<Vec3> vertices, const std::vector<std::array<int, 3>>& triangles, double deviation)
    : vertices_(std::move(vertices)), behind_(2 * deviation + kBehind_mm) {
  const auto corner = [&](const std::array<int, 3>& t, int i) -> const Vec3& {
    return vertices_[static_cast<size_t>(t[static_cast<size_t>(i)])];
  };
  for (const auto& t : triangles)
    if ((corner(t, 1) - corner(t, 0)).cross(corner(t, 2) - corner(t, 0)).z() > 0) near_.push_back(t);
  if (near_.empty()) return;
  Vec2 high = corner(near_.front(), 0).head<2>();
  low_ = high;
  for (const auto& t : near_) {
    for (int i = 0; i < 3; ++i) {
      low_ = low_.cwiseMin(corner(t, i).head<2>());
      high = high.cwiseMax(corner(t, i).head<2>());
    }
  }
  across_ = std::clamp(static_cast<int>(std::sqrt(static_cast<double>(near_.size()))), 1, 256);
  size_ = ((high - low_) / across_).cwiseMax(1e-9);
  cells_.resize(static_cast<size_t>(across_) * static_cast<size_t>(across_));
  const auto index = [&](double value, int axis) {
    return std::clamp(static_cast<int>((value - low_[axis]) / size_[axis]), 0, across_ - 1);
  };
  for (size_t i = 0; i < near_.size(); ++i) {
    const Vec2 a = corner(near_[i], 0).head<2>(), b = corner(near_[i], 1).head<2>(), c = corner(near_[i], 2).head<2>();
    const Vec2 from = a.cwiseMin(b).cwiseMin(c), to = a.cwiseMax(b).cwiseMax(c);
    for (int y = index(from.y(), 1); y <= index(to.y(), 1); ++y)
      for (int x = index(from.x(), 0); x <= index(to.x(), 0); ++x)
        cells_[static_cast<size_t>(y * across_ + x)].push_back(static_cast<int>(i));
  }
}

int MeshCover::cell(double x, double y) const {
  const double column = (x - low_.x()) / size_.x(), row = (y - low_.y()) / size_.y();
  if (column < 0 || row < 0 || column > across_ || row > across_) return -1;
  return std::min(static_cast<int>(row), across_ - 1) * across_ + std::min(static_cast<int>(column), across_ - 1);
}

Hiding MeshCover::hiding(const Vec3& point, std::array<int, 2> corners) const {
  if (near_.empty()) return {};
  const int where = cell(point.x(), point.y());
  if (where < 0) return {};
  for (const int i : cells_[static_cast<size_t>(where)]) {
    const auto& t = near_[static_cast<size_t>(i)];
    if (std::any_of(t.begin(), t.end(), [&](int v) { return v == corners[0] || v == corners[1]; })) continue;
    const Vec3 &a = vertices_[static_cast<size_t>(t[0])], &b = vertices_[static_cast<size_t>(t[1])],
               &c = vertices_[static_cast<size_t>(t[2])];
    const Vec3 normal = (b - a).cross(c - a).normalized();
    if (normal.dot(point - a) >= -behind_) continue;
    const auto left_of = [&](const Vec3& p, const Vec3& q) {
      return (q.x() - p.x()) * (point.y() - p.y()) - (q.y() - p.y()) * (point.x() - p.x()) >= 0;
    };
    if (left_of(a, b) && left_of(b, c) && left_of(c, a)) return {true, 0};
  }
  return {};
}

}  // namespace halfhard::views
