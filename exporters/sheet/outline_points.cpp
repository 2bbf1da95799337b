#include "exporters/sheet/outline_points.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace halfhard {
namespace {

constexpr double kRadians = std::numbers::pi / 180;

template <typename Curve>
std::vector<Vec2> along(const Curve& curve, double step_deg) {
  const int steps = std::max(1, static_cast<int>(std::ceil(curve.sweep_deg / step_deg)));
  std::vector<Vec2> points;
  for (int i = 0; i <= steps; ++i) points.push_back(point_on(curve, curve.from_deg + curve.sweep_deg * i / steps));
  return points;
}

}  // namespace

Vec2 point_on(const ArcCurve& arc, double at_deg) {
  return arc.centre + arc.radius * Vec2(std::cos(at_deg * kRadians), std::sin(at_deg * kRadians));
}

Vec2 point_on(const EllipseArc& ellipse, double at_deg) {
  const Vec2 minor = ellipse.ratio * Vec2(-ellipse.major.y(), ellipse.major.x());
  return ellipse.centre + std::cos(at_deg * kRadians) * ellipse.major + std::sin(at_deg * kRadians) * minor;
}

std::vector<Vec2> points_along(const ArcCurve& arc, double step_deg) { return along(arc, step_deg); }
std::vector<Vec2> points_along(const EllipseArc& ellipse, double step_deg) { return along(ellipse, step_deg); }

std::vector<Polyline> hatch_lines(const Area& area) {
  std::vector<Polyline> lines;
  if (!area.hatching || area.hatching->spacing_mm <= 0) return lines;
  const double angle = area.hatching->angle_deg * kRadians;
  const Vec2 u(std::cos(angle), std::sin(angle));
  const Vec2 v(-u.y(), u.x());
  double low = 1e300, high = -1e300;
  for (const auto& loop : area.loops)
    for (const Vec2& p : loop) {
      low = std::min(low, p.dot(v));
      high = std::max(high, p.dot(v));
    }
  // Lines stand on multiples of the spacing, so that neighbouring areas line up.
  const double spacing = area.hatching->spacing_mm;
  for (double k = std::ceil(low / spacing); k * spacing < high; ++k) {
    const double across = k * spacing;
    std::vector<double> cuts;
    for (const auto& loop : area.loops) {
      for (std::size_t i = 0; i < loop.size(); ++i) {
        const Vec2& a = loop[i];
        const Vec2& b = loop[(i + 1) % loop.size()];
        const double da = a.dot(v) - across, db = b.dot(v) - across;
        if ((da < 0) != (db < 0)) cuts.push_back(a.dot(u) + (b - a).dot(u) * da / (da - db));
      }
    }
    std::sort(cuts.begin(), cuts.end());
    for (std::size_t i = 0; i + 1 < cuts.size(); i += 2)
      lines.push_back(line_between(cuts[i] * u + across * v, cuts[i + 1] * u + across * v, area.pen));
  }
  return lines;
}

}  // namespace halfhard
