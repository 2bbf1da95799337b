// Where the eye is: the four views that have names, and how a view is fitted about what is drawn.
// Parallel projection, so that sizes can be compared across the picture. Site frame, mm.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "geometry/base/vec.h"
#include "viewer/drawn.h"

namespace halfhard {

// plan: from above, back is up the picture. elevation: from the front. side: from the left end.
// isometric: from the front, right and above.
enum class NamedView { plan, elevation, side, isometric };

const char* view_word(NamedView view);
std::optional<NamedView> view_from_word(const std::string& word);

struct ViewFrame {
  Vec3 centre = Vec3::Zero();    // what the middle of the picture shows
  Vec3 looking = Vec3::UnitY();  // unit, away from the eye
  Vec3 upwards = Vec3::UnitZ();  // unit, square to `looking`
  double half_height_mm = 500;   // what the upper half of the picture covers

  Vec3 rightwards() const { return looking.cross(upwards); }
};

// The view that just holds these places, in a picture of `width` by `height`; a margin is left for labels. At least
// 100 mm are shown; with no places, a metre about the site's origin.
ViewFrame fitted_view(NamedView view, const std::vector<Vec3>& places, double width, double height);
// The same for a direction of view that has no name.
ViewFrame fitted_frame(const ViewFrame& direction, const std::vector<Vec3>& places, double width, double height);

// The same direction of view, brought to show a place at a size that fits what is near it.
ViewFrame flown_to(const ViewFrame& from, const Vec3& at, double half_height_mm);

// Picture coordinates in pixels, from the lower left, and the depth away from the eye in mm.
struct Projected {
  double x = 0, y = 0, depth_mm = 0;
};
Projected project(const ViewFrame& frame, double width, double height, const Vec3& at);

// A line of sight through a pixel: starts far in front of everything within `reach_mm` of the centre.
struct Sight {
  Vec3 from = Vec3::Zero(), direction = Vec3::UnitY();
};
Sight sight_through(const ViewFrame& frame, double width, double height, double x, double y, double reach_mm);

}  // namespace halfhard
