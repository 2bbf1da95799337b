#include "exporters/sheet/clashes.h"

#include <algorithm>

#include "exporters/sheet/frame.h"
#include "exporters/sheet/outline_points.h"

namespace halfhard {
namespace {

struct Interval {
  double low = 1e300, high = -1e300;
  void take(double value) {
    low = std::min(low, value);
    high = std::max(high, value);
  }
};

template <typename Points>
Interval shadow(const Points& points, const Vec2& axis) {
  Interval interval;
  for (const Vec2& p : points) interval.take(p.dot(axis));
  return interval;
}

// Convex shapes apart along an axis by more than -2 * slack do not clash.
bool apart(const TextBox& box, const std::vector<Vec2>& other, const Vec2& axis, double slack) {
  const Interval a = shadow(box.corners, axis);
  const Interval b = shadow(other, axis);
  return a.high - slack <= b.low || b.high - slack <= a.low;
}

Vec2 middle(const TextBox& box) { return (box.corners[0] + box.corners[2]) / 2; }

struct Segment {
  Vec2 from, to;
  Layer layer;
};

void add_segments(std::vector<Segment>& out, const std::vector<Vec2>& points, bool closed, Layer layer) {
  for (std::size_t i = 0; i + 1 < points.size(); ++i) out.push_back({points[i], points[i + 1], layer});
  if (closed && points.size() > 2) out.push_back({points.back(), points.front(), layer});
}

}  // namespace

bool overlap(const TextBox& box, const std::vector<Vec2>& other, double slack_mm) {
  std::vector<Vec2> axes;
  const auto add_axis = [&axes](const Vec2& edge) {
    if (edge.norm() > 1e-12) axes.push_back(Vec2(-edge.y(), edge.x()) / edge.norm());
  };
  add_axis(box.corners[1] - box.corners[0]);
  add_axis(box.corners[3] - box.corners[0]);
  for (std::size_t i = 0; i + 1 < other.size(); ++i) add_axis(other[i + 1] - other[i]);
  return std::none_of(axes.begin(), axes.end(), [&](const Vec2& axis) { return apart(box, other, axis, slack_mm); });
}

std::vector<TextBox> text_boxes(const Sheet& sheet) {
  std::vector<TextBox> boxes;
  for (const Entity& entity : sheet.entities)
    for (const Primitive& primitive : drawn(entity))
      if (const auto* text = std::get_if<Text>(&primitive)) boxes.push_back(box_of(*text));
  return boxes;
}

std::vector<Clash> text_clashes(const Sheet& sheet, bool has_frame, double slack_mm) {
  std::vector<Clash> clashes;
  const std::vector<TextBox> boxes = text_boxes(sheet);
  const Border border = has_frame ? border_of(sheet.size) : Border{0, 0, sheet.size.width_mm, sheet.size.height_mm};
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    for (const Vec2& corner : boxes[i].corners) {
      if (corner.x() < border.left - slack_mm || corner.x() > border.right + slack_mm ||
          corner.y() < border.bottom - slack_mm || corner.y() > border.top + slack_mm) {
        clashes.push_back({boxes[i].content, "frame", corner});
        break;
      }
    }
    for (std::size_t j = i + 1; j < boxes.size(); ++j) {
      const std::vector<Vec2> other(boxes[j].corners, boxes[j].corners + 4);
      if (overlap(boxes[i], other, slack_mm)) clashes.push_back({boxes[i].content, boxes[j].content, middle(boxes[i])});
    }
  }
  return clashes;
}

std::vector<Clash> line_clashes(const Sheet& sheet, double slack_mm) {
  std::vector<TextBox> boxes;
  std::vector<Segment> segments;
  for (const Entity& entity : sheet.entities) {
    for (const Primitive& primitive : drawn(entity)) {
      if (const auto* text = std::get_if<Text>(&primitive)) {
        if (!text->clears_ground) boxes.push_back(box_of(*text));
      } else if (const auto* line = std::get_if<Polyline>(&primitive)) {
        add_segments(segments, line->points, line->closed, line->pen.layer);
      } else if (const auto* arc = std::get_if<ArcCurve>(&primitive)) {
        add_segments(segments, points_along(*arc), false, arc->pen.layer);
      } else if (const auto* ellipse = std::get_if<EllipseArc>(&primitive)) {
        add_segments(segments, points_along(*ellipse), false, ellipse->pen.layer);
      }
    }
  }
  std::vector<Clash> clashes;
  for (const TextBox& box : boxes) {
    const auto hit = std::find_if(segments.begin(), segments.end(), [&](const Segment& segment) {
      return overlap(box, {segment.from, segment.to}, slack_mm);
    });
    if (hit != segments.end())
      clashes.push_back({box.content, std::string("line ") + layer_name(hit->layer), middle(box)});
  }
  return clashes;
}

}  // namespace halfhard
