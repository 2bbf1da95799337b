// Random runs and bodies for the distance tests; every scene comes from one printed number.
#pragma once

#include <random>
#include <vector>

#include "geometry/curve/centreline.h"
#include "geometry/distance/body.h"

namespace halfhard::testing {

class Dice {
 public:
  explicit Dice(unsigned number) : engine_(number) {}
  // Own arithmetic: the standard's distributions differ between libraries.
  double between(double low, double high) { return low + (high - low) * (engine_() / 4294967296.0); }
  int upto(int count) { return static_cast<int>(engine_() % static_cast<unsigned>(count)); }
  Vec3 point(double reach) { return {between(-reach, reach), between(-reach, reach), between(-reach, reach)}; }
  Vec3 direction() {
    for (;;) {
      const Vec3 v = point(1);
      if (v.norm() > 0.1 && v.norm() < 1) return v.normalized();
    }
  }
  Mat3 attitude() { return Eigen::AngleAxisd(between(0, 6.28), direction()).toRotationMatrix(); }

 private:
  std::mt19937 engine_;
};

// A run of `bends` random bends that fits its radius, from about `reach` around the origin.
inline CentreLine random_line(Dice& dice, int bends, double radius, double reach) {
  std::vector<Vec3> points{dice.point(reach)};
  Vec3 direction = dice.direction();
  double setback = 0;
  for (int i = 0; i <= bends; ++i) {
    const double angle = i < bends ? dice.between(0.2, 2.2) : 0;
    const double next_setback = radius * std::tan(angle / 2);
    const double straight = dice.upto(6) == 0 ? 0.5 : dice.between(5, 90);
    points.push_back(points.back() + (setback + straight + next_setback) * direction);
    Vec3 side = any_square_to(direction);
    side = Eigen::AngleAxisd(dice.between(0, 6.28), direction) * side;
    direction = (std::cos(angle) * direction + std::sin(angle) * side).normalized();
    setback = next_setback;
  }
  return CentreLine::through(points, radius);
}

}  // namespace halfhard::testing
