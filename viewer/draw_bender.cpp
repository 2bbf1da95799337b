#include "viewer/draw_bender.h"

#include <algorithm>
#include <cmath>

#include "viewer/solids.h"

namespace halfhard {
namespace {

constexpr double kBenchThick_mm = 30;

}  // namespace

double hook_reach_mm(const Run& run) { return std::max(20.0, 1.8 * run.tube->outside_radius_mm()); }

double lever_reach_mm(const Run& run) {
  const double across = run.line.radius_mm() + 2.4 * run.tube->outside_radius_mm();
  return std::hypot(across, 2 * hook_reach_mm(run) + 6 * run.line.radius_mm());
}

// The former: a round block whose groove holds the tube at the bend's radius, the hook that grips it, the guide that
// follows the pull, and the lever.
Part draw_bender(const Run& run, Angle pulled) {
  Part part{PartKind::tool, "bender", {}};
  const double radius = run.line.radius_mm(), tube = run.tube->outside_radius_mm();
  const Vec3 centre(0, radius, 0), axis = Vec3::UnitZ();
  Layer body{Paint::bender, {}, {}}, edges{Paint::edge, {}, {}};
  const double inner = std::max(5.0, radius - tube);
  add_cone(body.mesh, centre - 1.5 * tube * axis, centre + 1.5 * tube * axis, inner, inner, 64);
  add_cone_edges(edges.lines, centre - 1.5 * tube * axis, centre + 1.5 * tube * axis, inner, inner, 0);
  // Hook: behind the start of the curve, over the outside of the tube.
  const double reach = hook_reach_mm(run);
  Box hook{Vec3(-reach, -1.5 * tube, 0), Mat3::Identity(), Vec3(reach / 2, 0.45 * tube, 1.3 * tube)};
  add_box(body.mesh, edges.lines, hook);
  // Guide and lever: swing about the former's centre with the pull.
  const Eigen::AngleAxisd swing(pulled.radians(), axis);
  const Mat3 axes = swing.toRotationMatrix();
  const Vec3 guide_at = centre + swing * Vec3(reach, -radius - 1.5 * tube, 0);
  add_box(body.mesh, edges.lines, Box{guide_at, axes, Vec3(reach, 0.45 * tube, 1.3 * tube)});
  const Vec3 lever_from = centre + swing * Vec3(2 * reach, -radius - 2.4 * tube, 0);
  const Vec3 lever_to = lever_from + swing * Vec3(6 * radius, 0, 0);
  add_cone(body.mesh, lever_from, lever_to, 0.6 * tube + 4, 0.6 * tube + 4, 20);
  part.layers.push_back(std::move(body));
  part.layers.push_back(std::move(edges));
  return part;
}

Vec3 Bench::middle() const { return {0, 0, -kBenchBelow_mm - kBenchThick_mm / 2}; }
Vec3 Bench::half_sizes() const { return {half_mm, 0.7 * half_mm, kBenchThick_mm / 2}; }

Part Bench::draw(bool seen_through) const {
  Part part{PartKind::tool, "bench", {}};
  Layer top{seen_through ? Paint::fixture : Paint::bench, {}, {}, true}, edges{Paint::edge, {}, {}};
  add_box(top.mesh, edges.lines, Box{middle(), Mat3::Identity(), half_sizes()});
  part.layers = {std::move(top), std::move(edges)};
  return part;
}

bool Bench::meets(const Vec3& place, double radius_mm) const {
  const Vec3 half = half_sizes();
  return std::abs(place.x()) < half.x() && std::abs(place.y()) < half.y() && place.z() - radius_mm < -kBenchBelow_mm;
}

}  // namespace halfhard
