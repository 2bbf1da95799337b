#include "viewer/solids.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <tuple>

namespace halfhard {
namespace {

struct Circle {
  Vec3 centre, across, beside;

  Vec3 outwards(int side, int sides) const {
    const double angle = 2 * std::numbers::pi * side / sides;
    return std::cos(angle) * across + std::sin(angle) * beside;
  }
};

Circle circle_about(const Vec3& centre, const Vec3& axis) {
  const Vec3 across = any_square_to(axis);
  return {centre, across, axis.cross(across)};
}

void add_disc(RingMesh& mesh, const Circle& circle, double radius, int sides, bool along_axis) {
  if (radius <= 0) return;
  std::vector<Vec3> corners;
  for (int side = 0; side < sides; ++side) corners.push_back(circle.centre + radius * circle.outwards(side, sides));
  if (!along_axis) std::reverse(corners.begin(), corners.end());
  add_face(mesh, corners);
}

}  // namespace

std::array<Vec3, 8> corners_of(const Bounds& room) {
  std::array<Vec3, 8> corners;
  for (int i = 0; i < 8; ++i)
    corners[i] = {i & 1 ? room.high.x() : room.low.x(), i & 2 ? room.high.y() : room.low.y(),
                  i & 4 ? room.high.z() : room.low.z()};
  return corners;
}

void add_face(RingMesh& mesh, const std::vector<Vec3>& corners) {
  if (corners.size() < 3) return;
  const int first = static_cast<int>(mesh.vertices.size());
  Vec3 normal = Vec3::Zero();
  for (size_t i = 1; i + 1 < corners.size(); ++i)
    normal += (corners[i] - corners[0]).cross(corners[i + 1] - corners[0]);
  normal.normalize();
  for (const Vec3& corner : corners) {
    mesh.vertices.push_back(corner);
    mesh.normals.push_back(normal);
  }
  for (int i = 1; i + 1 < static_cast<int>(corners.size()); ++i)
    mesh.triangles.push_back({first, first + i, first + i + 1});
}

void add_closed_outline(Edges& edges, const std::vector<Vec3>& corners) {
  for (size_t i = 0; i < corners.size(); ++i) edges.push_back({corners[i], corners[(i + 1) % corners.size()]});
}

void append(RingMesh& mesh, const RingMesh& more) {
  const int first = static_cast<int>(mesh.vertices.size());
  mesh.vertices.insert(mesh.vertices.end(), more.vertices.begin(), more.vertices.end());
  mesh.normals.insert(mesh.normals.end(), more.normals.begin(), more.normals.end());
  for (const auto& t : more.triangles) mesh.triangles.push_back({first + t[0], first + t[1], first + t[2]});
}

void add_box(RingMesh& mesh, Edges& edges, const Box& box) {
  const auto corner = [&](int x, int y, int z) -> Vec3 {
    return box.centre + box.axes * Vec3(x * box.half.x(), y * box.half.y(), z * box.half.z());
  };
  for (int axis = 0; axis < 3; ++axis) {
    for (const int side : {-1, 1}) {
      std::vector<Vec3> face;
      for (const auto& [u, v] : {std::pair{-1, -1}, {1, -1}, {1, 1}, {-1, 1}}) {
        int place[3];
        place[axis] = side;
        place[(axis + 1) % 3] = u;
        place[(axis + 2) % 3] = v;
        face.push_back(corner(place[0], place[1], place[2]));
      }
      if (side < 0) std::reverse(face.begin(), face.end());
      add_face(mesh, face);
    }
    for (const auto& [u, v] : {std::pair{-1, -1}, {1, -1}, {1, 1}, {-1, 1}}) {
      int low[3], high[3];
      low[axis] = -1;
      high[axis] = 1;
      low[(axis + 1) % 3] = high[(axis + 1) % 3] = u;
      low[(axis + 2) % 3] = high[(axis + 2) % 3] = v;
      edges.push_back({corner(low[0], low[1], low[2]), corner(high[0], high[1], high[2])});
    }
  }
}

void add_cone(RingMesh& mesh, const Vec3& from, const Vec3& to, double from_radius, double to_radius, int sides) {
  const double length = (to - from).norm();
  if (length <= 0) return;
  const Vec3 axis = (to - from) / length;
  const Circle low = circle_about(from, axis), high = circle_about(to, axis);
  const int first = static_cast<int>(mesh.vertices.size());
  for (int side = 0; side < sides; ++side) {
    const Vec3 outwards = low.outwards(side, sides);
    const Vec3 normal = (outwards * length + axis * (from_radius - to_radius)).normalized();
    for (const auto& [centre, radius] : {std::pair{from, from_radius}, {to, to_radius}}) {
      mesh.vertices.push_back(centre + radius * outwards);
      mesh.normals.push_back(normal);
    }
  }
  for (int side = 0; side < sides; ++side) {
    const int here = first + 2 * side, next = first + 2 * ((side + 1) % sides);
    mesh.triangles.push_back({here, next, next + 1});
    mesh.triangles.push_back({here, next + 1, here + 1});
  }
  add_disc(mesh, low, from_radius, sides, false);
  add_disc(mesh, high, to_radius, sides, true);
}

void add_cone_edges(Edges& edges, const Vec3& from, const Vec3& to, double from_radius, double to_radius, int spokes) {
  if ((to - from).norm() <= 0) return;
  const Vec3 axis = (to - from).normalized();
  constexpr int kSides = 32;
  for (const auto& [centre, radius] : {std::pair{from, from_radius}, {to, to_radius}}) {
    if (radius <= 0) continue;
    const Circle circle = circle_about(centre, axis);
    std::vector<Vec3> rim;
    for (int side = 0; side < kSides; ++side) rim.push_back(centre + radius * circle.outwards(side, kSides));
    add_closed_outline(edges, rim);
  }
  const Circle circle = circle_about(from, axis);
  for (int spoke = 0; spoke < spokes; ++spoke) {
    const Vec3 outwards = circle.outwards(spoke, spokes);
    edges.push_back({from + from_radius * outwards, to + to_radius * outwards});
  }
}

void add_triangles(RingMesh& mesh, Edges& edges, const TriangleBody& body) {
  std::map<std::pair<int, int>, std::vector<Vec3>> facets;  // by edge
  for (const auto& t : body.triangles) {
    const Vec3 &a = body.vertices[t[0]], &b = body.vertices[t[1]], &c = body.vertices[t[2]];
    const Vec3 normal = (b - a).cross(c - a);
    if (normal.norm() <= 0) continue;
    add_face(mesh, {a, b, c});
    for (int side = 0; side < 3; ++side)
      facets[std::minmax({t[side], t[(side + 1) % 3]})].push_back(normal.normalized());
  }
  constexpr double kCosineOfAnEdge = 0.866;
  for (const auto& [ends, normals] : facets) {
    if (normals.size() == 2 && normals[0].dot(normals[1]) > kCosineOfAnEdge) continue;
    edges.push_back({body.vertices[ends.first], body.vertices[ends.second]});
  }
}

RingMesh sleeve(const CentreLine& line, double from_mm, double to_mm, double radius_mm, int sides) {
  RingMesh mesh;
  from_mm = std::clamp(from_mm, 0.0, line.length_mm());
  to_mm = std::clamp(to_mm, 0.0, line.length_mm());
  if (to_mm - from_mm <= 0 || line.pieces().empty()) return mesh;
  // Stations at the joints of pieces, and along bends every few degrees.
  std::vector<double> stations{from_mm};
  for (const Piece& piece : line.pieces()) {
    const auto* arc = std::get_if<Arc>(&piece.shape);
    const int parts = arc ? std::max(1, static_cast<int>(std::ceil(arc->sweep.degrees() / 5))) : 1;
    for (int i = 0; i <= parts; ++i) {
      const double at = piece.starts_at_mm + piece.length_mm * i / parts;
      if (at > stations.back() + 1e-6 && at < to_mm - 1e-6) stations.push_back(at);
    }
  }
  stations.push_back(to_mm);
  Vec3 across = any_square_to(line.direction_at(from_mm));
  for (const double at : stations) {
    const Vec3 travel = line.direction_at(at);
    across = (across - across.dot(travel) * travel).normalized();
    const Vec3 beside = travel.cross(across);
    for (int side = 0; side < sides; ++side) {
      const double angle = 2 * std::numbers::pi * side / sides;
      const Vec3 outwards = std::cos(angle) * across + std::sin(angle) * beside;
      mesh.vertices.push_back(line.point_at(at) + radius_mm * outwards);
      mesh.normals.push_back(outwards);
      mesh.along_mm.push_back(at);
    }
  }
  for (int ring = 0; ring + 1 < static_cast<int>(stations.size()); ++ring) {
    for (int side = 0; side < sides; ++side) {
      const int here = ring * sides + side, next = ring * sides + (side + 1) % sides;
      mesh.triangles.push_back({here, next, next + sides});
      mesh.triangles.push_back({here, next + sides, here + sides});
    }
  }
  return mesh;
}

}  // namespace halfhard
