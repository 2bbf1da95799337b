#include "geometry/distance/obstacle.h"

#include <cmath>

#include "geometry/distance/obstacle_kinds.h"

namespace halfhard {
namespace {

class BoxKind : public Obstacle::Kind {
 public:
  explicit BoxKind(const Box& box) : box_(box) {
    const Vec3 reach = box.axes.cwiseAbs() * box.half;
    bounds = {box.centre - reach, box.centre + reach};
  }
  Foot foot(const Vec3& point) const override {
    const Vec3 local = box_.axes.transpose() * (point - box_.centre);
    Vec3 at = local.cwiseMax(-box_.half).cwiseMin(box_.half);
    const double outside = (local - at).norm();
    int nearest = 0;
    const double depth = (box_.half - local.cwiseAbs()).minCoeff(&nearest);
    const double side = std::copysign(1.0, local[nearest]);
    const double distance = outside > 0 ? outside : -depth;
    if (outside <= 0) at[nearest] = side * box_.half[nearest];
    Foot foot = foot_at(distance, box_.centre + box_.axes * at);
    if (std::abs(distance) <= kOnSurface_mm) foot.outwards = side * box_.axes.col(nearest);
    return foot;
  }
  std::optional<Vec3> farthest(const Vec3& direction) const override {
    Vec3 at = box_.centre;
    for (int i = 0; i < 3; ++i) {
      at += std::copysign(box_.half[i], direction.dot(box_.axes.col(i))) * box_.axes.col(i);
    }
    return at;
  }
  double greatest_depth() const override { return box_.half.minCoeff(); }

 private:
  Box box_;
};

class CylinderKind : public Obstacle::Kind {
 public:
  explicit CylinderKind(const Cylinder& cylinder)
      : from_(cylinder.from), radius_(cylinder.radius), length_((cylinder.to - cylinder.from).norm()) {
    axis_ = length_ > 0 ? Vec3((cylinder.to - cylinder.from) / length_) : Vec3(Vec3::UnitZ());
    for (int i = 0; i < 3; ++i) {
      const double reach = radius_ * std::sqrt(std::max(0.0, 1 - axis_[i] * axis_[i]));
      bounds.low[i] = std::min(cylinder.from[i], cylinder.to[i]) - reach;
      bounds.high[i] = std::max(cylinder.from[i], cylinder.to[i]) + reach;
    }
  }
  Foot foot(const Vec3& point) const override {
    const Vec3 d = point - from_;
    const double up = d.dot(axis_);
    const Vec3 radial = d - up * axis_;
    const double off = radial.norm();
    const Vec3 outwards = off > 0 ? Vec3(radial / off) : any_square_to(axis_);
    const double beside = off - radius_, beyond = std::max(-up, up - length_);
    const bool end_nearer = beyond > beside;
    const Vec3 out = !end_nearer ? outwards : 2 * up < length_ ? Vec3(-axis_) : axis_;
    const auto made = [&out](double distance, const Vec3& at) {
      Foot foot = foot_at(distance, at);
      if (std::abs(distance) <= kOnSurface_mm) foot.outwards = out;
      return foot;
    };
    if (beside > 0 || beyond > 0) {
      const double at_up = std::clamp(up, 0.0, length_), at_off = std::min(off, radius_);
      return made(std::hypot(std::max(0.0, beside), std::max(0.0, beyond)), from_ + at_up * axis_ + at_off * outwards);
    }
    if (!end_nearer) return made(beside, from_ + up * axis_ + radius_ * outwards);
    return made(beyond, from_ + (2 * up < length_ ? 0 : length_) * axis_ + radial);
  }
  std::optional<Vec3> farthest(const Vec3& direction) const override {
    const double up = direction.dot(axis_);
    const Vec3 radial = direction - up * axis_;
    const double off = radial.norm();
    Vec3 at = from_ + (up > 0 ? length_ : 0) * axis_;
    // Square to a flat end any point of it will do; its middle then serves for the whole end.
    if (off > 1e-12 * direction.norm()) at += radius_ / off * radial;
    return at;
  }
  double greatest_depth() const override { return std::min(radius_, length_ / 2); }

 private:
  Vec3 from_, axis_;
  double radius_, length_;
};

class HalfSpaceKind : public Obstacle::Kind {
 public:
  explicit HalfSpaceKind(const HalfSpace& half_space) : plane_(half_space) { bounds = Bounds::everything(); }
  Foot foot(const Vec3& point) const override {
    const double up = (point - plane_.at).dot(plane_.facing);
    return {up, point - up * plane_.facing, plane_.facing};
  }

 private:
  HalfSpace plane_;
};

class TriangleKind : public Obstacle::Kind {
 public:
  TriangleKind(std::shared_ptr<const TriangleBody> source, bool is_convex) : tree_(source) {
    bounds = tree_.bounds();
    convex = is_convex;
    uncertainty_mm = source->deviation_mm;
  }
  Foot foot(const Vec3& point) const override { return tree_.foot(point); }
  const TriangleTree* tree() const override { return &tree_; }

 private:
  TriangleTree tree_;
};

std::shared_ptr<Obstacle::Kind> resting_kind(const Shape& shape) {
  if (const auto* box = std::get_if<Box>(&shape)) return box_kind(*box);
  if (const auto* cylinder = std::get_if<Cylinder>(&shape)) return cylinder_kind(*cylinder);
  if (const auto* plane = std::get_if<HalfSpace>(&shape)) return half_space_kind(*plane);
  return triangle_kind(std::get<std::shared_ptr<const TriangleBody>>(shape), false);
}

std::shared_ptr<Obstacle::Kind> kind_of(const Body& body) {
  if (const auto* slide = std::get_if<Slide>(&body.motion); slide && slide->shift.norm() > 0) {
    return sliding_kind(body, *slide);
  }
  if (const auto* swing = std::get_if<Swing>(&body.motion); swing && swing->by.degrees() != 0) {
    return swinging_kind(body, *swing);
  }
  return resting_kind(body.shape);
}

}  // namespace

std::shared_ptr<Obstacle::Kind> box_kind(const Box& box) { return std::make_shared<BoxKind>(box); }
std::shared_ptr<Obstacle::Kind> cylinder_kind(const Cylinder& c) { return std::make_shared<CylinderKind>(c); }
std::shared_ptr<Obstacle::Kind> half_space_kind(const HalfSpace& h) { return std::make_shared<HalfSpaceKind>(h); }
std::shared_ptr<Obstacle::Kind> triangle_kind(std::shared_ptr<const TriangleBody> body, bool convex) {
  return std::make_shared<TriangleKind>(std::move(body), convex);
}

Obstacle::Obstacle(const Body& body) {
  auto kind = kind_of(body);
  kind->body = body;
  kind_ = std::move(kind);
}

Foot Obstacle::foot(const Vec3& point) const { return kind_->foot(point); }
const Bounds& Obstacle::bounds() const { return kind_->bounds; }
bool Obstacle::convex() const { return kind_->convex; }
double Obstacle::uncertainty_mm() const { return kind_->uncertainty_mm; }
bool Obstacle::depth_is_exact() const { return kind_->depth_is_exact; }
const Body& Obstacle::body() const { return kind_->body; }

}  // namespace halfhard
