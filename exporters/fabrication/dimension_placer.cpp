#include "exporters/fabrication/dimension_placer.h"

#include <algorithm>

#include "exporters/sheet/clashes.h"
#include "exporters/sheet/outline_points.h"

namespace halfhard {
namespace {

constexpr double kOffLines_mm = 0.4, kOffTexts_mm = 1.0;

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

bool DimensionPlacer::free(const TextBox& box) const {
  for (const Vec2& corner : box.corners)
    if ((corner.array() < low_.array()).any() || (corner.array() > high_.array()).any()) return false;
  return std::none_of(strokes_.begin(), strokes_.end(),
                      [&](const Stroke& stroke) {
                        return overlap(box, {stroke.from, stroke.to}, -kOffLines_mm);
                      }) &&
         std::none_of(boxes_.begin(), boxes_.end(), [&](const TextBox& other) {
           return overlap(box, std::vector<Vec2>(other.corners, other.corners + 4), -kOffTexts_mm);
         });
}

bool DimensionPlacer::readable(const Entity& entity) const {
  for (const Primitive& primitive : drawn(entity)) {
    if (const auto* text = std::get_if<Text>(&primitive); text != nullptr && !free(box_of(*text))) return false;
    const std::vector<Vec2> points = points_of_primitive(primitive);
    for (std::size_t i = 1; i < points.size(); ++i)
      if (std::any_of(boxes_.begin(), boxes_.end(), [&](const TextBox& box) {
            return overlap(box, {points[i - 1], points[i]}, -kOffLines_mm);
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

bool DimensionPlacer::place(const std::vector<Placement>& candidates, std::vector<Entity>& out) {
  for (const Placement& candidate : candidates) {
    const bool good =
        std::all_of(candidate.entities.begin(), candidate.entities.end(),
                    [&](const Entity& entity) { return readable(entity); }) &&
        std::all_of(candidate.room.begin(), candidate.room.end(), [&](const TextBox& box) { return free(box); });
    if (!good) continue;
    for (const Entity& entity : candidate.entities) {
      mark(entity);
      out.push_back(entity);
    }
    boxes_.insert(boxes_.end(), candidate.room.begin(), candidate.room.end());
    return true;
  }
  return false;
}

TextBox box_between(const Vec2& low, const Vec2& high) {
  return {"", {low, {high.x(), low.y()}, high, {low.x(), high.y()}}};
}

}  // namespace halfhard
