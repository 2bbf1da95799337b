#include <algorithm>
#include <cmath>

#include "viewer/draw_plan.h"
#include "viewer/solids.h"

namespace halfhard {
namespace {

// An endless face cut to a rectangle behind what is drawn, with hatching on its solid side along the edge, as a section
// through masonry is hatched.
void add_wall(Layer& face, Layer& lines, const HalfSpace& plane, const Bounds& room) {
  const Vec3 normal = plane.facing.normalized();
  const Vec3 up = std::abs(normal.z()) < 0.9 ? Vec3(Vec3::UnitZ() - normal.z() * normal).normalized()
                                             : Vec3(Vec3::UnitY() - normal.y() * normal).normalized();
  const Vec3 across = up.cross(normal);
  double least_across = 1e300, most_across = -1e300, least_up = 1e300, most_up = -1e300;
  for (const Vec3& corner : corners_of(room)) {
    const Vec3 offset = corner - plane.at;
    least_across = std::min(least_across, offset.dot(across));
    most_across = std::max(most_across, offset.dot(across));
    least_up = std::min(least_up, offset.dot(up));
    most_up = std::max(most_up, offset.dot(up));
  }
  const auto place = [&](double a, double u) -> Vec3 { return plane.at + a * across + u * up; };
  const std::vector<Vec3> corners{place(least_across, least_up), place(most_across, least_up),
                                  place(most_across, most_up), place(least_across, most_up)};
  add_face(face.mesh, corners);
  add_closed_outline(lines.lines, corners);
  const double tick = 0.018 * (room.high - room.low).norm();
  for (size_t side = 0; side < 4; ++side) {
    const Vec3 from = corners[side], to = corners[(side + 1) % 4];
    const int count = std::clamp(static_cast<int>((to - from).norm() / (1.6 * tick)), 1, 200);
    const Vec3 along = (to - from).normalized();
    for (int i = 1; i <= count; ++i) {
      const Vec3 at = from + (to - from) * (static_cast<double>(i) / count);
      lines.lines.push_back({at, at - tick * (normal + along)});
    }
  }
}

Paint paint_of(const Fixture& fixture) {
  if (fixture.service == Service::electric) return Paint::electric;
  if (fixture.service == Service::gas) return Paint::gas;
  if (fixture.kind == FixtureKind::joist || fixture.may_drill) return Paint::timber;
  return fixture.kind == FixtureKind::plane ? Paint::wall : Paint::fixture;
}

Vec3 moved(const Motion& motion, const Vec3& at) {
  if (const auto* slide = std::get_if<Slide>(&motion)) return at + slide->shift;
  if (const auto* swing = std::get_if<Swing>(&motion))
    return swing->at + Eigen::AngleAxisd(swing->by.radians(), swing->about.normalized()) * (at - swing->at);
  return at;
}

}  // namespace

Part draw_fixture(const Fixture& fixture, const Bounds& room) {
  Part part{PartKind::fixture, fixture.name, {}};
  Layer face{paint_of(fixture), {}, {}}, lines{Paint::edge, {}, {}};
  if (const auto* box = std::get_if<Box>(&fixture.body.shape)) {
    add_box(face.mesh, lines.lines, *box);
  } else if (const auto* bar = std::get_if<Cylinder>(&fixture.body.shape)) {
    add_cone(face.mesh, bar->from, bar->to, bar->radius, bar->radius, 48);
    add_cone_edges(lines.lines, bar->from, bar->to, bar->radius, bar->radius, 0);
  } else if (const auto* plane = std::get_if<HalfSpace>(&fixture.body.shape)) {
    face.paint = fixture.may_drill ? Paint::timber : Paint::wall;
    if (!room.empty()) add_wall(face, lines, *plane, room);
  } else if (const auto& solid = std::get<std::shared_ptr<const TriangleBody>>(fixture.body.shape)) {
    add_triangles(face.mesh, lines.lines, *solid);
  }
  face.closed = !std::holds_alternative<HalfSpace>(fixture.body.shape);
  face.one_sided = !face.closed;
  Layer ghost{Paint::ghost_edge, {}, {}};
  if (!std::holds_alternative<std::monostate>(fixture.body.motion))
    for (const auto& [from, to] : lines.lines)
      ghost.lines.push_back({moved(fixture.body.motion, from), moved(fixture.body.motion, to)});
  part.layers = {std::move(face), std::move(lines)};
  if (!ghost.lines.empty()) part.layers.push_back(std::move(ghost));
  return part;
}

Bounds body_bounds(const Fixture& fixture) {
  Bounds bounds;
  const auto add = [&](const Vec3& at) {
    bounds.add(at);
    bounds.add(moved(fixture.body.motion, at));
  };
  if (const auto* box = std::get_if<Box>(&fixture.body.shape)) {
    for (int i = 0; i < 8; ++i)
      add(box->centre + box->axes * Vec3(i & 1 ? box->half.x() : -box->half.x(), i & 2 ? box->half.y() : -box->half.y(),
                                         i & 4 ? box->half.z() : -box->half.z()));
  } else if (const auto* bar = std::get_if<Cylinder>(&fixture.body.shape)) {
    for (const Vec3& end : {bar->from, bar->to}) {
      add(end + Vec3::Constant(bar->radius));
      add(end - Vec3::Constant(bar->radius));
    }
  } else if (const auto* solid = std::get_if<std::shared_ptr<const TriangleBody>>(&fixture.body.shape)) {
    if (*solid)
      for (const Vec3& vertex : (*solid)->vertices) add(vertex);
  }
  return bounds;
}

Part draw_connection(const Connection& connection, double outside_diameter_mm) {
  // The socket behind the mouth, and an arrowhead about the tube that points the way the tube leaves.
  Part part{PartKind::connection, connection.name, {}};
  const double radius = outside_diameter_mm / 2;
  const Vec3 back = connection.at - std::max(connection.insertion_mm, outside_diameter_mm) * connection.towards;
  Layer layer{Paint::connection, {}, {}};
  add_cone(layer.mesh, back, connection.at, 1.3 * radius, 1.3 * radius, 24);
  add_cone(layer.mesh, connection.at, connection.at + 2.6 * outside_diameter_mm / 2 * 1.4 * connection.towards,
           2.3 * radius, 1.02 * radius, 24);
  part.layers.push_back(std::move(layer));
  return part;
}

}  // namespace halfhard
