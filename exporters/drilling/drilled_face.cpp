#include "exporters/drilling/drilled_face.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace halfhard {
namespace {

constexpr double kSameFace = 0.999;  // cosine between faces drilled as one, about 2.5 degrees

// The axis of the box whose face the hole's own centre lies on.
int entered_axis(const Box& box, const Drilling& drilling) {
  const Vec3 local = box.axes.transpose() * (drilling.centre - box.centre);
  int axis = 0;
  (box.half - local.cwiseAbs()).cwiseAbs().minCoeff(&axis);
  return axis;
}

// The outward normal of the face to draw.
Vec3 face_normal(const Fixture& fixture, const Drilling& drilling) {
  if (const auto* half = std::get_if<HalfSpace>(&fixture.body.shape)) return half->facing;
  Vec3 normal = -drilling.direction;
  if (const auto* box = std::get_if<Box>(&fixture.body.shape)) normal = box->axes.col(entered_axis(*box, drilling));
  // Of the two sides the one towards the front, else upwards, else to the left.
  for (const Vec3& side : {Vec3(-Vec3::UnitY()), Vec3(Vec3::UnitZ()), Vec3(-Vec3::UnitX())})
    if (std::abs(normal.dot(side)) > 0.1) return normal.dot(side) > 0 ? normal : Vec3(-normal);
  return normal;
}

View view_onto(const Fixture& fixture, const Vec3& normal) {
  Vec3 up = std::abs(normal.z()) > 0.9 ? Vec3(Vec3::UnitY()) : Vec3(Vec3::UnitZ());
  if (fixture.joist && std::abs(normal.dot(fixture.joist->depth_direction)) < 0.1) {
    up = fixture.joist->depth_direction;
  } else if (const auto* box = std::get_if<Box>(&fixture.body.shape)) {
    // The box's own edge that is nearest to upright, so that the face is drawn square.
    Vec3 best = up;
    double most = -1;
    for (int axis = 0; axis < 3; ++axis) {
      const Vec3 edge = box->axes.col(axis);
      if (std::abs(edge.dot(normal)) > 0.5 || std::abs(edge.dot(up)) <= most) continue;
      most = std::abs(edge.dot(up));
      best = edge.dot(up) < 0 ? Vec3(-edge) : edge;
    }
    up = best;
  }
  return View::along(-normal, up);
}

std::string side_word(const Vec3& normal) {
  const std::array<std::pair<Vec3, const char*>, 6> words = {{{Vec3::UnitX(), "the right"},
                                                              {-Vec3::UnitX(), "the left"},
                                                              {Vec3::UnitY(), "the back"},
                                                              {-Vec3::UnitY(), "the front"},
                                                              {Vec3::UnitZ(), "above"},
                                                              {-Vec3::UnitZ(), "below"}}};
  for (const auto& [way, word] : words)
    if (normal.dot(way) > kSameFace) return word;
  return "";
}

// How deep the face lies in the view: the near side of the body.
double face_depth(const Fixture& fixture, const View& view) {
  if (const auto* half = std::get_if<HalfSpace>(&fixture.body.shape)) return view.depth_mm(half->at);
  if (const auto* box = std::get_if<Box>(&fixture.body.shape))
    return view.depth_mm(box->centre) - (box->axes.transpose() * view.look).cwiseAbs().dot(box->half);
  return -1e300;  // no flat face: holes stay where the run goes in
}

DrilledHole hole_on(const Drilling& drilling, int index, const DrilledFace& face) {
  DrilledHole hole;
  hole.drilling = index;
  hole.diameter_mm = drilling.diameter_mm;
  Vec3 in = drilling.direction;
  if (in.dot(face.view.look) < 0) in = -in;
  const double depth = face_depth(*face.fixture, face.view);
  Vec3 centre = drilling.centre;
  if (depth > -1e299) centre += in * ((depth - face.view.depth_mm(centre)) / in.dot(face.view.look));
  hole.at = face.view.flat(centre);
  hole.tilt = angle_between(in, face.view.look);
  const Vec2 lean = face.view.flat(in);
  if (hole.tilt > Angle::degrees(0.1)) hole.lean = lean.normalized();
  return hole;
}

void take_outline(DrilledFace& face) {
  ViewOptions options;
  options.centre_lines = false;
  options.hidden = false;
  const Projection outline = project({{}, {{0, face.fixture->body.shape}}}, face.view, options);
  for (const ViewCurve& curve : outline.curves) face.outline.push_back(placed(curve.shape, 1, Angle(), -outline.low));
  face.size = outline.high - outline.low;
  for (DrilledHole& hole : face.holes) hole.at -= outline.low;
  face.zero_on_site = outline.low.x() * face.view.right + outline.low.y() * face.view.up;
}

void take_zero_of_endless(DrilledFace& face, double origin_within_mm) {
  const auto nearest = std::min_element(face.holes.begin(), face.holes.end(),
                                        [](const auto& a, const auto& b) { return a.at.norm() < b.at.norm(); });
  face.zero = FaceZero::job_origin;
  if (nearest->at.norm() <= origin_within_mm) return;
  face.zero = FaceZero::hole;
  const auto lowest = std::min_element(face.holes.begin(), face.holes.end(),
                                       [](const auto& a, const auto& b) { return a.at.sum() < b.at.sum(); });
  const Vec2 zero = lowest->at;
  face.zero_on_site = zero.x() * face.view.right + zero.y() * face.view.up;
  for (DrilledHole& hole : face.holes) hole.at -= zero;
}

}  // namespace

std::vector<DrilledFace> drilled_faces(const Plan& plan, double origin_within_mm) {
  std::vector<DrilledFace> faces;
  for (const auto& fixture : plan.fixtures) {
    const size_t first = faces.size();
    for (size_t i = 0; i < plan.drillings.size(); ++i) {
      const Drilling& drilling = plan.drillings[i];
      if (drilling.fixture != fixture->name) continue;
      const Vec3 normal = face_normal(*fixture, drilling);
      auto face = std::find_if(faces.begin() + static_cast<long>(first), faces.end(),
                               [&](const DrilledFace& f) { return -f.view.look.dot(normal) > kSameFace; });
      if (face == faces.end()) {
        DrilledFace made;
        made.fixture = fixture.get();
        made.view = view_onto(*fixture, normal);
        made.seen_from = side_word(normal);
        faces.push_back(made);
        face = faces.end() - 1;
      }
      face->holes.push_back(hole_on(drilling, static_cast<int>(i), *face));
    }
  }
  for (DrilledFace& face : faces) {
    if (std::holds_alternative<HalfSpace>(face.fixture->body.shape))
      take_zero_of_endless(face, origin_within_mm);
    else
      take_outline(face);
  }
  return faces;
}

}  // namespace halfhard
