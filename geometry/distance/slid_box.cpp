#include "geometry/distance/slid_box.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

namespace halfhard {
namespace {

// The swept solid is centre + all sums of the half edges each taken from -1 to 1: the box's three and half the shift.
// Every face of such a solid is square to two of the half edges at least; it is the sum of those that lie in it, on top
// of the others all taken outwards.
struct Faces {
  std::vector<Vec3> edges;  // half edges
  TriangleBody body;

  void add_face(const Vec3& normal, const Vec3& middle, std::vector<Vec3> in_face) {
    // Around the face: each half edge turned to the same side, in order of its direction.
    const Vec3 u = any_square_to(normal), v = normal.cross(u);
    for (Vec3& edge : in_face) {
      const double angle = std::atan2(edge.dot(v), edge.dot(u));
      if (angle < 0 || angle >= std::numbers::pi) edge = -edge;
    }
    std::sort(in_face.begin(), in_face.end(), [&](const Vec3& a, const Vec3& b) {
      return std::atan2(a.dot(v), a.dot(u)) < std::atan2(b.dot(v), b.dot(u));
    });
    Vec3 corner = middle;
    for (const Vec3& edge : in_face) corner -= edge;
    const int first = static_cast<int>(body.vertices.size());
    for (const double side : {1.0, -1.0}) {
      for (const Vec3& edge : in_face) {
        body.vertices.push_back(corner);
        corner += side * 2 * edge;
      }
    }
    const int count = static_cast<int>(body.vertices.size()) - first;
    for (int i = 1; i + 1 < count; ++i) body.triangles.push_back({first, first + i, first + i + 1});
  }
};

}  // namespace

std::shared_ptr<Obstacle::Kind> slid_box_kind(const Box& box, const Vec3& shift) {
  const Vec3 local = box.axes.transpose() * shift;
  int along = 0;
  local.cwiseAbs().maxCoeff(&along);
  Vec3 rest = local;
  rest[along] = 0;
  if (rest.norm() <= 1e-11 * local.norm() || box.half.minCoeff() <= 0) {
    if (rest.norm() > 1e-11 * local.norm()) return nullptr;
    Box longer = box;
    longer.half[along] += std::abs(local[along]) / 2;
    longer.centre += local[along] / 2 * box.axes.col(along);
    return box_kind(longer);
  }
  Faces faces;
  for (int i = 0; i < 3; ++i) faces.edges.push_back(box.half[i] * box.axes.col(i));
  faces.edges.push_back(shift / 2);
  std::vector<Vec3> done;
  for (int i = 0; i < 4; ++i) {
    for (int j = i + 1; j < 4; ++j) {
      Vec3 normal = faces.edges[i].normalized().cross(faces.edges[j].normalized());
      if (normal.norm() < 1e-11) continue;
      normal.normalize();
      const bool known =
          std::any_of(done.begin(), done.end(), [&](const Vec3& n) { return n.cross(normal).norm() < 1e-10; });
      if (known) continue;
      done.push_back(normal);
      for (const Vec3& out : {normal, Vec3(-normal)}) {
        Vec3 middle = box.centre + shift / 2;
        std::vector<Vec3> in_face;
        for (const Vec3& edge : faces.edges) {
          const double up = edge.dot(out);
          if (std::abs(up) <= 1e-10 * edge.norm()) {
            in_face.push_back(edge);
          } else {
            middle += std::copysign(1.0, up) * edge;
          }
        }
        faces.add_face(out, middle, in_face);
      }
    }
  }
  return triangle_kind(std::make_shared<const TriangleBody>(std::move(faces.body)), true);
}

}  // namespace halfhard
