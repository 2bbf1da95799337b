// Points along outlines, and the edges of boxes, round bars, flat faces and triangle bodies.
#include "geometry/views/outline.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

namespace halfhard::views {
namespace {

constexpr double kEdgeOn = 1e-9;
// Two triangles that meet at more than this make an edge that is drawn.
constexpr double kCreaseCos = 0.906307787;  // cos 25 degrees

Outline line(const Vec3& from, const Vec3& to) {
  Outline outline;
  outline.curve = Line3{from, to};
  outline.skip_own_body = true;
  return outline;
}

}  // namespace

Vec3 Outline::point(double t) const {
  if (const auto* l = std::get_if<Line3>(&curve)) return l->from + t * (l->to - l->from);
  if (const auto* a = std::get_if<Arc3>(&curve)) return a->centre + std::cos(t) * a->a + std::sin(t) * a->b;
  const Flank& flank = std::get<Flank>(curve);
  return flank.arc.point(t) + flank.radius * flank.normal(t);
}

Vec3 Outline::lift_at(double t) const {
  if (const auto* flank = std::get_if<Flank>(&curve)) return flank->normal(t);
  const Vec3 sum = lift + std::cos(t) * lift_a + std::sin(t) * lift_b;
  const double size = sum.norm();
  return size > 0 ? Vec3(sum / size) : Vec3(Vec3::Zero());
}

std::vector<double> nodes_of(const Outline& outline) {
  if (!outline.nodes.empty()) return outline.nodes;
  if (std::holds_alternative<Line3>(outline.curve)) return {outline.from, outline.to};
  const int steps = std::max(2, static_cast<int>(std::ceil((outline.to - outline.from) / (std::numbers::pi / 18))));
  std::vector<double> nodes;
  for (int i = 0; i <= steps; ++i) nodes.push_back(outline.from + (outline.to - outline.from) * i / steps);
  return nodes;
}

std::vector<Outline> box_outlines(const Box& box) {
  std::vector<Outline> outlines;
  const auto normal = [&](int axis, int side) -> Vec3 { return side * box.axes.col(axis); };
  const auto near = [&](int axis, int side) { return normal(axis, side).z() > kEdgeOn; };
  for (int axis = 0; axis < 3; ++axis) {
    const int i = (axis + 1) % 3, j = (axis + 2) % 3;
    const Vec3 along = box.axes.col(axis) * box.half[axis];
    if (along.head<2>().norm() < kEdgeOn * (1 + along.norm())) continue;
    for (const int si : {-1, 1}) {
      for (const int sj : {-1, 1}) {
        const Vec3 middle = box.centre + normal(i, si) * box.half[i] + normal(j, sj) * box.half[j];
        Outline edge = line(middle - along, middle + along);
        edge.surely_hidden = !near(i, si) && !near(j, sj);
        outlines.push_back(edge);
      }
    }
  }
  return outlines;
}

std::vector<Outline> cylinder_outlines(const Cylinder& cylinder) {
  std::vector<Outline> outlines;
  const Vec3 t = (cylinder.to - cylinder.from).normalized();
  add_straight(outlines, cylinder.from, cylinder.to, cylinder.radius, 0);
  add_rim(outlines, cylinder.from, -t, cylinder.radius, 0);
  add_rim(outlines, cylinder.to, t, cylinder.radius, 0);
  for (Outline& outline : outlines) outline.skip_own_body = true;
  return outlines;
}

std::vector<Outline> polygon_outlines(const std::vector<Vec3>& corners) {
  std::vector<Outline> outlines;
  if (corners.size() < 3) return outlines;
  Vec3 normal = Vec3::Zero();
  for (size_t i = 2; i < corners.size(); ++i) normal += (corners[i - 1] - corners[0]).cross(corners[i] - corners[0]);
  if (std::abs(normal.normalized().z()) > 1e-7) {
    for (size_t i = 0; i < corners.size(); ++i) {
      const Vec3 &from = corners[i], &to = corners[(i + 1) % corners.size()];
      if ((to - from).norm() > 1e-9) outlines.push_back(line(from, to));
    }
    return outlines;
  }
  // Edge-on: one line, behind everything that stands on the face.
  const Vec2 way = Vec2(-normal.y(), normal.x()).normalized();
  const auto less = [&](const Vec3& a, const Vec3& b) { return way.dot(a.head<2>()) < way.dot(b.head<2>()); };
  Vec3 from = *std::min_element(corners.begin(), corners.end(), less);
  Vec3 to = *std::max_element(corners.begin(), corners.end(), less);
  for (const Vec3& corner : corners) {
    from.z() = std::min(from.z(), corner.z());
    to.z() = std::min(to.z(), corner.z());
  }
  outlines.push_back(line(from, to));
  return outlines;
}

std::vector<Outline> mesh_outlines(const std::vector<Vec3>& vertices,
                                   const std::vector<std::array<int, 3>>& triangles) {
  const auto at = [&](int i) -> const Vec3& { return vertices[static_cast<size_t>(i)]; };
  std::map<std::pair<int, int>, std::vector<Vec3>> normals;  // ordered: the same edges in the same order every time
  for (const auto& t : triangles) {
    const Vec3 cross = (at(t[1]) - at(t[0])).cross(at(t[2]) - at(t[0]));
    if (cross.norm() < 1e-12) continue;
    for (size_t i = 0; i < 3; ++i) {
      const auto [low, high] = std::minmax(t[i], t[(i + 1) % 3]);
      normals[{low, high}].push_back(cross.normalized());
    }
  }
  std::vector<Outline> outlines;
  for (const auto& [edge, faces] : normals) {
    const auto faces_viewer = [](const Vec3& n) { return n.z() > kEdgeOn; };
    const auto near = std::count_if(faces.begin(), faces.end(), faces_viewer);
    const bool contour = near > 0 && near < static_cast<long>(faces.size());
    const bool crease = faces.size() == 1 || (faces.size() == 2 && faces[0].dot(faces[1]) < kCreaseCos);
    if (!contour && !crease) continue;
    Outline outline = line(at(edge.first), at(edge.second));
    outline.skip_own_body = false;
    outline.corners = {edge.first, edge.second};
    outline.surely_hidden = near == 0;
    outlines.push_back(outline);
  }
  return outlines;
}

}  // namespace halfhard::views
