// A tree of boxes over the triangles of a closed surface, for nearest points with a sign. Site frame, mm.
//
// The sign comes from the nearest corner's, edge's or face's normal where the surface closes (corners in one place are
// joined first), else from how much of the view the surface fills (winding number, slow but forgiving of holes).
// Triangles without area take no part.
#pragma once

#include <array>
#include <functional>
#include <memory>
#include <vector>

#include "geometry/base/bounds.h"
#include "geometry/distance/body.h"
#include "geometry/distance/solid_piece.h"

namespace halfhard {

class TriangleTree {
 public:
  explicit TriangleTree(std::shared_ptr<const TriangleBody> body);

  // Signed distance, negative inside. Infinite where there is no triangle.
  Foot foot(const Vec3& point) const;
  const Bounds& bounds() const;
  bool closed() const { return closed_; }
  int triangle_count() const { return static_cast<int>(triangles_.size()); }
  std::array<Vec3, 3> triangle(int index) const;
  // Calls for every triangle whose box is nearer than `limit()` to the box; the limit may fall as it goes.
  void each_near(const Bounds& box, const std::function<double()>& limit, const std::function<void(int)>& call) const;

 private:
  struct Node {
    Bounds bounds;
    int first = 0, count = 0;  // triangles of a leaf
    int left = -1, right = -1;
  };
  struct Triangle {
    std::array<int, 3> corners;
    Vec3 normal;                       // unit
    std::array<Vec3, 3> edge_normals;  // of the edge from corner i to i + 1; not unit
  };
  int build(int first, int count, std::vector<Vec3>& centres, std::vector<int>& order);
  double winding(const Vec3& point) const;

  std::vector<Vec3> corners_;
  std::vector<Vec3> corner_normals_;
  std::vector<Triangle> triangles_;
  std::vector<Node> nodes_;
  bool closed_ = false;
};

// The nearest point of a triangle and which feature it is on: 0 the face, 1-3 the edge from corner 0, 1, 2, 4-6 a
// corner.
struct TriangleFoot {
  Vec3 at;
  int feature = 0;
};
TriangleFoot triangle_foot(const Vec3& a, const Vec3& b, const Vec3& c, const Vec3& point);

}  // namespace halfhard
