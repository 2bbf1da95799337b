// A box as triangles, each face cut into squares, every face with corners of its own as STEP bodies come.
#pragma once

#include <memory>

#include "geometry/distance/body.h"

namespace halfhard::testing {

inline std::shared_ptr<const TriangleBody> box_mesh(const Box& box, int cuts) {
  auto body = std::make_shared<TriangleBody>();
  for (int axis = 0; axis < 3; ++axis) {
    for (const double side : {-1.0, 1.0}) {
      const int u = (axis + 1) % 3, v = (axis + 2) % 3;
      const int first = static_cast<int>(body->vertices.size());
      for (int i = 0; i <= cuts; ++i) {
        for (int j = 0; j <= cuts; ++j) {
          Vec3 at = side * box.half[axis] * Vec3::Unit(axis);
          at[u] = box.half[u] * (2.0 * i / cuts - 1);
          at[v] = box.half[v] * (2.0 * j / cuts - 1);
          body->vertices.push_back(box.centre + box.axes * at);
        }
      }
      for (int i = 0; i < cuts; ++i) {
        for (int j = 0; j < cuts; ++j) {
          const int a = first + i * (cuts + 1) + j, b = a + cuts + 1;
          if (side > 0) {
            body->triangles.push_back({a, b, b + 1});
            body->triangles.push_back({a, b + 1, a + 1});
          } else {
            body->triangles.push_back({a, b + 1, b});
            body->triangles.push_back({a, a + 1, b + 1});
          }
        }
      }
    }
  }
  return body;
}

}  // namespace halfhard::testing
