// A tube's centre line against triangles, triangle by triangle. Internal to geometry.
#pragma once

#include "geometry/distance/distance.h"
#include "geometry/distance/distance_search.h"
#include "geometry/distance/triangle_tree.h"

namespace halfhard {

// One triangle as a flat convex set.
struct TriangleSet {
  std::array<Vec3, 3> corners;
  Foot foot(const Vec3& point) const;  // distance never negative
  std::optional<Vec3> farthest(const Vec3& direction) const;
  // Where it crosses the plane, nearest to `at`, `above` and `below` being the farthest points on its two sides.
  Vec3 in_plane(const Vec3& at, const Vec3& normal, const Vec3& above, const Vec3& below) const;
};

// The place of the centre line nearest to the surface, as search::least_along finds it: closer to certain, and far
// faster beside flat faces, because each triangle is convex. Where the line enters the body, the deepest place, certain
// to kDepth_mm: a body that is known by its triangles only is no better known.
inline constexpr double kDepth_mm = 2e-3;
search::Least least_to_triangles(const TubeBody& tube, const TriangleTree& tree, double limit);

}  // namespace halfhard
