#include "exporters/sheet/dimension.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "exporters/sheet/text_metrics.h"
#include "geometry/base/require.h"
#include "geometry/words/shown.h"

namespace halfhard {
namespace {

constexpr double kArrow_mm = 2.5;
constexpr double kArrowHalfWidth_mm = 0.33;  // 15 degrees in all
constexpr double kExtensionGap_mm = 1.0;     // object to extension line
constexpr double kExtensionBeyond_mm = 1.5;  // extension line past the dimension line
constexpr double kTextGap_mm = 0.8;          // line to the foot of the text
constexpr double kOutsideTail_mm = 5.0;      // dimension line beyond an arrow that comes from outside
constexpr double kRoomForArrows_mm = 2.6 * kArrow_mm;

double degrees_of(const Vec2& v) { return std::atan2(v.y(), v.x()) * 180 / std::numbers::pi; }
Vec2 unit_at(double degrees) {
  const Angle angle = Angle::degrees(degrees);
  return {angle.cos(), angle.sin()};
}
Vec2 left_of(const Vec2& v) { return {-v.y(), v.x()}; }
double positive_degrees(double degrees) {
  const double rest = std::fmod(degrees, 360.0);
  return rest < 0 ? rest + 360 : rest;
}

// Reading direction along `u`: from the bottom or from the right of the sheet.
Vec2 reading_direction(const Vec2& u) {
  constexpr double kUpright = 1e-6;
  if (u.x() < -kUpright || (std::abs(u.x()) <= kUpright && u.y() < 0)) return -u;
  return u;
}

Vec2 direction_of(const Dimension& d) {
  if (d.kind == DimensionKind::linear) return unit_at(d.direction_deg);
  const Vec2 along = d.second - d.first;
  return along.norm() > 0 ? Vec2(along.normalized()) : Vec2(Vec2::UnitX());
}

// An arrow whose tip is at `tip` and points along `towards`.
Area arrow(const Vec2& tip, const Vec2& towards, const Pen& pen) {
  const Vec2 foot = tip - kArrow_mm * towards;
  const Vec2 side = kArrowHalfWidth_mm * left_of(towards);
  return {{{tip, foot + side, foot - side}}, std::nullopt, pen};
}

void add_extension(std::vector<Primitive>& out, const Vec2& from, const Vec2& to, const Pen& pen) {
  const Vec2 along = to - from;
  const double length = along.norm();
  if (length <= kExtensionGap_mm) return;
  const Vec2 u = along / length;
  out.push_back(line_between(from + kExtensionGap_mm * u, to + kExtensionBeyond_mm * u, pen));
}

double text_width(const Dimension& d) { return text_width_mm(d.text, d.text_height_mm); }

Text base_text(const Dimension& d) {
  Text text;
  text.content = d.text;
  text.height_mm = d.text_height_mm;
  text.anchor_x = AnchorX::centre;
  text.anchor_y = AnchorY::middle;
  text.layer = d.pen.layer;
  text.colour = d.pen.colour;
  return text;
}

Text straight_text(const Dimension& d) {
  const DimensionLine line = line_of(d);
  const Vec2 u = reading_direction(direction_of(d));
  const double above = kTextGap_mm + d.text_height_mm / 2;
  Text text = base_text(d);
  text.rotation_deg = degrees_of(u);
  const double room = (line.second - line.first).norm();
  if (d.text_at) {
    text.at = *d.text_at;
  } else if (text_width(d) + 1 <= room) {
    text.at = (line.first + line.second) / 2 + above * left_of(u);
  } else {
    // Beyond the second extension line.
    const Vec2 outwards = room > 0 ? Vec2((line.second - line.first) / room) : u;
    text.at = line.second + (kArrow_mm + 1.5 + text_width(d) / 2) * outwards + above * left_of(u);
  }
  return text;
}

void draw_straight(std::vector<Primitive>& out, const Dimension& d) {
  const DimensionLine line = line_of(d);
  const double room = (line.second - line.first).norm();
  const Vec2 u = room > 0 ? Vec2((line.second - line.first) / room) : direction_of(d);
  add_extension(out, d.first, line.first, d.pen);
  add_extension(out, d.second, line.second, d.pen);
  const bool inside = room >= kRoomForArrows_mm;
  double before = inside ? 0 : kOutsideTail_mm;
  double after = before;
  // The line runs on under a text that stands beyond an end.
  const Text text = straight_text(d);
  const double along = (text.at - line.first).dot(u);
  const double across = std::abs((text.at - line.first).dot(left_of(u)));
  if (across <= kTextGap_mm + text.height_mm) {
    before = std::max(before, text_width(d) / 2 - along);
    after = std::max(after, along + text_width(d) / 2 - room);
  }
  if (inside && text_width(d) + 1 <= room && !d.text_at) before = after = 0;
  out.push_back(line_between(line.first - before * u, line.second + after * u, d.pen));
  out.push_back(arrow(line.first, inside ? Vec2(-u) : u, d.pen));
  out.push_back(arrow(line.second, inside ? u : Vec2(-u), d.pen));
}

Text angular_text(const Dimension& d) {
  Text text = base_text(d);
  if (d.text_at) {
    text.at = *d.text_at;
    return text;
  }
  const ArcCurve arc = arc_of(d);
  const Vec2 out = unit_at(arc.from_deg + arc.sweep_deg / 2);
  // Level text just outside the arc: its box touches a circle that is the gap larger.
  const double support = std::abs(out.x()) * text_width(d) / 2 + std::abs(out.y()) * d.text_height_mm / 2;
  text.at = arc.centre + (arc.radius + kTextGap_mm + support) * out;
  return text;
}

void draw_angular(std::vector<Primitive>& out, const Dimension& d) {
  const ArcCurve arc = arc_of(d);
  const double arrow_deg = arc.radius > 0 ? kArrow_mm / arc.radius * 180 / std::numbers::pi : 0;
  const bool inside = arc.sweep_deg >= 2.6 * arrow_deg;
  const double tail = inside ? 0 : 2 * arrow_deg;
  ArcCurve line = arc;
  line.from_deg -= tail;
  line.sweep_deg = std::min(360.0, line.sweep_deg + 2 * tail);
  out.push_back(line);
  const auto tip = [&](double at_deg, double sense) {
    // The chord's direction at the arrow's middle, so that a long arrow on a tight arc stays on it.
    const Vec2 towards = sense * left_of(unit_at(at_deg - sense * arrow_deg / 2));
    out.push_back(arrow(arc.centre + arc.radius * unit_at(at_deg), towards, d.pen));
  };
  tip(arc.from_deg, inside ? -1 : 1);
  tip(arc.from_deg + arc.sweep_deg, inside ? 1 : -1);
  for (const Vec2& end : {d.first, d.second}) {
    const Vec2 ray = (end - d.vertex).normalized();
    const double reach = (end - d.vertex).norm();
    if (arc.radius > reach + kExtensionGap_mm)
      out.push_back(line_between(d.vertex + (reach + kExtensionGap_mm) * ray,
                                 d.vertex + (arc.radius + kExtensionBeyond_mm) * ray, d.pen));
  }
}

// Leader of a radius or diameter: the arrow at `second`, its line towards the text, a shelf below the text.
struct Leader {
  Vec2 tip, elbow, shelf_end;
};
Leader leader_of(const Dimension& d) {
  const Vec2 centre = d.kind == DimensionKind::radius ? d.first : Vec2((d.first + d.second) / 2);
  const Vec2 ray = (d.second - centre).norm() > 0 ? Vec2((d.second - centre).normalized()) : Vec2(Vec2::UnitX());
  const double reach = (d.line_through - d.second).dot(ray);
  Leader leader;
  leader.tip = d.second;
  leader.elbow = d.second + (std::abs(reach) < 2 * kArrow_mm ? std::copysign(2 * kArrow_mm, reach) : reach) * ray;
  const double side = leader.elbow.x() >= d.second.x() - 1e-9 ? 1 : -1;
  leader.shelf_end = leader.elbow + Vec2(side * (text_width(d) + 1), 0);
  return leader;
}

Text leader_text(const Dimension& d) {
  Text text = base_text(d);
  const Leader leader = leader_of(d);
  text.at =
      d.text_at.value_or(Vec2((leader.elbow + leader.shelf_end) / 2 + Vec2(0, kTextGap_mm + d.text_height_mm / 2)));
  return text;
}

void draw_leader(std::vector<Primitive>& out, const Dimension& d) {
  const Leader leader = leader_of(d);
  out.push_back(Polyline{{leader.tip, leader.elbow, leader.shelf_end}, false, d.pen});
  out.push_back(arrow(leader.tip, (leader.tip - leader.elbow).normalized(), d.pen));
}

}  // namespace

double measured(const Dimension& d) {
  switch (d.kind) {
    case DimensionKind::aligned:
    case DimensionKind::radius:
    case DimensionKind::diameter:
      return (d.second - d.first).norm() * d.scale;
    case DimensionKind::linear:
      return std::abs((d.second - d.first).dot(unit_at(d.direction_deg))) * d.scale;
    case DimensionKind::angular:
      return arc_of(d).sweep_deg;
  }
  return 0;
}

Dimension with_text(Dimension d, LengthUnit unit) {
  const double value = measured(d);
  if (d.kind == DimensionKind::angular) {
    d.text = shown_angle(Angle::degrees(value));
  } else {
    const char* sign = d.kind == DimensionKind::radius ? "R" : d.kind == DimensionKind::diameter ? "ø" : "";
    d.text = sign + shown_dimension(value, unit);
  }
  return d;
}

DimensionLine line_of(const Dimension& d) {
  const Vec2 n = left_of(direction_of(d));
  return {d.first + n * (d.line_through - d.first).dot(n), d.second + n * (d.line_through - d.second).dot(n)};
}

ArcCurve arc_of(const Dimension& d) {
  const double a = degrees_of(d.first - d.vertex);
  const double b = degrees_of(d.second - d.vertex);
  const double through = degrees_of(d.line_through - d.vertex);
  ArcCurve arc{d.vertex, (d.line_through - d.vertex).norm(), a, positive_degrees(b - a), d.pen};
  if (positive_degrees(through - a) > arc.sweep_deg) {
    arc.from_deg = b;
    arc.sweep_deg = positive_degrees(a - b);
  }
  return arc;
}

Text text_of(const Dimension& d) {
  switch (d.kind) {
    case DimensionKind::aligned:
    case DimensionKind::linear:
      return straight_text(d);
    case DimensionKind::angular:
      return angular_text(d);
    case DimensionKind::radius:
    case DimensionKind::diameter:
      break;
  }
  return leader_text(d);
}

std::vector<Primitive> drawn_dimension(const Dimension& d) {
  HALFHARD_REQUIRE(!d.text.empty());
  std::vector<Primitive> out;
  switch (d.kind) {
    case DimensionKind::aligned:
    case DimensionKind::linear:
      draw_straight(out, d);
      break;
    case DimensionKind::angular:
      draw_angular(out, d);
      break;
    case DimensionKind::radius:
    case DimensionKind::diameter:
      draw_leader(out, d);
      break;
  }
  out.push_back(text_of(d));
  return out;
}

}  // namespace halfhard
