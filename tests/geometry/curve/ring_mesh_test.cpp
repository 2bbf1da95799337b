#include "geometry/curve/ring_mesh.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <numbers>

namespace halfhard {
namespace {

CentreLine crooked_line() {
  return CentreLine::through({{0, 0, 0}, {0, 0, 200}, {150, 0, 300}, {150, 220, 300}, {40, 260, 420}}, 55);
}

double distance_to_line(const CentreLine& line, const Vec3& at, double near_mm) {
  double best = 1e9;
  for (double s = near_mm - 40; s <= near_mm + 40; s += 0.01) best = std::min(best, (line.point_at(s) - at).norm());
  return best;
}

double signed_volume(const RingMesh& mesh) {
  double volume = 0;
  for (const auto& t : mesh.triangles)
    volume += mesh.vertices[t[0]].dot(mesh.vertices[t[1]].cross(mesh.vertices[t[2]])) / 6;
  return volume;
}

TEST(RingMesh, EveryVertexOfTheSkinLiesOnTheTube) {
  const CentreLine line = crooked_line();
  const RingMesh mesh = ring_mesh(line, 7.5, 6.8, 0.2);
  const size_t skin = mesh.vertices.size() - 4 * ring_sides(7.5, 0.2);
  for (size_t i = 0; i < skin; i += 7)
    EXPECT_NEAR((mesh.vertices[i] - line.point_at(mesh.along_mm[i])).norm(), 7.5, 1e-9);
}

TEST(RingMesh, NoTriangleStraysFromTheTubeByMoreThanTheChordError) {
  const CentreLine line = crooked_line();
  for (const double error : {0.05, 0.3, 1.0}) {
    const RingMesh mesh = ring_mesh(line, 7.5, 6.8, error);
    const size_t ends = 4 * ring_sides(7.5, error);
    double worst = 0;
    for (size_t i = 0; i + ends < mesh.triangles.size(); i += 37) {
      const auto& t = mesh.triangles[i];
      const Vec3 middle = (mesh.vertices[t[0]] + mesh.vertices[t[1]] + mesh.vertices[t[2]]) / 3;
      const Vec3 hypotenuse = (mesh.vertices[t[0]] + mesh.vertices[t[2]]) / 2;
      const double along = (mesh.along_mm[t[0]] + mesh.along_mm[t[2]]) / 2;
      for (const Vec3& at : {middle, hypotenuse})
        worst = std::max(worst, std::abs(distance_to_line(line, at, along) - 7.5));
    }
    EXPECT_LE(worst, error);
    EXPECT_GT(worst, error / 20) << "finer than it need be";
  }
}

TEST(RingMesh, NormalsPointOutOfTheTriangles) {
  const RingMesh mesh = ring_mesh(crooked_line(), 7.5, 6.8, 0.2);
  for (const auto& t : mesh.triangles) {
    const Vec3 facing =
        (mesh.vertices[t[1]] - mesh.vertices[t[0]]).cross(mesh.vertices[t[2]] - mesh.vertices[t[0]]).normalized();
    for (const int corner : t) EXPECT_GT(facing.dot(mesh.normals[corner]), 0.9);
  }
}

TEST(RingMesh, AClosedBarHoldsPappusVolume) {
  const CentreLine line = crooked_line();
  const RingMesh mesh = ring_mesh(line, 7.5, 0, 0.01);
  const double true_volume = std::numbers::pi * 7.5 * 7.5 * line.length_mm();
  EXPECT_NEAR(signed_volume(mesh) / true_volume, 1, 0.002);
}

TEST(RingMesh, EveryEdgeOfABarIsSharedByTwoTriangles) {
  const RingMesh mesh = ring_mesh(crooked_line(), 7.5, 0, 0.5);
  std::map<std::pair<std::array<double, 3>, std::array<double, 3>>, int> edges;
  const auto place = [&](int i) {
    const Vec3& v = mesh.vertices[i];
    return std::array<double, 3>{v.x(), v.y(), v.z()};
  };
  for (const auto& t : mesh.triangles)
    for (int side = 0; side < 3; ++side) ++edges[std::minmax(place(t[side]), place(t[(side + 1) % 3]))];
  for (const auto& [edge, count] : edges) ASSERT_EQ(count, 2);
}

TEST(RingMesh, AnEmptyLineGivesAnEmptyMesh) { EXPECT_TRUE(ring_mesh(CentreLine(), 7.5, 6.8, 0.2).vertices.empty()); }

}  // namespace
}  // namespace halfhard
