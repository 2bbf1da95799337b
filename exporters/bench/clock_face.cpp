#include "exporters/bench/clock_face.h"

#include <string>

namespace halfhard {
namespace {

Vec2 on_dial(Angle clockwise) { return {clockwise.sin(), clockwise.cos()}; }

Text dial_text(std::string content, const Vec2& at, double height_mm) {
  Text text;
  text.content = std::move(content);
  text.at = at;
  text.height_mm = height_mm;
  text.anchor_x = AnchorX::centre;
  text.anchor_y = AnchorY::middle;
  return text;
}

// A leg of tube seen from its end: two walls out from the tube in the middle.
void add_leg(std::vector<Entity>& out, const ClockReading& reading, const Vec2& centre, double radius_mm) {
  const double half = radius_mm * 0.13;
  const Vec2 along = on_dial(reading.clockwise);
  const Vec2 side(along.y(), -along.x());
  const Pen pen{Layer::outline, reading.behind_hook ? LineStyle::continuous : LineStyle::dashed, 0.5, std::nullopt};
  const Vec2 near = centre + radius_mm * 0.2 * along, far = centre + radius_mm * 0.72 * along;
  out.emplace_back(
      Polyline{{near + half * side, far + half * side, far - half * side, near - half * side}, false, pen});
  Text name = dial_text(std::to_string(reading.bend), centre + radius_mm * 0.5 * along, 2.5);
  name.bold = true;
  name.clears_ground = true;
  out.emplace_back(std::move(name));
}

void add_swing_arrow(std::vector<Entity>& out, const Vec2& centre, double radius_mm) {
  const Pen pen{Layer::mark, LineStyle::continuous, 0.7, std::nullopt};
  const Vec2 tip = centre + Vec2(0, radius_mm * 0.94);
  out.emplace_back(line_between(centre + Vec2(0, radius_mm * 0.75), tip, pen));
  out.emplace_back(Polyline{{tip + Vec2(-1.2, -2.6), tip, tip + Vec2(1.2, -2.6)}, false, pen});
}

}  // namespace

std::vector<Entity> clock_face(const std::vector<ClockReading>& readings, const Vec2& centre, double radius_mm) {
  std::vector<Entity> out;
  const Pen thin{Layer::table, LineStyle::continuous, 0.25, std::nullopt};
  out.emplace_back(circle(centre, radius_mm, thin));
  for (int hour = 1; hour <= 12; ++hour) {
    const Vec2 out_of_middle = on_dial(Angle::degrees(30.0 * hour));
    const double inner = hour % 3 == 0 ? 0.9 : 0.95;
    out.emplace_back(
        line_between(centre + inner * radius_mm * out_of_middle, centre + radius_mm * out_of_middle, thin));
    if (hour % 3 == 0)
      out.emplace_back(dial_text(std::to_string(hour), centre + (radius_mm + 2.8) * out_of_middle, 2.5));
  }
  out.emplace_back(circle(centre, radius_mm * 0.15, pen_of(Layer::outline)));
  add_swing_arrow(out, centre, radius_mm);
  for (const ClockReading& reading : readings) add_leg(out, reading, centre, radius_mm);
  return out;
}

}  // namespace halfhard
