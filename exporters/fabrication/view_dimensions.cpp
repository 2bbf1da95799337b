#include "exporters/fabrication/view_dimensions.h"

#include <algorithm>
#include <cmath>

#include "exporters/fabrication/crowns.h"
#include "exporters/fabrication/levels.h"

namespace halfhard {
namespace {

constexpr double kSame_mm = 0.05;       // on paper: places that are one
constexpr double kInPlane = 0.0001745;  // sine of 0.01 degree

bool lies_in(const PlacedView& view, const Vec3& direction) {
  return std::abs(direction.dot(view.view.look)) < kInPlane;
}

// How high a passover's crown stands over its outside: from the outside of the leg that a straight edge lies along.
void add_crown(std::vector<Entity>& out, const Run& run, const PlacedView& view, const Crown& crown, Levels& levels,
               DimensionPlacer& placer) {
  const double radius = run.tube->outside_radius_mm();
  const Vec3& leg_end = run.line.points()[static_cast<std::size_t>(crown.first_bend)];
  const Vec3 foot = leg_end - radius * crown.away, top = crown.at + radius * crown.away;
  levels.place(view.on_sheet(foot), view.on_sheet(top), true, " over", placer, out);
}

// The chain along one axis of the view (0 right, 1 up), and the overall dimension beyond it.
void add_chain(std::vector<Entity>& out, const Plan& plan, const Run& run, const PlacedView& view, int axis,
               bool wanted, DimensionPlacer& placer) {
  Levels levels(view, axis, plan.unit);
  const Vec3 along = axis == 0 ? view.view.right : view.view.up;
  const auto add_crowns = [&] {
    for (const Crown& crown : crowns(run))
      if (lies_in(view, crown.leg) && std::abs(crown.away.dot(along)) > 1 - 1e-9)
        add_crown(out, run, view, crown, levels, placer);
  };
  if (!wanted) return add_crowns();
  std::vector<Vec2> points;
  for (const Vec3& point : points_to_measure(run)) points.push_back(view.on_sheet(point));
  std::sort(points.begin(), points.end(), [axis](const Vec2& a, const Vec2& b) {
    return a[axis] != b[axis] ? a[axis] < b[axis] : a[1 - axis] < b[1 - axis];
  });
  std::vector<Vec2> chain;
  for (const Vec2& p : points)
    if (chain.empty() || p[axis] - chain.back()[axis] > kSame_mm) chain.push_back(p);
  // The wide ones first, so that the narrow ones find their places beside them.
  std::vector<std::size_t> order;
  for (std::size_t i = 1; i < chain.size(); ++i) order.push_back(i);
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    const double narrow = 9;
    const double wide_a = std::min(narrow, chain[a][axis] - chain[a - 1][axis]);
    const double wide_b = std::min(narrow, chain[b][axis] - chain[b - 1][axis]);
    return wide_a > wide_b;
  });
  for (const std::size_t i : order) levels.place(chain[i - 1], chain[i], false, "", placer, out);
  add_crowns();
  if (chain.size() > 2) levels.place(chain.front(), chain.back(), true, "", placer, out);
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

// A leg of a passover of three bends: it ends in the air, at an intersection that no tape finds.
bool rises_to_a_crown(const Run& run, int leg) {
  const std::vector<Crown> all = crowns(run);
  return std::any_of(all.begin(), all.end(), [&](const Crown& crown) {
    return !crown.flat() && (leg == crown.first_bend || leg == crown.first_bend + 1);
  });
}

bool tops_a_crown(const Run& run, int bend) { return rises_to_a_crown(run, bend) && rises_to_a_crown(run, bend + 1); }

bool bends_in(const PlacedView& view, const Run& run, int bend) {
  return lies_in(view, run.line.leg_direction(bend)) && lies_in(view, run.line.leg_direction(bend + 1));
}

}  // namespace

std::vector<Entity> length_dimensions(const Plan& plan, const Run& run, const PlacedView& view,
                                      const ViewDimensions& wanted, DimensionPlacer& placer) {
  std::vector<Entity> out;
  add_chain(out, plan, run, view, 0, wanted.across, placer);
  add_chain(out, plan, run, view, 1, wanted.upright, placer);
  for (int leg = 0; leg < run.line.leg_count(); ++leg)
    if (lies_in(view, run.line.leg_direction(leg)) && !rises_to_a_crown(run, leg))
      add_leg(out, plan, run, view, leg, placer);
  for (int bend = 0; bend < run.line.bend_count(); ++bend)
    if (tops_a_crown(run, bend) && bends_in(view, run, bend)) add_angle(out, plan, run, view, bend, placer);
  return out;
}

std::vector<Entity> bend_dimensions(const Plan& plan, const Run& run, const PlacedView& view, ViewDimensions& wanted,
                                    DimensionPlacer& placer) {
  std::vector<Entity> out;
  for (int bend = 0; bend < run.line.bend_count(); ++bend)
    if (!tops_a_crown(run, bend) && bends_in(view, run, bend)) add_angle(out, plan, run, view, bend, placer);
  if (wanted.radius && add_radius(out, plan, run, view, placer)) wanted.radius = false;
  return out;
}

}  // namespace halfhard
