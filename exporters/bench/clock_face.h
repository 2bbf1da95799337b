// The clock of the bench drawn: seen along the tube from the hook, the new bend swinging to 12, hands where the formed
// legs lie. A leg behind the hook is drawn solid, one on the lever side dashed.
#pragma once

#include <vector>

#include "exporters/sheet/drawing.h"
#include "geometry/bending/clock.h"

namespace halfhard {

// `radius_mm` of the dial; texts reach 9 mm beyond it.
std::vector<Entity> clock_face(const std::vector<ClockReading>& readings, const Vec2& centre, double radius_mm);

}  // namespace halfhard
