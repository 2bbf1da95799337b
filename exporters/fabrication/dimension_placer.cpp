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

// Whether upright boxes round the two come near: cheap, and it settles nearly every pair.
bool near(const TextBox& box, const Vec2* points, int count, double off) {
  const auto apart = [&](int axis) {
    double low = 1e300, high = -1e300, other_low = 1e300, other_high = -1e300;
    for (const Vec2& corner : box.corners) {
      low = std::min(low, corner[axis]);
      high = std::max(high, corner[axis]);
    }
    for (int i = 0; i < count; ++i) {
      other_low = std::min(other_low, points[i][axis]);
      other_high = std::max(other_high, points[i][axis]);
    }
    return high + 2 * off < other_low || other_high + 2 * off < low;
  };
  return !apart(0) && !apart(1);
}

bool meets(const TextBox& box, const Vec2& from, const Vec2& to) {
  const Vec2 ends[] = {from, to};
  return near(box, ends, 2, kOffLines_mm) && overlap(box, {from, to}, -kOffLines_mm);
}

bool meets(const TextBox& box, const TextBox& other) {
  return near(box, other.corners, 4, kOffTexts_mm) &&
         overlap(box, std::vector<Vec2>(other.corners, other.corners + 4), -kOffTexts_mm);
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
                      [&](const Stroke& stroke) { return meets(box, stroke.from, stroke.to); }) &&
         std::none_of(boxes_.begin(), boxes_.end(), [&](const TextBox& other) { return meets(box, other); });
}

bool DimensionPlacer::readable(const Entity& entity) const {
  for (const Primitive& primitive : drawn(entity)) {
    if (const auto* text = std::get_if<Text>(&primitive); text != nullptr && !free(box_of(*text))) return false;
    const std::vector<Vec2> points = points_of_primitive(primitive);
    for (std::size_t i = 1; i < points.size(); ++i)
      if (std::any_of(boxes_.begin(), boxes_.end(),
                      [&](const TextBox& box) { return meets(box, points[i - 1], points[i]); }))
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
