// An upright box around things, for leaving out what is certainly too far.
#pragma once

#include <algorithm>
#include <limits>

#include "geometry/base/vec.h"

namespace halfhard {

struct Bounds {
  Vec3 low = Vec3::Constant(std::numeric_limits<double>::infinity());
  Vec3 high = Vec3::Constant(-std::numeric_limits<double>::infinity());

  static Bounds everything() {
    const double far = std::numeric_limits<double>::infinity();
    return {Vec3::Constant(-far), Vec3::Constant(far)};
  }
  bool empty() const { return low.x() > high.x(); }
  void add(const Vec3& point) {
    low = low.cwiseMin(point);
    high = high.cwiseMax(point);
  }
  void add(const Bounds& other) {
    low = low.cwiseMin(other.low);
    high = high.cwiseMax(other.high);
  }
  Bounds grown(double by) const { return {low - Vec3::Constant(by), high + Vec3::Constant(by)}; }

  // Never more than the distance of anything inside the boxes; 0 where they meet. Not for empty boxes.
  double squared_distance(const Bounds& other) const {
    double sum = 0;
    for (int i = 0; i < 3; ++i) {
      const double gap = std::max({0.0, low[i] - other.high[i], other.low[i] - high[i]});
      sum += gap * gap;
    }
    return sum;
  }
  double squared_distance(const Vec3& point) const {
    double sum = 0;
    for (int i = 0; i < 3; ++i) {
      const double gap = std::max({0.0, low[i] - point[i], point[i] - high[i]});
      sum += gap * gap;
    }
    return sum;
  }
};

}  // namespace halfhard
