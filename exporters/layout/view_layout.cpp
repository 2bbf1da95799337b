#include "exporters/layout/view_layout.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "geometry/words/shown.h"

namespace halfhard {
namespace {

constexpr double kTitle_mm = 8;          // below a view, for its title
constexpr double kChord_mm = 0.01;       // on paper
constexpr double kNoScale = 1e9;         // where there is no room at all
constexpr double kShownAround_mm = 300;  // of fixtures beyond the pipes, at least

constexpr double kMovingAround_mm = 600;  // and of doors and drawers beyond that

Projection seen(const Scene& scene, const View& view, const std::vector<SceneBody>& see_through) {
  ViewOptions options;
  options.chord_error_mm = kChord_mm;
  Projection all = project(scene, view, options);
  options.hidden = false;
  for (const SceneBody& body : see_through) {
    const Projection alone = project({{}, {body}}, view, options);
    all.curves.insert(all.curves.end(), alone.curves.begin(), alone.curves.end());
    all.low = all.low.cwiseMin(alone.low);
    all.high = all.high.cwiseMax(alone.high);
  }
  return all;
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

// What is worth showing: the pipes and a good way around them.
class Window {
 public:
  void add(const Vec3& point) {
    low_ = low_.cwiseMin(point);
    high_ = high_.cwiseMax(point);
  }
  void grow() { grow_by(std::max(kShownAround_mm, 0.2 * (high_ - low_).norm())); }
  void grow_by(double mm) {
    low_.array() -= mm;
    high_.array() += mm;
  }

  // Boxes are cut off where they leave the window; what lies wholly outside it is left out.
  std::optional<Shape> cut(const Shape& shape) const {
    if (const auto* box = std::get_if<Box>(&shape)) return cut(*box);
    if (const auto* cylinder = std::get_if<Cylinder>(&shape)) {
      const Vec3 reach = Vec3::Constant(cylinder->radius);
      return meets(cylinder->from.cwiseMin(cylinder->to) - reach, cylinder->from.cwiseMax(cylinder->to) + reach)
                 ? std::optional<Shape>(shape)
                 : std::nullopt;
    }
    if (const auto* half = std::get_if<HalfSpace>(&shape)) {
      const Vec3 middle = (low_ + high_) / 2;
      const double reach = half->facing.cwiseAbs().dot(high_ - low_) / 2;
      return std::abs(half->facing.dot(middle - half->at)) <= reach ? std::optional<Shape>(shape) : std::nullopt;
    }
    const auto& mesh = std::get<std::shared_ptr<const TriangleBody>>(shape);
    if (mesh->vertices.empty()) return std::nullopt;
    Vec3 low = mesh->vertices.front(), high = low;
    for (const Vec3& p : mesh->vertices) {
      low = low.cwiseMin(p);
      high = high.cwiseMax(p);
    }
    return meets(low, high) ? std::optional<Shape>(shape) : std::nullopt;
  }

 private:
  bool meets(const Vec3& low, const Vec3& high) const {
    return (low.array() <= high_.array()).all() && (high.array() >= low_.array()).all();
  }

  std::optional<Shape> cut(Box box) const {
    const Vec3 middle = (low_ + high_) / 2, half = (high_ - low_) / 2;
    Vec3 centre = box.centre;
    for (int axis = 0; axis < 3; ++axis) {
      const Vec3 way = box.axes.col(axis);
      const double reach = way.cwiseAbs().dot(half), offset = way.dot(middle - box.centre);
      const double from = std::max(-box.half[axis], offset - reach), to = std::min(box.half[axis], offset + reach);
      if (to <= from) return std::nullopt;
      centre += way * (from + to) / 2;
      box.half[axis] = (to - from) / 2;
    }
    box.centre = centre;
    return box;
  }

  Vec3 low_ = Vec3::Constant(1e300), high_ = Vec3::Constant(-1e300);
};

// The three orthographic views and how they stand to one another.
struct Three {
  PlacedView front, plan, side;
  bool third_angle = false;
  double pad_mm = 15;  // around each

  Vec2 true_size() const {
    const Vec2 f = size_of(front.projection), p = size_of(plan.projection), s = size_of(side.projection);
    return {std::max(f.x(), p.x()) + s.x(), std::max(f.y(), s.y()) + p.y()};
  }
  double scale_in(const SheetBox& area) const {
    const Vec2 room = area.size() - Vec2(4 * pad_mm, 4 * pad_mm + 2 * kTitle_mm);
    if (room.minCoeff() <= 0) return kNoScale;
    return standard_scale(true_size(), room);
  }

  // Places all three; of what room there is to spare the first column and row get these shares. Returns the fourth corner.
  SheetBox place(const SheetBox& area, double scale, const Vec2& share = {0.5, 0.5}) {
    front.scale = plan.scale = side.scale = scale;
    const Vec2 f = size_of(front.projection), p = size_of(plan.projection), s = size_of(side.projection);
    const Vec2 slack = area.size() - Vec2(4 * pad_mm, 4 * pad_mm + 2 * kTitle_mm) - true_size() / scale;
    const double column = area.low.x() + 2 * pad_mm + std::max(f.x(), p.x()) / scale + slack.x() * share.x();
    const double first_row = 2 * pad_mm + kTitle_mm + std::max(f.y(), s.y()) / scale + slack.y() * share.y();
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
    return third_angle ? upper_right : lower_right;
  }
};

std::vector<double> scales_between(double least, double most) {
  std::vector<double> scales;
  for (double decade = 1; decade <= most; decade *= 10)
    for (const double step : {1.0, 2.0, 5.0})
      if (decade * step >= least && decade * step <= most) scales.push_back(decade * step);
  return scales;
}

bool moves(const Fixture& fixture) { return !std::holds_alternative<std::monostate>(fixture.body.motion); }

Window window_of(const Plan& plan) {
  Window window;
  for (const auto& run : plan.runs)
    for (const Vec3& point : run->line.points()) window.add(point);
  window.grow();
  return window;
}

}  // namespace

Scene scene_of(const Plan& plan) {
  Scene scene;
  for (size_t i = 0; i < plan.runs.size(); ++i)
    scene.tubes.push_back({static_cast<int>(i), plan.runs[i]->line, plan.runs[i]->tube->outside_radius_mm()});
  const Window window = window_of(plan);
  for (size_t i = 0; i < plan.fixtures.size(); ++i)
    if (const auto shape = moves(*plan.fixtures[i]) ? std::nullopt : window.cut(plan.fixtures[i]->body.shape))
      scene.bodies.push_back({kFirstFixtureObject + static_cast<int>(i), *shape});
  return scene;
}

std::vector<SceneBody> moving_in(const Plan& plan) {
  // It may come near as it moves: it is shown whole, from farther off than what stands.
  Window around = window_of(plan);
  around.grow_by(kMovingAround_mm);
  std::vector<SceneBody> moving;
  for (size_t i = 0; i < plan.fixtures.size(); ++i)
    if (moves(*plan.fixtures[i]) && around.cut(plan.fixtures[i]->body.shape))
      moving.push_back({kFirstFixtureObject + static_cast<int>(i), plan.fixtures[i]->body.shape});
  return moving;
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

PlacedView isometric_in(const Scene& scene, const SheetBox& area, const LayoutWishes& wishes) {
  PlacedView iso{"Isometric", View::isometric(), true, 1, {}, seen(scene, View::isometric(), wishes.see_through), {}};
  const Vec2 around(2 * wishes.isometric_pad_mm, 2 * wishes.isometric_pad_mm + kTitle_mm);
  iso.scale = standard_scale(size_of(iso.projection) / kIsometricShortening, area.size() - around);
  return in_cell(iso, area);
}

ViewLayout lay_out_views(const Scene& scene, const SheetBox& area, bool third_angle, const LayoutWishes& wishes) {
  ViewLayout layout;
  // Third angle shows the side seen from the right on the right; first angle, the side seen from the left there.
  const View side_view = third_angle ? View::from_right() : View::from_left();
  Three three;
  three.third_angle = third_angle;
  three.pad_mm = wishes.pad_mm;
  three.front = {
      "Elevation from the front", View::front(), false, 1, {}, seen(scene, View::front(), wishes.see_through), {}};
  three.plan = {"Plan", View::top(), false, 1, {}, seen(scene, View::top(), wishes.see_through), {}};
  three.side = {third_angle ? "From the right" : "From the left", side_view, false, 1, {},
                seen(scene, side_view, wishes.see_through),       {}};
  PlacedView iso{"Isometric", View::isometric(), true, 1, {}, seen(scene, View::isometric(), wishes.see_through), {}};
  layout.scale = three.scale_in(area);

  const Vec2 iso_size = size_of(iso.projection) / kIsometricShortening;
  const Vec2 around(2 * wishes.isometric_pad_mm, 2 * wishes.isometric_pad_mm + kTitle_mm);
  const double smallest = wishes.most_smaller * layout.scale;
  // The fourth corner, as large as the isometric asks for.
  Vec2 share(0.5, 0.5);
  double best = kNoScale;
  for (const double across : {0.5, 0.25, 0.0})
    for (const double down : {0.5, 0.25, 0.0}) {
      const Vec2 room = three.place(area, layout.scale, {across, down}).size() - around;
      if (room.minCoeff() <= wishes.isometric_pad_mm || standard_scale(iso_size, room) >= best) continue;
      best = standard_scale(iso_size, room);
      share = {across, down};
    }
  const SheetBox spare = three.place(area, layout.scale, share);
  if (best > smallest) {
    // A strip of its own on the right, where the three leave it.
    for (const double scale : scales_between(layout.scale, smallest)) {
      const double strip = iso_size.x() / scale + around.x();
      if (iso_size.y() / scale + around.y() > area.size().y() || strip > area.size().x() / 2) continue;
      const SheetBox left{area.low, {area.high.x() - strip, area.high.y()}};
      if (three.scale_in(left) > layout.scale) continue;
      three.place(left, layout.scale);
      iso.scale = scale;
      layout.views = {three.front, three.plan, three.side, in_cell(iso, {{left.high.x(), area.low.y()}, area.high})};
      return layout;
    }
    layout.views = {three.front, three.plan, three.side};
    layout.apart = {isometric_in(scene, area, wishes)};
    return layout;
  }
  iso.scale = best;
  layout.views = {three.front, three.plan, three.side, in_cell(iso, spare)};
  return layout;
}

}  // namespace halfhard
