#include "geometry/curve/ring_mesh.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "geometry/base/require.h"

namespace halfhard {
namespace {

// A cross-section: `across` carries the seam, square to travel.
struct Station {
  Vec3 at, travel, across;
  double along_mm = 0;
};

// The bound of the header with a quarter of the error for each squared term; the mixed term is then below half of it,
// because r < R.
double largest_step_rad(double second_derivative, double chord_error_mm) {
  return std::sqrt(2 * chord_error_mm / second_derivative);
}

std::vector<Station> stations(const CentreLine& line, double radius, double chord_error_mm) {
  std::vector<Station> all;
  for (const Piece& piece : line.pieces()) {
    if (const auto* straight = std::get_if<Straight>(&piece.shape)) {
      const Vec3 travel = (straight->to - straight->from).normalized();
      if (all.empty()) all.push_back({straight->from, travel, any_square_to(travel), piece.starts_at_mm});
      all.push_back({straight->to, travel, all.back().across, piece.starts_at_mm + piece.length_mm});
      continue;
    }
    const Arc& arc = std::get<Arc>(piece.shape);
    if (all.empty()) all.push_back({arc.point(0), arc.along, any_square_to(arc.along), piece.starts_at_mm});
    const Vec3 across = all.back().across;
    const double step = largest_step_rad(arc.radius + radius, chord_error_mm);
    const int count = std::max(1, static_cast<int>(std::ceil(arc.sweep.radians() / step)));
    for (int i = 1; i <= count; ++i) {
      const double part = static_cast<double>(i) / count;
      const double angle = part * arc.sweep.radians();
      all.push_back({arc.point(angle), arc.direction(angle), Eigen::AngleAxisd(angle, arc.axis()) * across,
                     piece.starts_at_mm + part * piece.length_mm});
    }
  }
  return all;
}

Vec3 spoke(const Station& station, int side, int sides) {
  const double angle = 2 * std::numbers::pi * side / sides;
  return std::cos(angle) * station.across + std::sin(angle) * station.travel.cross(station.across);
}

void add_ring(RingMesh& mesh, const Station& station, double radius, int sides, const Vec3* flat_normal) {
  for (int side = 0; side < sides; ++side) {
    const Vec3 outwards = spoke(station, side, sides);
    mesh.vertices.push_back(station.at + radius * outwards);
    mesh.normals.push_back(flat_normal ? *flat_normal : outwards);
    mesh.along_mm.push_back(station.along_mm);
  }
}

// Joins two rings of `sides` vertices that start at `first` and `second`; outward where `second` lies ahead.
void join_rings(RingMesh& mesh, int first, int second, int sides) {
  for (int side = 0; side < sides; ++side) {
    const int next = (side + 1) % sides;
    mesh.triangles.push_back({first + side, first + next, second + next});
    mesh.triangles.push_back({first + side, second + next, second + side});
  }
}

void add_end(RingMesh& mesh, const Station& station, double outside, double inside, int sides, bool at_start) {
  const Vec3 normal = at_start ? Vec3(-station.travel) : station.travel;
  const int outer = static_cast<int>(mesh.vertices.size());
  add_ring(mesh, station, outside, sides, &normal);
  if (inside > 0) {
    add_ring(mesh, station, inside, sides, &normal);
    const int inner = outer + sides;
    if (at_start)
      join_rings(mesh, inner, outer, sides);
    else
      join_rings(mesh, outer, inner, sides);
    return;
  }
  for (int side = 1; side + 1 < sides; ++side) {
    if (at_start)
      mesh.triangles.push_back({outer, outer + side + 1, outer + side});
    else
      mesh.triangles.push_back({outer, outer + side, outer + side + 1});
  }
}

}  // namespace

int ring_sides(double outside_radius_mm, double chord_error_mm) {
  const double step = largest_step_rad(outside_radius_mm, chord_error_mm);
  return std::max(8, static_cast<int>(std::ceil(2 * std::numbers::pi / step)));
}

RingMesh ring_mesh(const CentreLine& line, double outside_radius_mm, double inside_radius_mm, double chord_error_mm) {
  HALFHARD_REQUIRE(inside_radius_mm >= 0 && inside_radius_mm < outside_radius_mm && chord_error_mm > 0);
  RingMesh mesh;
  if (line.pieces().empty()) return mesh;
  HALFHARD_REQUIRE(line.bend_count() == 0 || outside_radius_mm < line.radius_mm());
  const std::vector<Station> all = stations(line, outside_radius_mm, chord_error_mm);
  const int sides = ring_sides(outside_radius_mm, chord_error_mm);
  const size_t vertices = (all.size() + 4) * sides;
  mesh.vertices.reserve(vertices);
  mesh.normals.reserve(vertices);
  mesh.along_mm.reserve(vertices);
  mesh.triangles.reserve(2 * (all.size() + 1) * sides);
  for (const Station& station : all) add_ring(mesh, station, outside_radius_mm, sides, nullptr);
  for (int ring = 0; ring + 1 < static_cast<int>(all.size()); ++ring)
    join_rings(mesh, ring * sides, (ring + 1) * sides, sides);
  add_end(mesh, all.front(), outside_radius_mm, inside_radius_mm, sides, true);
  add_end(mesh, all.back(), outside_radius_mm, inside_radius_mm, sides, false);
  return mesh;
}

}  // namespace halfhard
