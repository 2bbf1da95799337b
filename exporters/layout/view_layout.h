// The views of an arrangement sheet: which, how large, where.
#pragma once

#include <string>
#include <vector>

#include "exporters/layout/label_placer.h"
#include "geometry/plan/plan.h"
#include "geometry/views/view.h"

namespace halfhard {

// Scene objects: runs by their index in the plan, fixtures by theirs from this on.
inline constexpr int kFirstFixtureObject = 1 << 24;
// Fixtures are cut off some way beyond the pipes, and those farther off left out: a joist of 6 m would make all small.
Scene scene_of(const Plan& plan);
// Doors and drawers, at rest: they open, so nothing is hidden behind them.
std::vector<SceneBody> moving_in(const Plan& plan);

// A view laid on a sheet.
struct PlacedView {
  std::string title;  // "Elevation from the front"
  View view;
  bool isometric = false;
  double scale = 1;           // true mm per sheet mm; of an isometric along the site axes
  Vec2 shift = Vec2::Zero();  // sheet place of the view's own zero
  Projection projection;      // view mm
  SheetBox cell;              // what the view and its labels have to themselves
  double per_mm() const { return 1 / (isometric ? scale * kIsometricShortening : scale); }
  Vec2 on_sheet(const Vec3& point) const { return view.flat(point) * per_mm() + shift; }
  FlatShape on_sheet(const FlatShape& shape) const { return placed(shape, per_mm(), Angle(), shift); }
  SheetBox box() const { return {projection.low * per_mm() + shift, projection.high * per_mm() + shift}; }
};

// "1:10"
std::string scale_text(double scale);
// The smallest of the scales 1, 2, 5, 10 and so on (ISO 5455) at which `true_mm` fits into `room_mm`.
double standard_scale(const Vec2& true_mm, const Vec2& room_mm);

// Elevation, plan and side in first or third angle within `area`, at one scale; the isometric where they leave room
// for it at that scale or not much smaller, else alone: `isometric_apart` then has a sheet of its own.
struct ViewLayout {
  std::vector<PlacedView> views;
  std::vector<PlacedView> apart;  // one or none
  double scale = 1;
};
// Room round each view for its labels and dimensions, sheet mm; and how much smaller than the others an isometric may be
// before it has a sheet of its own.
struct LayoutWishes {
  double pad_mm = 15, isometric_pad_mm = 15;
  double most_smaller = 2.5;
  std::vector<SceneBody> see_through;  // drawn with the scene, but hiding nothing and hidden by nothing
};
// The isometric alone, at the largest standard scale that fits.
PlacedView isometric_in(const Scene& scene, const SheetBox& area, const LayoutWishes& wishes = {});
ViewLayout lay_out_views(const Scene& scene, const SheetBox& area, bool third_angle, const LayoutWishes& wishes = {});

}  // namespace halfhard
