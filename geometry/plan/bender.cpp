#include "geometry/plan/bender.h"

namespace halfhard {

Angle Bender::set_angle(Angle wanted) const {
  if (spring_back.empty()) return wanted;
  SpringBackPair below{};  // (0, 0)
  for (const SpringBackPair& above : spring_back) {
    if (wanted <= above.got) {
      const double share = (wanted - below.got).degrees() / (above.got - below.got).degrees();
      return below.set + share * (above.set - below.set);
    }
    below = above;
  }
  return (wanted.degrees() / below.got.degrees()) * below.set;
}

}  // namespace halfhard
