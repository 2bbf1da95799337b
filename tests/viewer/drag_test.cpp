#include "viewer/drag.h"

#include <gtest/gtest.h>

namespace halfhard {
namespace {

TEST(Drag, AMovementAlongAnAxisAsSeenFollowsItByItsTrueLength) {
  const std::vector<Vec3> room{{0, 0, 0}, {1000, 800, 600}};
  for (const NamedView view : {NamedView::plan, NamedView::elevation, NamedView::side, NamedView::isometric}) {
    const ViewFrame frame = fitted_view(view, room, 1280, 720);
    for (int axis = 0; axis < 3; ++axis) {
      const Vec3 place(300, 200, 100), moved = place + 37 * Vec3::Unit(axis);
      const Projected from = project(frame, 1280, 720, place), to = project(frame, 1280, 720, moved);
      const double across = to.x - from.x, up = to.y - from.y;
      if (std::hypot(across, up) < 1) continue;  // points at the eye
      EXPECT_EQ(axis_followed(frame, across, up), axis) << view_word(view);
      EXPECT_NEAR(dragged_mm(frame, 720, axis, across, up), 37, 1e-9);
    }
  }
}

TEST(Drag, AnAxisThatPointsAtTheEyeIsNotFollowed) {
  const ViewFrame frame = fitted_view(NamedView::elevation, {{0, 0, 0}, {1, 1, 1}}, 100, 100);
  EXPECT_EQ(dragged_mm(frame, 100, 1, 50, 50), 0);
  EXPECT_FALSE(axis_followed(frame, 0, 0));
}

}  // namespace
}  // namespace halfhard
