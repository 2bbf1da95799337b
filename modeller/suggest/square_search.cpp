// Legs along three square directions with 90s: every path on a grid, legs that meet something left out as they are laid.
#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>

#include "geometry/base/tolerances.h"
#include "modeller/suggest/families.h"

namespace halfhard {
namespace {

constexpr int kMostLooks = 150000;        // of straight stretches, a call
constexpr std::size_t kMostPaths = 4000;  // kept a call
constexpr std::size_t kMostCoordinates = 12;
constexpr double kSame_mm = 0.5;

// Three square directions that both ends lie along.
std::optional<Mat3> common_frame(const Surroundings& scene) {
  const Angle between = angle_between(scene.leaves, scene.arrives);
  const bool parallel = between.degrees() < kSameDirection_deg || between.degrees() > 180 - kSameDirection_deg;
  if (!parallel && std::abs(between.degrees() - 90) > kSameDirection_deg) return std::nullopt;
  Mat3 frame;
  frame.col(0) = scene.leaves;
  Vec3 side = scene.arrives;
  if (parallel) {
    // Site directions where the ends run along one, so that a path is told in site words; else towards the other end.
    const Vec3 way = scene.end - scene.start;
    side = any_square_to(scene.leaves);
    const double most = scene.leaves.cwiseAbs().maxCoeff();
    if (most < 1 - 1e-9) {
      const Vec3 off = way - way.dot(scene.leaves) * scene.leaves;
      if (off.norm() > 1) side = off;
    }
  }
  side -= side.dot(scene.leaves) * scene.leaves;
  frame.col(1) = side.normalized();
  frame.col(2) = frame.col(0).cross(frame.col(1));
  return frame;
}

class SquareSearch {
 public:
  SquareSearch(const Surroundings& scene, const Mat3& frame, int bends) : scene_(scene), frame_(frame), bends_(bends) {
    start_ = frame.transpose() * scene.start;
    end_ = frame.transpose() * scene.end;
    const Vec3 last = frame.transpose() * scene.arrives;
    last.cwiseAbs().maxCoeff(&last_axis_);
    last_sign_ = last[last_axis_] > 0 ? 1 : -1;
    make_grid();
  }

  std::vector<Points> paths() {
    Points corners{start_};
    lay(corners, 0, 1);
    return std::move(found_);
  }

 private:
  Vec3 site(const Vec3& local) const { return frame_ * local; }

  void add(int axis, double value) {
    auto& values = grid_[axis];
    const bool known =
        std::any_of(values.begin(), values.end(), [&](double other) { return std::abs(other - value) < kSame_mm; });
    if (!known && std::isfinite(value)) values.push_back(value);
  }

  // Beside a body at its clearance, on both sides, to whole millimetres from the start.
  void add_beside(const InTheWay& other) {
    const double away = scene_.outside_radius_mm + other.required_mm;
    const auto outwards = [&](int axis, double value, double side) {
      const double from_start = value - start_[axis];
      add(axis, start_[axis] + (side > 0 ? std::ceil(from_start) : std::floor(from_start)));
    };
    if (other.body) {
      if (const auto* plane = std::get_if<HalfSpace>(&other.body->body().shape)) {
        const Vec3 facing = frame_.transpose() * plane->facing, at = frame_.transpose() * plane->at;
        int axis = 0;
        if (facing.cwiseAbs().maxCoeff(&axis) < 1 - 1e-9) return;
        const double side = facing[axis] > 0 ? 1 : -1;
        outwards(axis, at[axis] + side * away, side);
        return;
      }
    }
    const Bounds box = other.bounds();
    if (box.empty() || !box.low.allFinite() || !box.high.allFinite()) return;
    Bounds local;
    for (int corner = 0; corner < 8; ++corner) {
      local.add(Vec3(frame_.transpose() * Vec3(corner & 1 ? box.high.x() : box.low.x(),
                                               corner & 2 ? box.high.y() : box.low.y(),
                                               corner & 4 ? box.high.z() : box.low.z())));
    }
    // A run's own box holds its radius already.
    for (int axis = 0; axis < 3; ++axis) {
      outwards(axis, local.high[axis] + away, 1);
      outwards(axis, local.low[axis] - away, -1);
    }
  }

  void make_grid() {
    const double around = std::ceil(2 * scene_.bend_radius_mm + scene_.between_mm);
    for (int axis = 0; axis < 3; ++axis) {
      add(axis, start_[axis]);
      add(axis, end_[axis]);
    }
    add(0, start_[0] + std::ceil(scene_.first_straight_mm + scene_.bend_radius_mm));
    add(last_axis_, end_[last_axis_] - last_sign_ * std::ceil(scene_.last_straight_mm + scene_.bend_radius_mm));
    for (const InTheWay& other : scene_.in_the_way) add_beside(other);
    for (int axis = 0; axis < 3; ++axis) {
      for (const double side : {1.0, -1.0}) {
        add(axis, start_[axis] + side * around);
        add(axis, end_[axis] + side * around);
      }
      add(axis, start_[axis] + std::round((end_[axis] - start_[axis]) / 2));
      // The nearest to the stretch between the ends are the likeliest.
      const double low = std::min(start_[axis], end_[axis]), high = std::max(start_[axis], end_[axis]);
      const auto off = [&](double value) { return std::max({0.0, low - value, value - high}); };
      std::stable_sort(grid_[axis].begin(), grid_[axis].end(), [&](double a, double b) { return off(a) < off(b); });
      if (grid_[axis].size() > kMostCoordinates) grid_[axis].resize(kMostCoordinates);
    }
  }

  double least_leg(int leg) const {
    const bool first = leg == 0, last = leg == bends_;
    double straight = first ? scene_.first_straight_mm : last ? scene_.last_straight_mm : scene_.between_mm;
    if (first && last) straight = std::max(scene_.first_straight_mm, scene_.last_straight_mm);
    return straight + scene_.bend_radius_mm * ((first ? 0 : 1) + (last ? 0 : 1));
  }

  bool free_leg(const Vec3& from, const Vec3& to, int leg) {
    if (++looks_ > kMostLooks) return false;
    const Vec3 way = (to - from).normalized();
    const double before = leg == 0 ? 0 : scene_.bend_radius_mm, after = leg == bends_ ? 0 : scene_.bend_radius_mm;
    const std::array<double, 6> key{from.x(), from.y(), from.z(), to.x() + before * 1e-3, to.y() + after * 1e-3,
                                    to.z()};
    const auto known = looked_.find(key);
    if (known != looked_.end()) return known->second;
    const bool free = straight_is_free(scene_, site(from + before * way), site(to - after * way));
    looked_.emplace(key, free);
    return free;
  }

  // How many of the two coordinates across the last leg are not the end's yet.
  int misfits(const Vec3& at) const {
    int count = 0;
    for (int axis = 0; axis < 3; ++axis) {
      if (axis != last_axis_ && std::abs(at[axis] - end_[axis]) > 1e-6) ++count;
    }
    return count;
  }

  void lay(Points& corners, int axis, int sign) {
    const int leg = static_cast<int>(corners.size()) - 1;
    if (looks_ > kMostLooks || found_.size() >= kMostPaths) return;
    const Vec3 at = corners.back();
    if (leg == bends_) {
      if (axis != last_axis_ || sign != last_sign_ || misfits(at) > 0) return;
      if (sign * (end_[axis] - at[axis]) < least_leg(leg) - 1e-9 || !free_leg(at, end_, leg)) return;
      Points path;
      for (const Vec3& corner : corners) path.push_back(site(corner));
      path.front() = scene_.start;
      path.push_back(scene_.end);
      found_.push_back(std::move(path));
      return;
    }
    for (const double value : grid_[axis]) {
      if (sign * (value - at[axis]) < least_leg(leg) - 1e-9) continue;
      Vec3 to = at;
      to[axis] = value;
      // Every leg still to come but the last can put one coordinate right.
      if (misfits(to) > bends_ - leg - 1 || !free_leg(at, to, leg)) continue;
      corners.push_back(to);
      for (int next = 0; next < 3; ++next) {
        if (next == axis || (leg + 1 == bends_ && next != last_axis_)) continue;
        lay(corners, next, 1);
        lay(corners, next, -1);
      }
      corners.pop_back();
    }
  }

  const Surroundings& scene_;
  Mat3 frame_;
  int bends_;
  Vec3 start_, end_;
  int last_axis_ = 0, last_sign_ = 1;
  std::array<std::vector<double>, 3> grid_;
  std::map<std::array<double, 6>, bool> looked_;
  std::vector<Points> found_;
  int looks_ = 0;
};

}  // namespace

std::vector<Points> square_candidates(const Surroundings& scene, int bends) {
  const auto frame = common_frame(scene);
  if (!frame || bends < 2) return {};
  return SquareSearch(scene, *frame, bends).paths();
}

}  // namespace halfhard
