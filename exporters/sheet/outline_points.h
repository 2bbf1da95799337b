// Curves of a drawing as points, for tests of overlap and for formats without such curves.
#pragma once

#include <vector>

#include "exporters/sheet/drawing.h"

namespace halfhard {

Vec2 point_on(const ArcCurve& arc, double at_deg);
Vec2 point_on(const EllipseArc& ellipse, double at_deg);
// Points along it, ends included, chords at most `step_deg` long.
std::vector<Vec2> points_along(const ArcCurve& arc, double step_deg = 5);
std::vector<Vec2> points_along(const EllipseArc& ellipse, double step_deg = 5);
// The lines of a hatching, cut at the area's loops.
std::vector<Polyline> hatch_lines(const Area& area);

}  // namespace halfhard
