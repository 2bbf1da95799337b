// Clearances against a general collision library (FCL), which knows tubes as meshes and straights as cylinders.
#include <fcl/fcl.h>
#include <gtest/gtest.h>

#include <numbers>

#include "geometry/distance/distance.h"
#include "tests/geometry/distance/random_tubes.h"

namespace halfhard {
namespace {

using testing::Dice;
using testing::random_line;
using Mesh = fcl::BVHModel<fcl::OBBRSSd>;

// Rings of corners along a tube and a cap at both ends. It stays inside the tube: by radius * (1 - cos(pi / around)) at
// the side, and by (R + radius) * (1 - cos(half the bend a ring)) at the outside of bends.
constexpr int kAround = 96;
constexpr double kRing_mm = 0.8;
double mesh_error(double bend_radius, double radius) {
  const double side = radius * (1 - std::cos(std::numbers::pi / kAround));
  return side + (bend_radius + radius) * (1 - std::cos(kRing_mm / bend_radius / 2)) + 1e-4;
}

std::shared_ptr<Mesh> mesh_of(const CentreLine& line, double radius) {
  auto mesh = std::make_shared<Mesh>();
  std::vector<fcl::Vector3d> corners;
  std::vector<fcl::Triangle> triangles;
  const int rings = std::max(2, static_cast<int>(std::ceil(line.length_mm() / kRing_mm)));
  Vec3 u = any_square_to(line.direction_at(0));
  for (int i = 0; i <= rings; ++i) {
    const double s = line.length_mm() * i / rings;
    const Vec3 at = line.point_at(s), t = line.direction_at(s);
    u = (u - u.dot(t) * t).normalized();  // carried along, so that the skin does not twist
    for (int k = 0; k < kAround; ++k) {
      const double a = 2 * std::numbers::pi * k / kAround;
      corners.push_back(at + radius * (std::cos(a) * u + std::sin(a) * t.cross(u)));
    }
  }
  for (int i = 0; i < rings; ++i) {
    for (int k = 0; k < kAround; ++k) {
      const int a = i * kAround + k, b = i * kAround + (k + 1) % kAround;
      triangles.emplace_back(a, b, b + kAround);
      triangles.emplace_back(a, b + kAround, a + kAround);
    }
  }
  for (const int first : {0, rings * kAround}) {
    for (int k = 1; k + 1 < kAround; ++k) triangles.emplace_back(first, first + k, first + k + 1);
  }
  mesh->beginModel();
  mesh->addSubModel(corners, triangles);
  mesh->endModel();
  return mesh;
}

double fcl_distance(const std::shared_ptr<fcl::CollisionGeometryd>& one, const fcl::Transform3d& one_at,
                    const std::shared_ptr<fcl::CollisionGeometryd>& other, const fcl::Transform3d& other_at) {
  fcl::CollisionObjectd a(one, one_at), b(other, other_at);
  fcl::DistanceRequestd request;
  fcl::DistanceResultd result;
  return fcl::distance(&a, &b, request, result);
}

TEST(CollisionOracle, TwoTubesAreAsFarAsTheirMeshes) {
  int apart = 0;
  for (unsigned number = 0; number < 12; ++number) {
    SCOPED_TRACE(number);
    Dice dice(number + 500);
    const CentreLine one = random_line(dice, dice.upto(3), 45, 150), other = random_line(dice, dice.upto(3), 50, 150);
    const double found = distance(TubeBody(one, 7.5), TubeBody(other, 11)).distance_mm;
    if (found <= 0) continue;
    ++apart;
    const fcl::Transform3d still = fcl::Transform3d::Identity();
    const double mesh = fcl_distance(mesh_of(one, 7.5), still, mesh_of(other, 11), still);
    EXPECT_LE(found, mesh + 1e-5);
    EXPECT_GE(found, mesh - mesh_error(45, 7.5) - mesh_error(50, 11));
  }
  EXPECT_GE(apart, 4);
}

TEST(CollisionOracle, StraightTubesAreAsFarAsConvexCylinders) {
  int apart = 0;
  for (unsigned number = 0; number < 200; ++number) {
    SCOPED_TRACE(number);
    Dice dice(number + 900);
    const Vec3 from = dice.point(100), to = from + dice.between(20, 200) * dice.direction();
    const Box box{dice.point(150), dice.attitude(), {dice.between(5, 90), dice.between(5, 90), dice.between(5, 90)}};
    const double radius = dice.between(3, 20);
    const double found =
        distance(TubeBody(CentreLine::through({from, to}, 55), radius), Obstacle(Body{box, std::monostate{}}))
            .distance_mm;
    if (found <= 0.1) continue;
    ++apart;
    fcl::Transform3d tube_at = fcl::Transform3d::Identity(), box_at = fcl::Transform3d::Identity();
    tube_at.translation() = (from + to) / 2;
    tube_at.linear() = Eigen::Quaterniond::FromTwoVectors(Vec3::UnitZ(), to - from).toRotationMatrix();
    box_at.translation() = box.centre;
    box_at.linear() = box.axes;
    const double convex = fcl_distance(std::make_shared<fcl::Cylinderd>(radius, (to - from).norm()), tube_at,
                                       std::make_shared<fcl::Boxd>(2 * box.half), box_at);
    EXPECT_NEAR(found, convex, 2e-3);
  }
  EXPECT_GT(apart, 60);
}

}  // namespace
}  // namespace halfhard
