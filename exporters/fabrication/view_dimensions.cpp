#include "exporters/fabrication/view_dimensions.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace halfhard {
namespace {

constexpr double kFirstLevel_mm = 8, kLevel_mm = 6;
constexpr int kLevels = 3;
constexpr double kSame_mm = 0.05;       // on paper: places that are one
constexpr double kInPlane = 0.0001745;  // sine of 0.01 degree

bool lies_in(const PlacedView& view, const Vec3& direction) {
  return std::abs(direction.dot(view.view.look)) < kInPlane;
}

// The chain along one axis of the view (0 right, 1 up), and the overall dimension beyond it.
void add_chain(std::vector<Entity>& out, const Plan& plan, const Run& run, const PlacedView& view, int axis,
               DimensionPlacer& placer) {
  std::vector<Vec2> points;
  for (const Vec3& point : run.line.points()) points.push_back(view.on_sheet(point));
  std::sort(points.begin(), points.end(), [axis](const Vec2& a, const Vec2& b) {
    return a[axis] != b[axis] ? a[axis] < b[axis] : a[1 - axis] < b[1 - axis];
  });
  std::vector<Vec2> chain;
  for (const Vec2& p : points)
    if (chain.empty() || p[axis] - chain.back()[axis] > kSame_mm) chain.push_back(p);
  const double edge = view.box().low[1 - axis];
  const auto between = [&](const Vec2& a, const Vec2& b, int first_level) {
    std::vector<Entity> candidates;
    for (int level = first_level; level <= kLevels; ++level) {
      Dimension d;
      d.kind = DimensionKind::linear;
      d.direction_deg = axis == 0 ? 0 : 90;
      d.first = a;
      d.second = b;
      d.line_through = a;
      d.line_through[1 - axis] = edge - kFirstLevel_mm - level * kLevel_mm;
      d.scale = view.scale;
      candidates.emplace_back(with_text(d, plan.unit));
    }
    // Else on the other side.
    for (int level = 0; level <= kLevels; ++level) {
      Dimension d = std::get<Dimension>(candidates.front());
      d.line_through[1 - axis] = view.box().high[1 - axis] + kFirstLevel_mm + level * kLevel_mm;
      candidates.emplace_back(d);
    }
    placer.place(candidates, out);
  };
  for (std::size_t i = 1; i < chain.size(); ++i) between(chain[i - 1], chain[i], 0);
  if (chain.size() > 2) between(chain.front(), chain.back(), 1);
}

// A leg on the slant, along itself.
void add_leg(std::vector<Entity>& out, const Plan& plan, const Run& run, const PlacedView& view, int leg,
             DimensionPlacer& placer) {
  Dimension d;
  d.first = view.on_sheet(run.line.points()[leg]);
  d.second = view.on_sheet(run.line.points()[leg + 1]);
  const Vec2 u = (d.second - d.first).normalized();
  if (std::min(std::abs(u.x()), std::abs(u.y())) < kInPlane) return;  // told by a chain
  d.scale = view.scale;
  const double off = run.tube->outside_radius_mm() * view.per_mm();
  std::vector<Entity> candidates;
  for (const double away : {6.0, 11.0, 16.0})
    for (const double side : {1.0, -1.0}) {
      d.line_through = d.first + side * (off + away) * Vec2(-u.y(), u.x());
      candidates.emplace_back(with_text(d, plan.unit));
    }
  placer.place(candidates, out);
}

// The turn of a bend: from its first leg carried on, to its second.
void add_angle(std::vector<Entity>& out, const Plan& plan, const Run& run, const PlacedView& view, int bend,
               DimensionPlacer& placer) {
  const Vec2 before = view.view.flat(run.line.leg_direction(bend)).normalized();
  const Vec2 after = view.view.flat(run.line.leg_direction(bend + 1)).normalized();
  Dimension d;
  d.kind = DimensionKind::angular;
  d.vertex = view.on_sheet(run.line.points()[bend + 1]);
  // Near the intersection, so that the drawn ray shows the leg carried on.
  d.first = d.vertex + 0.001 * before;
  d.second = d.vertex + std::max(0.001, run.line.leg_length_mm(bend + 1) * view.per_mm()) * after;
  std::vector<Entity> candidates;
  const Vec2 middle = before + after;
  const Vec2 out_way = middle.norm() > 1e-6 ? Vec2(middle.normalized()) : Vec2(-before.y(), before.x());
  // The text outside the arc's middle; else beside the leg carried on, away from the tube.
  for (const double radius : {10.0, 13.0, 16.0, 20.0, 25.0, 32.0, 40.0}) {
    d.line_through = d.vertex + radius * out_way;
    candidates.emplace_back(with_text(d, plan.unit));
  }
  const double turn_side = before.x() * after.y() - before.y() * after.x() > 0 ? -1 : 1;
  for (const double radius : {13.0, 16.0, 20.0, 25.0, 32.0}) {
    d.line_through = d.vertex + radius * out_way;
    for (const double aside : {4.5, 6.0, 8.0}) {
      Dimension moved = with_text(d, plan.unit);
      moved.text_at = d.vertex + radius * before + turn_side * aside * Vec2(-before.y(), before.x());
      candidates.emplace_back(moved);
    }
  }
  placer.place(candidates, out);
}

bool add_radius(std::vector<Entity>& out, const Plan& plan, const Run& run, const PlacedView& view,
                DimensionPlacer& placer) {
  std::vector<Entity> candidates;
  for (const Piece& piece : run.line.pieces()) {
    const auto* arc = std::get_if<Arc>(&piece.shape);
    if (arc == nullptr || std::abs(std::abs(arc->axis().dot(view.view.look)) - 1) > 1e-8) continue;
    for (const double part : {0.5, 0.3, 0.7})
      for (const double away : {9.0, 14.0, 20.0, -9.0}) {
        Dimension d;
        d.kind = DimensionKind::radius;
        d.first = view.on_sheet(arc->centre);
        d.second = view.on_sheet(arc->point(part * arc->sweep.radians()));
        d.line_through = d.second + away * (d.second - d.first).normalized();
        d.scale = view.scale;
        candidates.emplace_back(with_text(d, plan.unit));
      }
  }
  return placer.place(candidates, out);
}

void add_label(std::vector<Entity>& out, const std::string& content, const Vec2& at, double clear, bool bold,
               DimensionPlacer& placer) {
  std::vector<Entity> candidates;
  Text text;
  text.content = content;
  text.height_mm = 2.5;
  text.bold = bold;
  text.anchor_x = AnchorX::centre;
  text.anchor_y = AnchorY::middle;
  const double half = text_width_mm(content, 2.5, bold) / 2;
  for (double away = clear + 1; away < clear + 16; away += 2)
    for (int k = 0; k < 16; ++k) {
      const double angle = (k + 0.5) * std::numbers::pi / 8;
      const Vec2 way(std::cos(angle), std::sin(angle));
      text.at = at + (away + std::abs(way.x()) * half + std::abs(way.y()) * 1.25) * way;
      candidates.emplace_back(text);
    }
  placer.place(candidates, out);
}

}  // namespace

std::vector<Entity> view_dimensions(const Plan& plan, const Run& run, const PlacedView& view,
                                    const ViewDimensions& wanted, DimensionPlacer& placer) {
  std::vector<Entity> out;
  if (wanted.across) add_chain(out, plan, run, view, 0, placer);
  if (wanted.upright) add_chain(out, plan, run, view, 1, placer);
  for (int leg = 0; leg < run.line.leg_count(); ++leg)
    if (lies_in(view, run.line.leg_direction(leg))) add_leg(out, plan, run, view, leg, placer);
  for (int bend = 0; bend < run.line.bend_count(); ++bend)
    if (lies_in(view, run.line.leg_direction(bend)) && lies_in(view, run.line.leg_direction(bend + 1)))
      add_angle(out, plan, run, view, bend, placer);
  if (wanted.radius) add_radius(out, plan, run, view, placer);
  return out;
}

std::vector<Entity> point_labels(const Run& run, const PlacedView& view, DimensionPlacer& placer) {
  std::vector<Entity> out;
  const double clear = run.tube->outside_radius_mm() * view.per_mm();
  const auto& points = run.line.points();
  add_label(out, "datum end", view.on_sheet(points.front()), clear, false, placer);
  add_label(out, "free end", view.on_sheet(points.back()), clear, false, placer);
  for (std::size_t i = 1; i + 1 < points.size(); ++i)
    add_label(out, "bend " + std::to_string(i), view.on_sheet(points[i]), clear, true, placer);
  return out;
}

}  // namespace halfhard
