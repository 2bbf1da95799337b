// The scene as a PNG, with no window. Needs a display that can be reached (see display.h), or the graphics library ends
// the process. The same plan and options give the same bytes on one machine.
#pragma once

#include <optional>
#include <string>

#include "viewer/draw_plan.h"
#include "viewer/section.h"
#include "viewer/theme.h"
#include "viewer/view_frame.h"

namespace halfhard {

struct PictureOptions {
  NamedView view = NamedView::isometric;
  int width = 1600, height = 1000;
  std::optional<Section> section;
  bool dark = false;
  DrawOptions draw;
};

std::string picture_png(const Plan& plan, const PictureOptions& options);
// The same of anything drawn, seen as `frame` says.
std::string picture_png(const Drawn& drawn, const ViewFrame& frame, const PictureOptions& options);

}  // namespace halfhard
