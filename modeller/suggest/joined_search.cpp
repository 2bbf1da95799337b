// Legs laid at standard angles from either end, joined by one leg at whatever angles: for ends askew, where standard
// angles alone do not lead from one to the other.
#include <algorithm>
#include <cmath>

#include "geometry/curve/centreline.h"
#include "modeller/suggest/families.h"

namespace halfhard {
namespace {

constexpr std::size_t kMostFound = 240;  // paths kept a call
constexpr int kMostLooks = 400000;

// Lengths to try: whole millimetres, closer where legs are short.
std::vector<double> lengths(double least, double reach, double first_step, double growth) {
  std::vector<double> all;
  for (double beyond = 0, step = first_step; beyond <= reach; beyond += step, step *= growth) {
    all.push_back(std::ceil(least - 1e-9) + std::round(beyond));
  }
  return all;
}

// Directions at the standard angles from `along`, turned round it by every `turns` th part of a circle, the first turned
// towards `beside`.
std::vector<Vec3> turned(const Vec3& along, const Vec3& beside, int turns, double most_deg) {
  Vec3 side = beside - beside.dot(along) * along;
  side = side.norm() > 1e-3 ? Vec3(side.normalized()) : any_square_to(along);
  const Vec3 other = along.cross(side);
  std::vector<Vec3> all;
  for (const double degrees : {90.0, 45.0, 30.0, 60.0, 22.5}) {
    if (degrees > most_deg + 1e-9) continue;
    const Angle lean = Angle::degrees(degrees);
    for (int k = 0; k < turns; ++k) {
      const Angle round = Angle::degrees(360.0 * k / turns);
      all.push_back(lean.cos() * along + lean.sin() * (round.cos() * side + round.sin() * other));
    }
  }
  return all;
}

// What the bender asks of the legs, before anything is looked at.
bool legs_fit(const Surroundings& scene, const Points& points) {
  const std::size_t legs = points.size() - 1;
  double setback = 0;
  for (std::size_t leg = 0; leg < legs; ++leg) {
    double next = 0;
    if (leg + 1 < legs) {
      const Angle angle = turn(points[leg], points[leg + 1], points[leg + 2]);
      if (angle.degrees() > scene.most_angle_deg || angle.degrees() < 1) return false;
      next = scene.bend_radius_mm * angle.tan_of_half();
    }
    const double needed = leg == 0          ? scene.first_straight_mm
                          : leg + 1 == legs ? scene.last_straight_mm
                                            : scene.between_mm;
    if ((points[leg + 1] - points[leg]).norm() - setback - next < needed) return false;
    setback = next;
  }
  return true;
}

class Joining {
 public:
  explicit Joining(const Surroundings& scene) : scene_(scene) {}

  void offer(const Points& points) {
    if (full() || !legs_fit(scene_, points)) return;
    ++looks_;
    if (legs_are_free(scene_, points)) found_.push_back(points);
  }
  bool full() const { return looks_ >= kMostLooks || found_.size() >= kMostFound; }
  std::vector<Points> take() { return std::move(found_); }

 private:
  const Surroundings& scene_;
  int looks_ = 0;
  std::vector<Points> found_;
};

}  // namespace

std::vector<Points> joined_candidates(const Surroundings& scene, int bends) {
  Joining joining(scene);
  const double reach = (scene.end - scene.start).norm() + 4 * scene.bend_radius_mm;
  const bool two = bends == 2;
  const auto first_lengths = lengths(scene.first_straight_mm, reach, two ? 4 : 24, two ? 1.02 : 1.15);
  const auto last_lengths = lengths(scene.last_straight_mm, reach, two ? 4 : 24, two ? 1.02 : 1.15);
  const auto between_lengths = lengths(scene.between_mm + 20, reach, 30, 1.2);
  const auto at_start = turned(scene.leaves, scene.arrives, 8, scene.most_angle_deg);
  const auto at_end = turned(scene.arrives, scene.leaves, 8, scene.most_angle_deg);
  for (const double first : first_lengths) {
    const Vec3 from = scene.start + first * scene.leaves;
    for (const double last : last_lengths) {
      const Vec3 until = scene.end - last * scene.arrives;
      if (joining.full()) return joining.take();
      if (two) {
        joining.offer({scene.start, from, until, scene.end});
        continue;
      }
      for (const double middle : between_lengths) {
        for (const Vec3& way : at_start) joining.offer({scene.start, from, from + middle * way, until, scene.end});
        for (const Vec3& way : at_end) joining.offer({scene.start, from, until - middle * way, until, scene.end});
      }
    }
  }
  return joining.take();
}

}  // namespace halfhard
