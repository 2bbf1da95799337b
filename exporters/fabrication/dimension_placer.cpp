#include "exporters/fabrication/dimension_placer.h"

#include <algorithm>

#include "exporters/sheet/clashes.h"
#include "exporters/sheet/outline_points.h"

namespace halfhard {
namespace {

constexpr double kApart_mm = 0.4;

std::vector<Vec2> points_of_primitive(const Primitive& primitive) {
  if (const auto* line = std::get_if<Polyline>(&primitive)) {
    std::vector<Vec2> points = line->points;
    if (line->closed) points.push_back(line->points.front());
    return points;
  }
  if (const auto* arc = std::get_if<ArcCurve>(&primitive)) return points_along(*arc);
  if (const auto* ellipse = std::get_if<EllipseArc>(&primitive)) return points_along(*ellipse);
  return {};
}

}  // namespace

void DimensionPlacer::mark(const Entity& entity) {
  for (const Primitive& primitive : drawn(entity)) {
    if (const auto* text = std::get_if<Text>(&primitive)) boxes_.push_back(box_of(*text));
    const std::vector<Vec2> points = points_of_primitive(primitive);
    for (std::size_t i = 1; i < points.size(); ++i) strokes_.push_back({points[i - 1], points[i]});
  }
}

bool DimensionPlacer::readable(const Entity& entity) const {
  for (const Primitive& primitive : drawn(entity)) {
    if (const auto* text = std::get_if<Text>(&primitive)) {
      const TextBox box = box_of(*text);
      for (const Vec2& corner : box.corners)
        if ((corner.array() < low_.array()).any() || (corner.array() > high_.array()).any()) return false;
      if (std::any_of(strokes_.begin(), strokes_.end(), [&](const Stroke& stroke) {
            return overlap(box, {stroke.from, stroke.to}, -kApart_mm);
          }))
        return false;
      if (std::any_of(boxes_.begin(), boxes_.end(), [&](const TextBox& other) {
            return overlap(box, std::vector<Vec2>(other.corners, other.corners + 4), -kApart_mm);
          }))
        return false;
    }
    const std::vector<Vec2> points = points_of_primitive(primitive);
    for (std::size_t i = 1; i < points.size(); ++i)
      if (std::any_of(boxes_.begin(), boxes_.end(), [&](const TextBox& box) {
            return overlap(box, {points[i - 1], points[i]}, -kApart_mm);
          }))
        return false;
  }
  return true;
}

bool DimensionPlacer::place(const std::vector<Entity>& candidates, std::vector<Entity>& out) {
  for (const Entity& candidate : candidates) {
    if (!readable(candidate)) continue;
    mark(candidate);
    out.push_back(candidate);
    return true;
  }
  return false;
}

}  // namespace halfhard
