// Dragging along the site's axes: what a movement of the hand across the picture means in the room. Pixels are measured
// across to the right and up; mm. Pure.
#pragma once

#include <optional>

#include "viewer/view_frame.h"

namespace halfhard {

// 0, 1, 2 for right, back, up: the axis that the movement follows best in the picture. Axes that point nearly at the eye
// cannot be followed. Nothing for no movement.
std::optional<int> axis_followed(const ViewFrame& frame, double across_px, double up_px);

// How far along that axis the place under the hand has gone, positive towards right, back, up.
double dragged_mm(const ViewFrame& frame, double picture_height_px, int axis, double across_px, double up_px);

}  // namespace halfhard
