// Bodies that slide or swing: the exact form where there is one, else a search over the positions.
#include <array>
#include <cmath>
#include <numbers>

#include "geometry/distance/distance_search.h"
#include "geometry/distance/obstacle_kinds.h"
#include "geometry/distance/slid_box.h"
#include "geometry/distance/swung_section.h"

namespace halfhard {
namespace {

// Directions this near to each other count as the same when an exact form is chosen (radians): at a reach of 10 m the
// difference is 1e-7 mm.
constexpr double kParallel = 1e-11;

// Any body, any motion: carries the point back along the positions and searches its path against the body at rest.
class MovingKind : public Obstacle::Kind {
 public:
  MovingKind(const Body& moving, bool is_convex) : motion_(moving.motion), rest_(Body{moving.shape, std::monostate{}}) {
    convex = is_convex;
    depth_is_exact = false;
    uncertainty_mm = rest_.uncertainty_mm();
    if (const auto* swing = std::get_if<Swing>(&motion_)) {
      swing_radians_ = std::clamp(swing->by.degrees(), -360.0, 360.0) * std::numbers::pi / 180;
    }
    set_bounds();
  }
  Foot foot(const Vec3& point) const override {
    const SolidPiece path = path_of(point);
    if (path.length <= 0) return rest_.foot(point);
    const auto field = [this](const Vec3& at) { return rest_.foot(at); };
    const search::Least least = search::least_along(path, field, rest_.convex(), search::kInfinite);
    if (least.piece < 0) return foot_at(search::kInfinite, point);
    const double position = least.s / path.length;
    return foot_at(least.value, back_from(position).inverse() * least.foot.at);
  }
  std::optional<Vec3> farthest(const Vec3& direction) const override {
    std::optional<Vec3> at = rest_.kind().farthest(direction);
    if (const auto* slide = std::get_if<Slide>(&motion_); slide && at && direction.dot(slide->shift) > 0) {
      *at += slide->shift;
    }
    return at;
  }
  const Obstacle* at_rest() const override { return convex ? nullptr : &rest_; }
  Eigen::Isometry3d back_from(double position) const override {
    Eigen::Isometry3d back = Eigen::Isometry3d::Identity();
    if (const auto* slide = std::get_if<Slide>(&motion_)) back.translation() = -position * slide->shift;
    if (const auto* swing = std::get_if<Swing>(&motion_)) {
      back = Eigen::Translation3d(swing->at) * Eigen::AngleAxisd(-position * swing_radians_, swing->about) *
             Eigen::Translation3d(-swing->at);
    }
    return back;
  }

 private:
  SolidPiece path_of(const Vec3& point) const {
    if (const auto* slide = std::get_if<Slide>(&motion_)) return straight_piece(point, point - slide->shift);
    const auto& swing = std::get<Swing>(motion_);
    const Vec3 d = point - swing.at;
    const Vec3 radial = d - d.dot(swing.about) * swing.about;
    const double radius = radial.norm();
    if (radius <= 1e-9) return straight_piece(point, point);
    const Vec3 outwards = radial / radius;
    const Vec3 along = (swing_radians_ > 0 ? -1.0 : 1.0) * swing.about.cross(outwards);
    return arc_piece(Arc{point - radial, outwards, along, radius, Angle::radians(std::abs(swing_radians_))});
  }

  void set_bounds() {
    const Bounds rest = rest_.bounds();
    if (rest.empty()) return;
    if (const auto* slide = std::get_if<Slide>(&motion_)) {
      bounds = rest;
      bounds.add(Bounds{rest.low + slide->shift, rest.high + slide->shift});
      return;
    }
    if (!rest.low.allFinite() || !rest.high.allFinite()) {
      bounds = Bounds::everything();
      return;
    }
    for (int corner = 0; corner < 8; ++corner) {
      const Vec3 at(corner & 1 ? rest.high.x() : rest.low.x(), corner & 2 ? rest.high.y() : rest.low.y(),
                    corner & 4 ? rest.high.z() : rest.low.z());
      // Nothing in the box passes outside its corners' paths by more than those sag: take the whole ring's box.
      const auto& swing = std::get<Swing>(motion_);
      const Vec3 d = at - swing.at;
      const double up = d.dot(swing.about), radius = (d - up * swing.about).norm();
      for (int i = 0; i < 3; ++i) {
        const double reach = radius * std::sqrt(std::max(0.0, 1 - swing.about[i] * swing.about[i]));
        const double middle = swing.at[i] + up * swing.about[i];
        bounds.low[i] = std::min(bounds.low[i], middle - reach);
        bounds.high[i] = std::max(bounds.high[i], middle + reach);
      }
    }
  }

  Motion motion_;
  Obstacle rest_;
  double swing_radians_ = 0;
};

// A box or cylinder that stands along the hinge line: its floor plan swept once, as high as it is.
class DoorKind : public MovingKind {
 public:
  DoorKind(const Body& moving, const Mat3& frame, SwungSection section, double low, double high)
      : MovingKind(moving, false),
        at_(std::get<Swing>(moving.motion).at),
        frame_(frame),
        section_(std::move(section)),
        low_(low),
        high_(high) {
    depth_is_exact = true;
  }
  Foot foot(const Vec3& point) const override {
    const Vec3 local = frame_.transpose() * (point - at_);
    const SwungSection::Foot2 plan = section_.foot(local.head<2>());
    const double beyond = std::max(low_ - local.z(), local.z() - high_);
    Vec3 at = local;
    double distance = std::max(plan.distance, beyond);
    if (plan.distance > 0 || beyond > 0) {
      if (plan.distance > 0) at.head<2>() = plan.at;
      at.z() = std::clamp(local.z(), low_, high_);
      distance = (at - local).norm();
    } else if (plan.distance > beyond) {
      at.head<2>() = plan.at;
    } else {
      at.z() = 2 * local.z() < low_ + high_ ? low_ : high_;
    }
    return foot_at(distance, at_ + frame_ * at);
  }
  // Along the hinge line only the height changes.
  bool convex_along(const SolidPiece& piece) const override {
    return piece.straight && piece.direction.cross(frame_.col(2)).norm() <= kParallel;
  }

 private:
  Vec3 at_;
  Mat3 frame_;  // columns: two square to the hinge line, then along it
  SwungSection section_;
  double low_, high_;
};

std::shared_ptr<Obstacle::Kind> door_kind(const Body& body, const Swing& swing) {
  Mat3 frame;
  frame.col(2) = swing.about;
  frame.col(0) = any_square_to(swing.about);
  frame.col(1) = frame.col(2).cross(frame.col(0));
  const double radians = std::clamp(swing.by.degrees(), -360.0, 360.0) * std::numbers::pi / 180;
  const auto local = [&](const Vec3& point) -> Vec3 { return frame.transpose() * (point - swing.at); };
  if (const auto* box = std::get_if<Box>(&body.shape)) {
    for (int up = 0; up < 3; ++up) {
      if (box->axes.col(up).cross(swing.about).norm() > kParallel || box->half.minCoeff() <= 0) continue;
      const int u = (up + 1) % 3, v = (up + 2) % 3;
      std::array<Vec2, 4> corners;
      for (int i = 0; i < 4; ++i) {
        const double side_u = i == 0 || i == 3 ? -1 : 1, side_v = i < 2 ? -1 : 1;
        const Vec3 corner =
            box->centre + side_u * box->half[u] * box->axes.col(u) + side_v * box->half[v] * box->axes.col(v);
        corners[i] = local(corner).head<2>();
      }
      const double middle = local(box->centre).z();
      return std::make_shared<DoorKind>(body, frame, SwungSection::of_rectangle(corners, radians),
                                        middle - box->half[up], middle + box->half[up]);
    }
  }
  if (const auto* cylinder = std::get_if<Cylinder>(&body.shape)) {
    const Vec3 from = local(cylinder->from), to = local(cylinder->to);
    if ((to - from).norm() > 0 && (to - from).head<2>().norm() <= kParallel * (to - from).norm() &&
        cylinder->radius > 0) {
      return std::make_shared<DoorKind>(body, frame, SwungSection::of_disc(from.head<2>(), cylinder->radius, radians),
                                        std::min(from.z(), to.z()), std::max(from.z(), to.z()));
    }
  }
  return nullptr;
}

}  // namespace

std::shared_ptr<Obstacle::Kind> sliding_kind(const Body& body, const Slide& slide) {
  if (const auto* plane = std::get_if<HalfSpace>(&body.shape)) {
    HalfSpace farthest = *plane;
    farthest.at += std::max(0.0, slide.shift.dot(plane->facing)) * plane->facing;
    return half_space_kind(farthest);
  }
  if (const auto* box = std::get_if<Box>(&body.shape)) {
    if (auto exact = slid_box_kind(*box, slide.shift)) return exact;
    return std::make_shared<MovingKind>(body, true);
  }
  if (const auto* cylinder = std::get_if<Cylinder>(&body.shape)) {
    const double length = (cylinder->to - cylinder->from).norm();
    const Vec3 axis = length > 0 ? Vec3((cylinder->to - cylinder->from) / length) : Vec3(Vec3::UnitZ());
    const double up = slide.shift.dot(axis);
    if ((slide.shift - up * axis).norm() <= kParallel * std::abs(up)) {
      Cylinder longer = *cylinder;
      (up > 0 ? longer.to : longer.from) += up * axis;
      return cylinder_kind(longer);
    }
    return std::make_shared<MovingKind>(body, true);
  }
  return std::make_shared<MovingKind>(body, false);
}

std::shared_ptr<Obstacle::Kind> swinging_kind(const Body& body, const Swing& swing) {
  if (auto exact = door_kind(body, swing)) return exact;
  return std::make_shared<MovingKind>(body, false);
}

}  // namespace halfhard
