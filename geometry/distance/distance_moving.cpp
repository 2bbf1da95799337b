#include "geometry/distance/distance_moving.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "geometry/base/tolerances.h"
#include "geometry/distance/distance_triangles.h"

namespace halfhard {
namespace {

// How the motion carries points back into the frame of the body at rest; a position runs from 0 to 1.
class Course {
 public:
  explicit Course(const Obstacle::Kind& kind) {
    if (const auto* slide = std::get_if<Slide>(&kind.body.motion)) shift_ = slide->shift;
    if (const auto* swing = std::get_if<Swing>(&kind.body.motion)) {
      at_ = swing->at;
      turn_ = std::clamp(swing->by.degrees(), -360.0, 360.0) * std::numbers::pi / 180 * swing->about;
      turn_size_ = turn_.norm();
      about_ = swing->about;
    }
  }
  // Of a point that stands here in the body's frame, per position.
  Vec3 velocity(const Vec3& carried) const { return -shift_ - turn_.cross(carried - at_); }
  double turn() const { return turn_size_; }
  const Vec3& about() const { return about_; }  // unit; zero for a slide
  double off_hinge(const Vec3& point) const { return about_.cross(point - at_).norm(); }
  // No point this far from the hinge line moves faster.
  double speed(double off) const { return shift_.norm() + turn_size_ * off; }

 private:
  Vec3 shift_ = Vec3::Zero(), at_ = Vec3::Zero(), turn_ = Vec3::Zero(), about_ = Vec3::Zero();
  double turn_size_ = 0;
};

// How far a piece's solid reaches along a direction.
double reach_of(const SolidPiece& piece, double radius, const Vec3& direction) {
  double reach = -kAnyDistance;
  for (const double s : {0.0, piece.length}) {
    reach = std::max(reach, piece.point(s).dot(direction) + radius * direction.cross(piece.tangent(s)).norm());
  }
  if (piece.straight) return reach;
  const Vec3 in_plane = direction - direction.dot(piece.axis) * piece.axis;
  const double size = in_plane.norm();
  if (in_plane.dot(piece.middle) < size * piece.cos_half) return reach;
  return std::max(reach, piece.centre.dot(direction) + piece.radius * size + radius);
}

// How far a piece and the body are apart along the hinge line, which no swing changes.
double gap_along_hinge(const SolidPiece& piece, double radius, const Obstacle::Kind& rest, const Vec3& about) {
  double gap = -kAnyDistance;
  const Bounds& box = rest.bounds;
  if (about == Vec3::Zero() || !box.low.allFinite() || !box.high.allFinite()) return gap;
  for (const Vec3& way : {about, Vec3(-about)}) {
    const Vec3 corner = (way.array() > 0).select(box.low, box.high);
    gap = std::max(gap, rest.farthest(-way).value_or(corner).dot(way) - reach_of(piece, radius, way));
  }
  return gap;
}

// No position is nearer than this: piece by piece what is certain along the hinge line, or from the swept solid.
double certain_gap(const TubeBody& tube, const Obstacle::Kind& kind, const Vec3& about) {
  const double r = tube.radius_mm();
  const auto field = [&kind](const Vec3& at) { return kind.foot(at); };
  double gap = kAnyDistance;
  for (const SolidPiece& piece : tube.pieces()) {
    const double along = gap_along_hinge(piece, r, kind.at_rest()->kind(), about);
    if (along >= gap) continue;
    const search::Least beside = search::least_along(piece, field, false, gap + r, along + r);
    if (beside.piece >= 0) gap = std::max(along, beside.value - search::kCertain_mm - r);
  }
  return gap;
}

// Half the squared distance of a point p of the tube and a point q of the body, as a function of the position, has a
// second derivative of at most |shift|^2, or turn^2 off(p) off(q). Their least over all pairs therefore lies above its
// chord less that of a parabola; and the distance itself changes no faster than the slower of the two is carried.
class Positions {
 public:
  Positions(const TubeBody& tube, const Obstacle::Kind& kind) : course_(kind) {
    for (const SolidPiece& piece : tube.pieces()) {
      tube_off_ = std::max(tube_off_, course_.off_hinge(piece.ball) + piece.ball_radius + tube.radius_mm());
    }
    const Bounds& rest = kind.at_rest()->bounds();
    body_off_ = rest.low.allFinite() && rest.high.allFinite() ? 0 : kAnyDistance;
    for (int corner = 0; corner < 8 && body_off_ < kAnyDistance; ++corner) {
      const Vec3 at(corner & 1 ? rest.high.x() : rest.low.x(), corner & 2 ? rest.high.y() : rest.low.y(),
                    corner & 4 ? rest.high.z() : rest.low.z());
      body_off_ = std::max(body_off_, course_.off_hinge(at));
    }
    speed_ = course_.speed(std::min(tube_off_, body_off_));
  }
  const Course& course() const { return course_; }
  double speed() const { return speed_; }

  // Not above any distance between two positions `width` apart that is below `best`.
  double lower_bound(double first, double second, double width, double best) const {
    const double bound = (first + second - speed_ * width) / 2;
    const double curve = curvature(best), a = first * first / 2, b = second * second / 2;
    const double u = lowest(a, b, width, curve);
    const double least = a + (b - a) * (u / width) - curve / 2 * u * (width - u);
    return least > 0 ? std::max(bound, std::sqrt(2 * least)) : bound;
  }
  // Where the bound is lowest, as a share of the width.
  double cut(double first, double second, double width, double best) const {
    return std::clamp(lowest(first * first / 2, second * second / 2, width, curvature(best)) / width, 0.1, 0.9);
  }

 private:
  // Only pairs that are nearer than `best` somewhere matter.
  double curvature(double best) const {
    const double still = course_.speed(0), other = std::min(body_off_, tube_off_ + std::max(0.0, best));
    return still * still + course_.turn() * course_.turn() * tube_off_ * other;
  }
  static double lowest(double a, double b, double width, double curve) {
    return std::clamp(width / 2 - (b - a) / (curve * width), 0.0, width);
  }

  Course course_;
  double tube_off_ = 0, body_off_ = 0, speed_ = 0;
};

struct AtPosition {
  double position = 0;
  double value = 0;  // the distance, or less where `exact` is false
  bool exact = false;
  double slope = 0;  // half the derivative of the squared distance
};

struct Stretch {
  double bound;
  AtPosition a, b;
};

bool higher(const Stretch& x, const Stretch& y) { return x.bound > y.bound; }

// Cuts after which the search asks for less, again and again (a bar that turns about its own axis is equally far in
// every position).
constexpr int kPositionPatience = 512;
// Cuts after which it is asked whether all positions are equally far (a door that swings past a pipe's end on its level).
constexpr int kLevel = 64;

class PositionSearch {
 public:
  PositionSearch(Separation& best, const TubeBody& tube, const Obstacle::Kind& kind, ExactBelow exact_below)
      : best_(best), tube_(tube), kind_(kind), exact_below_(exact_below), positions_(tube, kind) {}

  void run() {
    constexpr int kStart = 8;
    std::vector<AtPosition> start;
    for (int i = 0; i <= kStart; ++i) {
      start.push_back(at(static_cast<double>(i) / kStart));
      if (best_.distance_mm <= 0) return;
    }
    for (int i = 0; i < kStart; ++i) push(start[i], start[i + 1]);
    for (int cuts = 1; !heap_.empty() && best_.distance_mm > 0; ++cuts) {
      if (cuts % kPositionPatience == 0) certain_ *= 4;
      if (cuts == kLevel) gap_ = certain_gap(tube_, kind_, positions_.course().about());
      std::pop_heap(heap_.begin(), heap_.end(), higher);
      const Stretch top = heap_.back();
      heap_.pop_back();
      if (std::max(gap_, top.bound) >= best_.distance_mm - certain_) break;
      const double width = top.b.position - top.a.position;
      const double share = positions_.cut(top.a.value, top.b.value, width, best_.distance_mm);
      const AtPosition middle = at(top.a.position + share * width);
      push(top.a, middle);
      push(middle, top.b);
    }
    if (best_.distance_mm > 0 && found_) close_in();
  }

 private:
  AtPosition at(double position) {
    const Eigen::Isometry3d back = kind_.back_from(position);
    const TubeBody carried = tube_.carried(back);
    const Obstacle& rest = *kind_.at_rest();
    const double r = tube_.radius_mm();
    double far = kAnyDistance;
    for (const SolidPiece& piece : carried.pieces()) {
      far = std::min(far, rest.foot(piece.ball).distance - piece.ball_radius - r);
    }
    if (far >= best_.distance_mm) return {position, far, false, 0};
    // Known a little above the best too: values far above it let longer stretches go.
    const double limit = 2 * best_.distance_mm + 2 * r;
    const Separation near = exact_below_(limit, carried, rest.kind());
    if (near.distance_mm >= limit) return {position, std::max(far, limit), false, 0};
    if (near.distance_mm < best_.distance_mm) {
      const Eigen::Isometry3d forth = back.inverse();
      best_ = near;
      best_.at_first = forth * near.at_first;
      best_.at_second = forth * near.at_second;
      best_at_ = position;
      found_ = true;
    }
    const double slope = (near.at_first - near.at_second).dot(positions_.course().velocity(near.at_first));
    return {position, near.distance_mm, true, slope};
  }

  void push(const AtPosition& a, const AtPosition& b) {
    const double width = b.position - a.position;
    const double bound = std::max(gap_, positions_.lower_bound(a.value, b.value, width, best_.distance_mm));
    if (bound >= best_.distance_mm - certain_) return;
    // A body that is free at both ends of a stretch enters no deeper between them than half the way that it goes.
    const double narrowest = bound > 0 ? search::kNarrowest_mm : 2 * kSweptTouching_mm;
    if (positions_.speed() * width <= narrowest) return;
    heap_.push_back({bound, a, b});
    std::push_heap(heap_.begin(), heap_.end(), higher);
  }

  // The least of smooth functions has no sharp valleys: the slope's sign leads to the bottom.
  void close_in() {
    const double reach = positions_.speed() > 0 ? 0.1 / positions_.speed() : 0;
    AtPosition a = at(std::max(0.0, best_at_ - reach)), b = at(std::min(1.0, best_at_ + reach));
    for (int i = 0; i < 40 && a.exact && b.exact && a.slope < 0 && b.slope > 0; ++i) {
      const double width = b.position - a.position;
      if (width * positions_.speed() <= 1e-9) return;
      const double share = i % 3 == 2 ? 0.5 : std::clamp(-a.slope / (b.slope - a.slope), 0.01, 0.99);
      const AtPosition middle = at(a.position + share * width);
      if (!middle.exact || middle.slope == 0) return;
      (middle.slope < 0 ? a : b) = middle;
    }
  }

  Separation& best_;
  const TubeBody& tube_;
  const Obstacle::Kind& kind_;
  ExactBelow exact_below_;
  Positions positions_;
  std::vector<Stretch> heap_;
  double gap_ = -kAnyDistance;
  double certain_ = search::kCertain_mm;
  double best_at_ = 0;
  bool found_ = false;
};

// A convex set's signed distance is nowhere below this.
struct TangentPlane {
  Vec3 normal = Vec3::Zero();  // unit, or zero for none
  double offset = 0;
};

// A stretch of one piece in a stretch of positions: both by their middles and half their widths.
struct Patch {
  double bound;
  int piece;
  double s, half_s, position, half_position;
  bool along;                // to be cut along the piece, else between positions
  TangentPlane own, before;  // at the middle, and one of another face of the body met on the way here
};

class DepthSearch {
 public:
  DepthSearch(const TubeBody& tube, const Obstacle::Kind& kind, const search::Least& found)
      : tube_(tube), kind_(kind), rest_(*kind.at_rest()), course_(kind), best_(found) {
    certain_ = rest_.convex() ? kDeepest_mm : kDepth_mm;
  }

  search::Least run() {
    for (int i = 0; i < static_cast<int>(tube_.pieces().size()); ++i) {
      const double half = tube_.pieces()[i].length / 2;
      push({0, i, half, half, 0.5, 0.5, false, {}, {}});
    }
    for (int cuts = 1; !heap_.empty(); ++cuts) {
      if (cuts % (4 * search::kPatience) == 0) certain_ *= 4;
      std::pop_heap(heap_.begin(), heap_.end(), deeper);
      const Patch top = heap_.back();
      heap_.pop_back();
      if (top.bound >= best_.value - certain_) break;
      Patch one = top, other = top;
      if (top.along) {
        one.half_s = other.half_s = top.half_s / 2;
        one.s -= one.half_s;
        other.s += one.half_s;
      } else {
        one.half_position = other.half_position = top.half_position / 2;
        one.position -= one.half_position;
        other.position += one.half_position;
      }
      push(one);
      push(other);
    }
    // A body that is known by triangles only is no better known.
    if (!rest_.convex()) return best_;
    const auto field = [this](const Vec3& at) { return kind_.foot(at); };
    search::polish(best_, tube_.pieces()[best_.piece], field);
    return best_;
  }

 private:
  static bool deeper(const Patch& x, const Patch& y) { return x.bound > y.bound; }

  void push(Patch patch) {
    const SolidPiece& piece = tube_.pieces()[patch.piece];
    const Eigen::Isometry3d back = kind_.back_from(patch.position);
    const Vec3 at = piece.point(patch.s), carried = back * at;
    const Foot foot = rest_.foot(carried);
    if (foot.distance < best_.value) {
      best_ = {foot.distance, patch.piece, patch.s, foot_at(foot.distance, back.inverse() * foot.at)};
    }
    const double a = patch.half_s, b = patch.half_position, turn = course_.turn();
    const double off = course_.off_hinge(at) + a;
    const double reach = a + course_.speed(off) * b;  // the patch goes no farther
    // Nor farther from the plane of its two directions.
    const double bend = piece.curvature() * a * a / 2 + turn * a * b + turn * turn * off * b * b / 2;
    const Vec3 along = back.linear() * piece.tangent(patch.s), over = course_.velocity(carried),
               away = carried - foot.at;
    patch.bound = std::max(foot.distance - reach, -rest_.kind().greatest_depth());
    double pull_s = a, pull_position = course_.speed(off) * b;
    if (rest_.convex()) {
      const bool near = std::abs(foot.distance) <= kOnSurface_mm;
      const Vec3 normal = near ? foot.outwards : Vec3(away / foot.distance);
      if ((normal - patch.own.normal).squaredNorm() > 1e-12) patch.before = patch.own;
      patch.own = {normal, normal.dot(carried) - foot.distance};
      const auto seen = [&](const TangentPlane& plane) -> Vec3 {
        return {plane.normal.dot(carried) - plane.offset, plane.normal.dot(along) * a, plane.normal.dot(over) * b};
      };
      const auto offer = [&](const Vec3& plane) {
        patch.bound = std::max(patch.bound, plane[0] - std::abs(plane[1]) - std::abs(plane[2]) - bend);
      };
      if (normal != Vec3::Zero()) {
        const Vec3 own = seen(patch.own);
        pull_s = std::abs(own[1]);
        pull_position = std::abs(own[2]);
        offer(own);
        if (patch.before.normal != Vec3::Zero()) {
          // Between two faces, the mean of their planes that is level along the piece, or between positions.
          const Vec3 before = seen(patch.before);
          for (const int way : {1, 2}) {
            const double share = own[way] / (own[way] - before[way]);
            if (share > 0 && share < 1) offer(own + share * (before - own));
          }
        }
      }
    } else if (foot.distance < 0) {
      // Nothing is deeper than it is far from a place of the surface.
      const double pull = std::abs(away.dot(along)) * a + std::abs(away.dot(over)) * b;
      const double squared = away.squaredNorm() + 2 * pull + 2 * away.norm() * bend + reach * reach;
      patch.bound = std::max(patch.bound, -std::sqrt(squared));
    }
    if (patch.bound >= best_.value - certain_ || reach <= search::kNarrowest_mm) return;
    pull_s += piece.curvature() * a * a / 2;
    pull_position += turn * turn * off * b * b / 2;
    patch.along = pull_s >= pull_position;
    heap_.push_back(patch);
    std::push_heap(heap_.begin(), heap_.end(), deeper);
  }

  const TubeBody& tube_;
  const Obstacle::Kind& kind_;
  const Obstacle& rest_;
  Course course_;
  search::Least best_;
  std::vector<Patch> heap_;
  double certain_;
};

}  // namespace

void offer_positions(Separation& best, const TubeBody& tube, const Obstacle::Kind& kind, ExactBelow exact_below) {
  PositionSearch(best, tube, kind, exact_below).run();
}

search::Least deepest_place(const TubeBody& tube, const Obstacle::Kind& kind, const search::Least& found) {
  return DepthSearch(tube, kind, found).run();
}

}  // namespace halfhard
