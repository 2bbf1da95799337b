#include "viewer/view_frame.h"

#include <algorithm>
#include <cmath>

namespace halfhard {
namespace {

struct Attitude {
  Vec3 looking, upwards;
};

Attitude attitude(NamedView view) {
  switch (view) {
    case NamedView::plan:
      return {-Vec3::UnitZ(), Vec3::UnitY()};
    case NamedView::elevation:
      return {Vec3::UnitY(), Vec3::UnitZ()};
    case NamedView::side:
      return {Vec3::UnitX(), Vec3::UnitZ()};
    case NamedView::isometric:
      break;
  }
  return {Vec3(-1, 1, -1).normalized(), Vec3(-1, 1, 2).normalized()};
}

constexpr double kMargin = 1.3;  // 15 % of what is drawn on each side of it, for labels too
constexpr double kLeastHalfHeight_mm = 50;

}  // namespace

const char* view_word(NamedView view) {
  switch (view) {
    case NamedView::plan:
      return "plan";
    case NamedView::elevation:
      return "elevation";
    case NamedView::side:
      return "side";
    case NamedView::isometric:
      break;
  }
  return "isometric";
}

std::optional<NamedView> view_from_word(const std::string& word) {
  for (const NamedView view : {NamedView::plan, NamedView::elevation, NamedView::side, NamedView::isometric})
    if (word == view_word(view)) return view;
  return std::nullopt;
}

ViewFrame fitted_view(NamedView view, const std::vector<Vec3>& places, double width, double height) {
  const Attitude at = attitude(view);
  ViewFrame frame;
  frame.looking = at.looking;
  frame.upwards = at.upwards;
  return fitted_frame(frame, places, width, height);
}

ViewFrame fitted_frame(const ViewFrame& direction, const std::vector<Vec3>& places, double width, double height) {
  ViewFrame frame = direction;
  if (places.empty()) return frame;
  Mat3 axes;
  axes << frame.rightwards(), frame.upwards, frame.looking;
  Vec3 low = Vec3::Constant(1e300), high = Vec3::Constant(-1e300);
  for (const Vec3& place : places) {
    low = low.cwiseMin(axes.transpose() * place);
    high = high.cwiseMax(axes.transpose() * place);
  }
  frame.centre = axes * ((low + high) / 2);
  const Vec3 half = (high - low) / 2;
  frame.half_height_mm =
      std::max(kLeastHalfHeight_mm, kMargin * std::max(half.y(), half.x() * height / std::max(1.0, width)));
  return frame;
}

ViewFrame flown_to(const ViewFrame& from, const Vec3& at, double half_height_mm) {
  ViewFrame frame = from;
  frame.centre = at;
  frame.half_height_mm = half_height_mm;
  return frame;
}

Projected project(const ViewFrame& frame, double width, double height, const Vec3& at) {
  const Vec3 offset = at - frame.centre;
  const double scale = height / 2 / frame.half_height_mm;
  return {width / 2 + scale * offset.dot(frame.rightwards()), height / 2 + scale * offset.dot(frame.upwards),
          offset.dot(frame.looking)};
}

Sight sight_through(const ViewFrame& frame, double width, double height, double x, double y, double reach_mm) {
  const double scale = 2 * frame.half_height_mm / height;
  return {frame.centre + (x - width / 2) * scale * frame.rightwards() + (y - height / 2) * scale * frame.upwards -
              reach_mm * frame.looking,
          frame.looking};
}

}  // namespace halfhard
