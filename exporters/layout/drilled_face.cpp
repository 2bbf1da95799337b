#include "exporters/layout/drilled_face.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <optional>

#include "geometry/distance/obstacle.h"

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

// How far it is free from a place along `way` (unit), up to `most_mm`. Exact where what stands in the way is convex.
class FreeRoom {
 public:
  FreeRoom(const Plan& plan, double most_mm) : most_mm_(most_mm) {
    for (const auto& fixture : plan.fixtures)
      others_.push_back({fixture.get(), std::make_unique<Obstacle>(Body{fixture->body.shape, {}})});
  }
  double along(const Fixture& drilled, const Vec3& from, const Vec3& way) const {
    constexpr int kMostSteps = 2000;
    double gone = kNear_mm;
    for (int step = 0; step < kMostSteps && gone < most_mm_; ++step) {
      double clear = most_mm_;
      for (const auto& [fixture, body] : others_)
        if (fixture != &drilled) clear = std::min(clear, body->signed_distance(from + gone * way));
      if (clear < kNear_mm / 2) break;
      gone += clear;
    }
    return std::min(gone, most_mm_);
  }

 private:
  static constexpr double kNear_mm = 0.1;
  double most_mm_;
  std::vector<std::pair<const Fixture*, std::unique_ptr<Obstacle>>> others_;
};

// The outward normal of the face that the hole's own axis leaves by, on either side.
Vec3 face_normal(const Fixture& fixture, const Drilling& drilling) {
  if (const auto* half = std::get_if<HalfSpace>(&fixture.body.shape)) return half->facing;
  if (const auto* box = std::get_if<Box>(&fixture.body.shape)) return box->axes.col(entered_axis(*box, drilling));
  return -drilling.direction;
}

// Of the two sides the one towards the front, else upwards, else to the left.
Vec3 usual_side(const Vec3& normal) {
  for (const Vec3& side : {Vec3(-Vec3::UnitY()), Vec3(Vec3::UnitZ()), Vec3(-Vec3::UnitX())})
    if (std::abs(normal.dot(side)) > 0.1) return normal.dot(side) > 0 ? normal : Vec3(-normal);
  return normal;
}

// The least room that any of the holes has before the side.
double room_before(const Plan& plan, const FreeRoom& room, const Fixture& fixture, const Vec3& side,
                   const std::vector<int>& holes) {
  double least = 1e300;
  for (const int index : holes) {
    const Drilling& hole = plan.drillings[static_cast<size_t>(index)];
    const bool goes_in = hole.direction.dot(side) < 0;
    const Vec3 out = goes_in ? Vec3(-hole.direction) : hole.direction;
    least = std::min(least, room.along(fixture, goes_in ? hole.centre : Vec3(hole.centre + hole.depth_mm * out), out));
  }
  return least;
}

Vec3 side_to_drill_from(const Plan& plan, const FreeRoom& room, const Fixture& fixture, const Vec3& normal,
                        const std::vector<int>& holes) {
  if (std::holds_alternative<HalfSpace>(fixture.body.shape)) return normal;
  constexpr double kAsMuch_mm = 1;
  const Vec3 usual = usual_side(normal);
  const double here = room_before(plan, room, fixture, usual, holes);
  return room_before(plan, room, fixture, -usual, holes) > here + kAsMuch_mm ? Vec3(-usual) : usual;
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
  constexpr double kTold = 0.2;  // of a unit vector: a lesser part of the way is not named
  static constexpr std::array<std::array<const char*, 2>, 3> kWords = {
      {{"the right", "the left"}, {"the back", "the front"}, {"above", "below"}}};
  std::array<int, 3> axes = {0, 1, 2};
  std::stable_sort(axes.begin(), axes.end(), [&](int a, int b) { return std::abs(normal[a]) > std::abs(normal[b]); });
  std::string words;
  for (const int axis : axes)
    if (std::abs(normal[axis]) > kTold)
      words += (words.empty() ? "" : " and ") + std::string(kWords[static_cast<size_t>(axis)][normal[axis] < 0]);
  return words;
}

// What one finds going `way` in the site: "left", "front", "lower"; nothing where it runs askew.
std::optional<std::string> end_word(const Vec3& way) {
  static constexpr std::array<std::array<const char*, 2>, 3> kWords = {
      {{"right", "left"}, {"back", "front"}, {"upper", "lower"}}};
  for (int axis = 0; axis < 3; ++axis)
    if (std::abs(way[axis]) > kSameFace) return kWords[static_cast<size_t>(axis)][way[axis] < 0];
  return std::nullopt;
}

std::string towards_word(const Vec3& way) {
  static constexpr std::array<std::array<const char*, 2>, 3> kWords = {
      {{"right of", "left of"}, {"behind", "in front of"}, {"above", "below"}}};
  int axis = 0;
  way.cwiseAbs().maxCoeff(&axis);
  return kWords[static_cast<size_t>(axis)][way[axis] < 0];
}

Vec3 axis_of(const DrilledFace& face, int axis) { return axis == 0 ? face.view.right : face.view.up; }

bool along_joist(const DrilledFace& face, int axis) {
  const auto& joist = face.fixture->joist;
  return joist && std::abs((joist->to - joist->from).normalized().dot(axis_of(face, axis))) > kSameFace;
}

std::string name_of_zero_hole(const DrilledFace& face) {
  const auto hole = std::min_element(face.holes.begin(), face.holes.end(),
                                     [](const auto& a, const auto& b) { return a.at.norm() < b.at.norm(); });
  return "H" + std::to_string(hole->drilling + 1);
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

std::vector<DrilledFace> drilled_faces(const Plan& plan, double origin_within_mm, double enough_room_mm) {
  struct Group {
    const Fixture* fixture;
    Vec3 normal;
    std::vector<int> holes;
  };
  std::vector<Group> groups;
  for (const auto& fixture : plan.fixtures) {
    const size_t first = groups.size();
    for (size_t i = 0; i < plan.drillings.size(); ++i) {
      if (plan.drillings[i].fixture != fixture->name) continue;
      const Vec3 normal = face_normal(*fixture, plan.drillings[i]);
      auto group = std::find_if(groups.begin() + static_cast<long>(first), groups.end(),
                                [&](const Group& g) { return std::abs(g.normal.dot(normal)) > kSameFace; });
      if (group == groups.end()) group = groups.insert(groups.end(), {fixture.get(), normal, {}});
      group->holes.push_back(static_cast<int>(i));
    }
  }
  const FreeRoom room(plan, enough_room_mm);
  std::vector<DrilledFace> faces;
  for (const Group& group : groups) {
    const Vec3 side = side_to_drill_from(plan, room, *group.fixture, group.normal, group.holes);
    DrilledFace face;
    face.fixture = group.fixture;
    face.view = view_onto(*group.fixture, side);
    face.seen_from = side_word(side);
    for (const int hole : group.holes)
      face.holes.push_back(hole_on(plan.drillings[static_cast<size_t>(hole)], hole, face));
    if (std::holds_alternative<HalfSpace>(face.fixture->body.shape))
      take_zero_of_endless(face, origin_within_mm);
    else
      take_outline(face);
    faces.push_back(std::move(face));
  }
  return faces;
}

std::string measured_from(const DrilledFace& face, int axis) {
  if (face.zero == FaceZero::job_origin) return towards_word(axis_of(face, axis)) + " the origin";
  if (face.zero == FaceZero::hole) return towards_word(axis_of(face, axis)) + " " + name_of_zero_hole(face);
  const char* seen = axis == 0 ? "left" : "lower";
  const std::string end = end_word(-axis_of(face, axis)).value_or(seen);
  return end + (along_joist(face, axis) ? " support" : " edge");
}

std::string zero_of(const DrilledFace& face) {
  if (face.zero == FaceZero::job_origin) return "job's origin";
  if (face.zero == FaceZero::hole) return "hole " + name_of_zero_hole(face);
  if (along_joist(face, 0) || along_joist(face, 1))
    return measured_from(face, 0) + " and the " + measured_from(face, 1);
  const auto across = end_word(-face.view.right), up = end_word(-face.view.up);
  if (!across || !up) return "left lower corner as seen from " + face.seen_from;
  return *up + " " + *across + " corner";
}

}  // namespace halfhard
