#include "geometry/distance/triangle_tree.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <numeric>

#include "geometry/curve/centreline.h"

namespace halfhard {
namespace {

constexpr int kLeaf = 4;

// Corners in one place become one; STEP faces are meshed one by one and share none.
std::vector<int> joined_corners(const std::vector<Vec3>& vertices, std::vector<Vec3>& corners) {
  std::map<std::array<double, 3>, int> known;
  std::vector<int> index(vertices.size());
  for (std::size_t i = 0; i < vertices.size(); ++i) {
    const auto key = [](double x) { return std::nearbyint(x * 1e6) / 1e6 + 0.0; };
    const std::array<double, 3> place{key(vertices[i].x()), key(vertices[i].y()), key(vertices[i].z())};
    const auto [found, added] = known.try_emplace(place, static_cast<int>(corners.size()));
    if (added) corners.push_back(vertices[i]);
    index[i] = found->second;
  }
  return index;
}

double corner_angle(const Vec3& at, const Vec3& one, const Vec3& other) {
  return angle_between(one - at, other - at).radians();
}

}  // namespace

TriangleTree::TriangleTree(std::shared_ptr<const TriangleBody> body) {
  const std::vector<int> joined = joined_corners(body->vertices, corners_);
  for (const auto& t : body->triangles) {
    const Vec3 none = Vec3::Zero();
    Triangle triangle{{joined[t[0]], joined[t[1]], joined[t[2]]}, none, {none, none, none}};
    const Vec3 square = (corners_[triangle.corners[1]] - corners_[triangle.corners[0]])
                            .cross(corners_[triangle.corners[2]] - corners_[triangle.corners[0]]);
    if (!(square.norm() > 0)) continue;
    triangle.normal = square.normalized();
    triangles_.push_back(triangle);
  }
  // Each edge once each way: then the surface closes.
  std::map<std::array<int, 2>, int> edges;  // directed -> triangle
  closed_ = !triangles_.empty();
  corner_normals_.assign(corners_.size(), Vec3::Zero());
  for (int i = 0; i < triangle_count(); ++i) {
    const Triangle& t = triangles_[i];
    for (int e = 0; e < 3; ++e) {
      const int from = t.corners[e], to = t.corners[(e + 1) % 3], last = t.corners[(e + 2) % 3];
      if (!edges.try_emplace({from, to}, i).second) closed_ = false;
      corner_normals_[from] += corner_angle(corners_[from], corners_[to], corners_[last]) * t.normal;
    }
  }
  for (Triangle& t : triangles_) {
    for (int e = 0; e < 3; ++e) {
      const auto other = edges.find({t.corners[(e + 1) % 3], t.corners[e]});
      if (other == edges.end()) closed_ = false;
      t.edge_normals[e] = other == edges.end() ? t.normal : Vec3(t.normal + triangles_[other->second].normal);
    }
  }
  std::vector<Vec3> centres;
  for (int i = 0; i < triangle_count(); ++i) {
    const auto c = triangle(i);
    centres.push_back((c[0] + c[1] + c[2]) / 3);
  }
  std::vector<int> order(triangles_.size());
  std::iota(order.begin(), order.end(), 0);
  if (!order.empty()) build(0, triangle_count(), centres, order);
  std::vector<Triangle> sorted;
  for (const int i : order) sorted.push_back(triangles_[i]);
  triangles_ = std::move(sorted);
}

int TriangleTree::build(int first, int count, std::vector<Vec3>& centres, std::vector<int>& order) {
  const int index = static_cast<int>(nodes_.size());
  nodes_.emplace_back();
  Bounds bounds, spread;
  for (int i = first; i < first + count; ++i) {
    for (const Vec3& corner : triangle(order[i])) bounds.add(corner);
    spread.add(centres[order[i]]);
  }
  nodes_[index].bounds = bounds;
  if (count <= kLeaf) {
    nodes_[index].first = first;
    nodes_[index].count = count;
    return index;
  }
  int axis = 0;
  (spread.high - spread.low).maxCoeff(&axis);
  const auto begin = order.begin() + first;
  std::nth_element(begin, begin + count / 2, begin + count, [&](int a, int b) {
    return centres[a][axis] != centres[b][axis] ? centres[a][axis] < centres[b][axis] : a < b;
  });
  const int left = build(first, count / 2, centres, order);
  const int right = build(first + count / 2, count - count / 2, centres, order);
  nodes_[index].left = left;
  nodes_[index].right = right;
  return index;
}

std::array<Vec3, 3> TriangleTree::triangle(int index) const {
  const auto& c = triangles_[index].corners;
  return {corners_[c[0]], corners_[c[1]], corners_[c[2]]};
}

const Bounds& TriangleTree::bounds() const {
  static const Bounds kNothing;
  return nodes_.empty() ? kNothing : nodes_.front().bounds;
}

Foot TriangleTree::foot(const Vec3& point) const {
  Foot best = foot_at(std::numeric_limits<double>::infinity(), point);
  if (nodes_.empty()) return best;
  double nearest = std::numeric_limits<double>::infinity();  // squared
  int best_triangle = 0, best_feature = 0;
  int stack[128];
  int depth = 0;
  stack[depth++] = 0;
  while (depth > 0) {
    const Node& node = nodes_[stack[--depth]];
    if (node.bounds.squared_distance(point) > nearest) continue;
    if (node.left < 0) {
      for (int i = node.first; i < node.first + node.count; ++i) {
        const auto& c = triangles_[i].corners;
        const TriangleFoot foot = triangle_foot(corners_[c[0]], corners_[c[1]], corners_[c[2]], point);
        const double squared = (foot.at - point).squaredNorm();
        if (squared < nearest) {
          nearest = squared;
          best.at = foot.at;
          best_triangle = i;
          best_feature = foot.feature;
        }
      }
      continue;
    }
    const double left = nodes_[node.left].bounds.squared_distance(point);
    const double right = nodes_[node.right].bounds.squared_distance(point);
    stack[depth++] = left < right ? node.right : node.left;
    stack[depth++] = left < right ? node.left : node.right;
  }
  bool inside = false;
  if (closed_) {
    const Triangle& t = triangles_[best_triangle];
    const Vec3 normal = best_feature == 0  ? t.normal
                        : best_feature < 4 ? t.edge_normals[best_feature - 1]
                                           : corner_normals_[t.corners[best_feature - 4]];
    inside = (point - best.at).dot(normal) < 0;
  } else {
    inside = winding(point) > 0.5;
  }
  best.distance = inside ? -std::sqrt(nearest) : std::sqrt(nearest);
  return best;
}

// Solid angle of a triangle: tan(angle / 2) = a.(b x c) / (abc + (a.b)c + (a.c)b + (b.c)a) (van Oosterom and Strackee,
// 1983, from memory).
double TriangleTree::winding(const Vec3& point) const {
  double sum = 0;
  for (const Triangle& t : triangles_) {
    const Vec3 a = corners_[t.corners[0]] - point, b = corners_[t.corners[1]] - point,
               c = corners_[t.corners[2]] - point;
    const double la = a.norm(), lb = b.norm(), lc = c.norm();
    sum += 2 * std::atan2(a.dot(b.cross(c)), la * lb * lc + a.dot(b) * lc + a.dot(c) * lb + b.dot(c) * la);
  }
  return sum / (4 * std::numbers::pi);
}

void TriangleTree::each_near(const Bounds& box, const std::function<double()>& limit,
                             const std::function<void(int)>& call) const {
  if (nodes_.empty()) return;
  std::vector<int> stack{0};
  while (!stack.empty()) {
    const Node& node = nodes_[stack.back()];
    stack.pop_back();
    const double most = limit();
    if (node.bounds.squared_distance(box) >= most * most) continue;
    if (node.left < 0) {
      for (int i = node.first; i < node.first + node.count; ++i) call(i);
      continue;
    }
    const bool left_first =
        nodes_[node.left].bounds.squared_distance(box) <= nodes_[node.right].bounds.squared_distance(box);
    stack.push_back(left_first ? node.right : node.left);
    stack.push_back(left_first ? node.left : node.right);
  }
}

TriangleFoot triangle_foot(const Vec3& a, const Vec3& b, const Vec3& c, const Vec3& p) {
  // Region by region of the plane around the triangle: corners, edges, face.
  const Vec3 ab = b - a, ac = c - a, ap = p - a;
  const double d1 = ab.dot(ap), d2 = ac.dot(ap);
  if (d1 <= 0 && d2 <= 0) return {a, 4};
  const Vec3 bp = p - b;
  const double d3 = ab.dot(bp), d4 = ac.dot(bp);
  if (d3 >= 0 && d4 <= d3) return {b, 5};
  const double vc = d1 * d4 - d3 * d2;
  if (vc <= 0 && d1 >= 0 && d3 <= 0) return {a + d1 / (d1 - d3) * ab, 1};
  const Vec3 cp = p - c;
  const double d5 = ab.dot(cp), d6 = ac.dot(cp);
  if (d6 >= 0 && d5 <= d6) return {c, 6};
  const double vb = d5 * d2 - d1 * d6;
  if (vb <= 0 && d2 >= 0 && d6 <= 0) return {a + d2 / (d2 - d6) * ac, 3};
  const double va = d3 * d6 - d5 * d4;
  if (va <= 0 && d4 - d3 >= 0 && d5 - d6 >= 0) {
    return {b + (d4 - d3) / ((d4 - d3) + (d5 - d6)) * (c - b), 2};
  }
  const double sum = va + vb + vc;
  return {a + vb / sum * ab + vc / sum * ac, 0};
}

}  // namespace halfhard
