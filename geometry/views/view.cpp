#include "geometry/views/view.h"

#include <cmath>

#include "geometry/base/require.h"

namespace halfhard {

View View::along(const Vec3& look, const Vec3& upwards) {
  View view;
  view.look = look.normalized();
  const Vec3 right = view.look.cross(upwards);
  HALFHARD_REQUIRE(right.norm() > 1e-9);
  view.right = right.normalized();
  view.up = view.right.cross(view.look);
  return view;
}

View View::front() { return {Vec3::UnitY(), Vec3::UnitX(), Vec3::UnitZ()}; }
View View::back() { return {-Vec3::UnitY(), -Vec3::UnitX(), Vec3::UnitZ()}; }
View View::top() { return {-Vec3::UnitZ(), Vec3::UnitX(), Vec3::UnitY()}; }
View View::bottom() { return {Vec3::UnitZ(), Vec3::UnitX(), -Vec3::UnitY()}; }
View View::from_left() { return {Vec3::UnitX(), -Vec3::UnitY(), Vec3::UnitZ()}; }
View View::from_right() { return {-Vec3::UnitX(), Vec3::UnitY(), Vec3::UnitZ()}; }

View View::isometric(bool from_right) { return along(Vec3(from_right ? -1 : 1, 1, -1), Vec3::UnitZ()); }

}  // namespace halfhard
