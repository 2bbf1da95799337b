#include "exporters/arrangement/view_layout.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "geometry/shown.h"

namespace halfhard {
namespace {

constexpr double kPad_mm = 15;      // around a view, for labels
constexpr double kTitle_mm = 8;     // below a view, for its title
constexpr double kChord_mm = 0.01;  // on paper

Projection seen(const Scene& scene, const View& view, double scale) {
  ViewOptions options;
  options.chord_error_mm = std::max(0.01, kChord_mm * scale);
  return project(scene, view, options);
}

// The middle of the view to the middle of the cell above its title.
PlacedView in_cell(PlacedView placed, const SheetBox& cell) {
  placed.cell = cell;
  const Vec2 middle = (placed.projection.low + placed.projection.high) / 2;
  placed.shift = cell.centre() + Vec2(0, kTitle_mm / 2) - middle * placed.per_mm();
  return placed;
}

// Keeps orthographic views in line with one another.
void line_up(PlacedView& view, const PlacedView& with, int axis) { view.shift[axis] = with.shift[axis]; }

Vec2 size_of(const Projection& projection) { return projection.high - projection.low; }

double room_left(double whole, double a, double b, double scale) { return whole - 4 * kPad_mm - (a + b) / scale; }

}  // namespace

Scene scene_of(const Plan& plan) {
  Scene scene;
  for (size_t i = 0; i < plan.runs.size(); ++i)
    scene.tubes.push_back({static_cast<int>(i), plan.runs[i]->line, plan.runs[i]->tube->outside_radius_mm()});
  for (size_t i = 0; i < plan.fixtures.size(); ++i)
    scene.bodies.push_back({kFirstFixtureObject + static_cast<int>(i), plan.fixtures[i]->body.shape});
  return scene;
}

std::string scale_text(double scale) { return "1:" + shown_number(scale, 0); }

double standard_scale(const Vec2& true_mm, const Vec2& room_mm) {
  for (double decade = 1;; decade *= 10) {
    for (const double step : {1.0, 2.0, 5.0}) {
      const double scale = decade * step;
      if (scale > 1e9 || (true_mm.x() / scale <= room_mm.x() && true_mm.y() / scale <= room_mm.y())) return scale;
    }
  }
}

ViewLayout lay_out_views(const Scene& scene, const SheetBox& area, bool third_angle) {
  ViewLayout layout;
  // Third angle shows the side seen from the right on the right; first angle, the side seen from the left there.
  const View side_view = third_angle ? View::from_right() : View::from_left();
  PlacedView front{"Elevation from the front", View::front(), false, 1, {}, seen(scene, View::front(), 1), {}};
  PlacedView plan{"Plan", View::top(), false, 1, {}, seen(scene, View::top(), 1), {}};
  PlacedView side{
      third_angle ? "From the right" : "From the left", side_view, false, 1, {}, seen(scene, side_view, 1), {}};
  PlacedView iso{"Isometric", View::isometric(), true, 1, {}, seen(scene, View::isometric(), 1), {}};

  const Vec2 f = size_of(front.projection), p = size_of(plan.projection), s = size_of(side.projection);
  const double across = std::max(f.x(), p.x()), high = std::max(f.y(), s.y());
  const Vec2 room = area.size() - Vec2(4 * kPad_mm, 4 * kPad_mm + 2 * kTitle_mm);
  const double scale = standard_scale(Vec2(across + s.x(), high + p.y()), room);
  layout.scale = front.scale = plan.scale = side.scale = scale;

  const Vec2 slack(room_left(area.size().x(), across, s.x(), scale),
                   room_left(area.size().y() - 2 * kTitle_mm, high, p.y(), scale));
  const double column = area.low.x() + 2 * kPad_mm + across / scale + slack.x() * 0.5;
  const double first_row = 2 * kPad_mm + kTitle_mm + high / scale + slack.y() * 0.5;
  const double row = third_angle ? area.low.y() + first_row : area.high.y() - first_row;
  const SheetBox upper_left{{area.low.x(), row}, {column, area.high.y()}};
  const SheetBox upper_right{{column, row}, area.high};
  const SheetBox lower_left{area.low, {column, row}};
  const SheetBox lower_right{{column, area.low.y()}, {area.high.x(), row}};
  front = in_cell(front, third_angle ? lower_left : upper_left);
  plan = in_cell(plan, third_angle ? upper_left : lower_left);
  side = in_cell(side, third_angle ? lower_right : upper_right);
  line_up(plan, front, 0);
  line_up(side, front, 1);
  layout.views = {front, plan, side};

  const SheetBox spare = third_angle ? upper_right : lower_right;
  const Vec2 iso_size = size_of(iso.projection) / kIsometricShortening;
  const auto iso_scale = [&](const SheetBox& cell) {
    return standard_scale(iso_size, cell.size() - Vec2(2 * kPad_mm, 2 * kPad_mm + kTitle_mm));
  };
  const Vec2 least(3 * kPad_mm, 3 * kPad_mm);
  const bool fits = (spare.size().array() > least.array()).all() && iso_scale(spare) <= 2 * scale;
  iso.scale = iso_scale(fits ? spare : area);
  (fits ? layout.views : layout.apart).push_back(in_cell(iso, fits ? spare : area));
  return layout;
}

}  // namespace halfhard
