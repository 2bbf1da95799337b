// A scene to flat curves: outlines in the view's frame, settled against what covers them, then laid flat.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "geometry/views/half_space_face.h"
#include "geometry/views/outline.h"
#include "geometry/views/settle.h"
#include "geometry/views/tidy.h"
#include "geometry/views/view.h"

namespace halfhard {
namespace views {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kShortest_mm = 1e-5;  // a flat curve below this is a point and is left out

// Site to view frame about a middle, so that a scene far from the origin is as exact as one at it.
struct Frame {
  Mat3 turn;
  Vec3 middle = Vec3::Zero();
  Vec2 flat_middle = Vec2::Zero();

  Vec3 point(const Vec3& p) const { return turn * (p - middle); }
  Vec3 way(const Vec3& v) const { return turn * v; }
  Vec2 flat(const Vec3& in_view) const { return in_view.head<2>() + flat_middle; }
};

Arc in_frame(const Frame& frame, const Arc& arc) {
  return {frame.point(arc.centre), frame.way(arc.outwards), frame.way(arc.along), arc.radius, arc.sweep};
}

std::vector<Piece> in_frame(const Frame& frame, const CentreLine& line) {
  std::vector<Piece> pieces = line.pieces();
  for (Piece& piece : pieces) {
    if (auto* straight = std::get_if<Straight>(&piece.shape))
      *straight = {frame.point(straight->from), frame.point(straight->to)};
    else
      piece.shape = in_frame(frame, std::get<Arc>(piece.shape));
  }
  return pieces;
}

Vec3 any_point(const Scene& scene) {
  if (!scene.tubes.empty() && !scene.tubes.front().line.points().empty())
    return scene.tubes.front().line.points().front();
  for (const SceneBody& body : scene.bodies) {
    if (const auto* box = std::get_if<Box>(&body.shape)) return box->centre;
    if (const auto* cylinder = std::get_if<Cylinder>(&body.shape)) return cylinder->from;
    if (const auto* half = std::get_if<HalfSpace>(&body.shape)) return half->at;
    const auto& mesh = std::get<std::shared_ptr<const TriangleBody>>(body.shape);
    if (!mesh->vertices.empty()) return mesh->vertices.front();
  }
  return Vec3::Zero();
}

// --- laying flat

void add_line(std::vector<FlatShape>& shapes, const Vec2& from, const Vec2& to) {
  if ((to - from).norm() > kShortest_mm) shapes.push_back(FlatLine{from, to});
}

// An arc in space from t0 to t1: the projections of a and b are conjugate half diameters of its ellipse.
void add_arc(std::vector<FlatShape>& shapes, const Frame& frame, const Arc3& arc, double t0, double t1) {
  const Vec2 centre = frame.flat(arc.centre), a = arc.a.head<2>(), b = arc.b.head<2>();
  const double main = 0.5 * std::atan2(2 * a.dot(b), a.squaredNorm() - b.squaredNorm());
  const Vec2 major = std::cos(main) * a + std::sin(main) * b, minor = std::cos(main) * b - std::sin(main) * a;
  const double size = major.norm(), ratio = minor.norm() / size;
  if (ratio < 1e-7) {  // edge-on: there and back along one line
    double low = std::min(std::cos(t0 - main), std::cos(t1 - main));
    double high = std::max(std::cos(t0 - main), std::cos(t1 - main));
    for (double t = main + std::ceil((t0 - main) / kPi) * kPi; t <= t1; t += kPi) {
      low = std::min(low, std::cos(t - main));
      high = std::max(high, std::cos(t - main));
    }
    return add_line(shapes, centre + low * major, centre + high * major);
  }
  const bool clockwise = major.x() * minor.y() - major.y() * minor.x() < 0;
  const double start = clockwise ? main - t1 : t0 - main, sweep = t1 - t0;
  if (size * sweep < kShortest_mm) return;
  const auto tidy_angle = [](double angle) { return Angle::radians(angle - 2 * kPi * std::floor(angle / (2 * kPi))); };
  if (1 - ratio < 1e-9) {
    const double turn = std::atan2(major.y(), major.x());
    shapes.push_back(FlatArc{centre, size, tidy_angle(start + turn), Angle::radians(sweep)});
  } else {
    shapes.push_back(FlatEllipseArc{centre, major, ratio, tidy_angle(start), Angle::radians(sweep)});
  }
}

void add_flank(std::vector<FlatShape>& shapes, const Frame& frame, const Outline& outline, double t0, double t1) {
  FlatPolyline polyline;
  const auto add = [&](double t) {
    const Vec2 p = frame.flat(outline.point(t));
    if (polyline.points.empty() || (p - polyline.points.back()).norm() > 1e-7) polyline.points.push_back(p);
  };
  add(t0);
  for (const double node : outline.nodes)
    if (node > t0 && node < t1) add(node);
  add(t1);
  if (polyline.points.size() < 2) return;
  if ((polyline.points.back() - polyline.points.front()).norm() < kShortest_mm && polyline.points.size() == 2) return;
  shapes.push_back(std::move(polyline));
}

std::vector<FlatShape> laid_flat(const Frame& frame, const Outline& outline, double t0, double t1) {
  std::vector<FlatShape> shapes;
  if (const auto* line = std::get_if<Line3>(&outline.curve)) {
    add_line(shapes, frame.flat(line->from + t0 * (line->to - line->from)),
             frame.flat(line->from + t1 * (line->to - line->from)));
  } else if (const auto* arc = std::get_if<Arc3>(&outline.curve)) {
    add_arc(shapes, frame, *arc, t0, t1);
  } else {
    add_flank(shapes, frame, outline, t0, t1);
  }
  return shapes;
}

// --- the scene

struct Gathered {
  std::vector<Outline> outlines;
  std::vector<Cover> covers;
};

void take(Gathered& all, std::vector<Outline> outlines, std::vector<Cover> covers, int object, int owner) {
  for (Outline& outline : outlines) {
    outline.object = object;
    outline.owner = owner;
    all.outlines.push_back(std::move(outline));
  }
  for (Cover& cover : covers) {
    cover.object = object;
    cover.owner = owner;
    all.covers.push_back(std::move(cover));
  }
}

Cover endless(ShadowCover shadow) {
  Cover cover;
  cover.body = std::move(shadow);
  cover.low.setConstant(-1e300);
  cover.high.setConstant(1e300);
  cover.top = 1e300;
  return cover;
}

void bound(Cover& cover, const std::vector<Vec3>& points) {
  if (points.empty()) return;
  cover.low = cover.high = points.front().head<2>();
  cover.top = points.front().z();
  for (const Vec3& p : points) {
    cover.low = cover.low.cwiseMin(p.head<2>());
    cover.high = cover.high.cwiseMax(p.head<2>());
    cover.top = std::max(cover.top, p.z());
  }
  cover.low.array() -= 0.01;
  cover.high.array() += 0.01;
}

void gather_box(Gathered& all, const Frame& frame, const Box& box, int object, int owner) {
  const Box seen{frame.point(box.centre), frame.turn * box.axes, box.half};
  Cover cover = endless(shadow_of(seen));
  std::vector<Vec3> corners;
  for (int i = 0; i < 8; ++i)
    corners.push_back(seen.centre + seen.axes * Vec3(seen.half.x() * (i & 1 ? 1 : -1), seen.half.y() * (i & 2 ? 1 : -1),
                                                     seen.half.z() * (i & 4 ? 1 : -1)));
  bound(cover, corners);
  take(all, box_outlines(seen), {cover}, object, owner);
}

void gather_cylinder(Gathered& all, const Frame& frame, const Cylinder& cylinder, int object, int owner) {
  const Cylinder seen{frame.point(cylinder.from), frame.point(cylinder.to), cylinder.radius};
  Piece piece;
  piece.shape = Straight{seen.from, seen.to};
  take(all, cylinder_outlines(seen), tube_covers({piece}, seen.radius), object, owner);
}

void gather_mesh(Gathered& all, const Frame& frame, const TriangleBody& mesh, int object, int owner) {
  std::vector<Vec3> vertices;
  for (const Vec3& p : mesh.vertices) vertices.push_back(frame.point(p));
  std::vector<Outline> outlines = mesh_outlines(vertices, mesh.triangles);
  const auto body = std::make_shared<const MeshCover>(std::move(vertices), mesh.triangles, mesh.deviation_mm);
  Cover cover;
  cover.body = body;
  bound(cover, body->vertices());
  take(all, std::move(outlines), {cover}, object, owner);
}

Gathered gather(const Scene& scene, const Frame& frame, const ViewOptions& options) {
  Gathered all;
  int owner = 0;
  for (const SceneTube& tube : scene.tubes) {
    const std::vector<Piece> pieces = in_frame(frame, tube.line);
    if (!pieces.empty())
      take(all, tube_outlines(pieces, tube.outside_radius_mm, options.chord_error_mm),
           tube_covers(pieces, tube.outside_radius_mm), tube.object, owner);
    ++owner;
  }
  for (size_t i = 0; i < scene.bodies.size(); ++i, ++owner) {
    const SceneBody& body = scene.bodies[i];
    if (const auto* box = std::get_if<Box>(&body.shape)) {
      gather_box(all, frame, *box, body.object, owner);
    } else if (const auto* cylinder = std::get_if<Cylinder>(&body.shape)) {
      gather_cylinder(all, frame, *cylinder, body.object, owner);
    } else if (const auto* half = std::get_if<HalfSpace>(&body.shape)) {
      std::vector<Vec3> face;
      for (const Vec3& p : half_space_face(scene, i, options.wall_margin_mm)) face.push_back(frame.point(p));
      take(all, polygon_outlines(face), {endless(shadow_of(HalfSpace{frame.point(half->at), frame.way(half->facing)}))},
           body.object, owner);
    } else {
      gather_mesh(all, frame, *std::get<std::shared_ptr<const TriangleBody>>(body.shape), body.object, owner);
    }
  }
  return all;
}

void add_centre_lines(std::vector<ViewCurve>& curves, const Scene& scene, const Frame& frame) {
  for (const SceneTube& tube : scene.tubes) {
    for (const Piece& piece : in_frame(frame, tube.line)) {
      std::vector<FlatShape> shapes;
      if (const auto* straight = std::get_if<Straight>(&piece.shape)) {
        add_line(shapes, frame.flat(straight->from), frame.flat(straight->to));
      } else {
        const Arc& arc = std::get<Arc>(piece.shape);
        add_arc(shapes, frame, Arc3{arc.centre, arc.radius * arc.outwards, arc.radius * arc.along}, 0,
                arc.sweep.radians());
      }
      for (FlatShape& shape : shapes) curves.push_back({std::move(shape), CurveKind::centre_line, true, tube.object});
    }
  }
}

}  // namespace
}  // namespace views

Projection project(const Scene& scene, const View& view, const ViewOptions& options) {
  using namespace views;
  Frame frame;
  frame.turn.row(0) = view.right.transpose();
  frame.turn.row(1) = view.up.transpose();
  frame.turn.row(2) = -view.look.transpose();
  frame.middle = any_point(scene);
  frame.flat_middle = view.flat(frame.middle);

  Projection result;
  const Gathered all = gather(scene, frame, options);
  for (const Outline& outline : all.outlines) {
    if (outline.surely_hidden && !options.hidden) continue;
    for (const Stretch& stretch : settle(outline, all.covers)) {
      if (!stretch.visible && !options.hidden) continue;
      for (FlatShape& shape : laid_flat(frame, outline, stretch.from, stretch.to))
        result.curves.push_back({std::move(shape), outline.kind, stretch.visible, outline.object});
    }
  }
  if (options.centre_lines) add_centre_lines(result.curves, scene, frame);
  tidy_lines(result.curves);
  for (size_t i = 0; i < result.curves.size(); ++i) {
    const auto [low, high] = box_around(result.curves[i].shape);
    result.low = i == 0 ? low : Vec2(result.low.cwiseMin(low));
    result.high = i == 0 ? high : Vec2(result.high.cwiseMax(high));
  }
  for (const SceneTube& tube : scene.tubes) {
    ViewedTube seen{tube.object, {}};
    for (const Vec3& p : tube.line.points()) seen.points.push_back(view.flat(p));
    result.tubes.push_back(std::move(seen));
  }
  return result;
}

}  // namespace halfhard
