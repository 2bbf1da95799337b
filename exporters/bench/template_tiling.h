// How pages lie over a template: as few as hold all of it, none for a sliver, none for what is not the piece itself.
// The template's own flat frame, mm.
#pragma once

#include <vector>

#include "exporters/bench/template_drawing.h"

namespace halfhard {

struct PageWindow {
  int column = 0, row = 0;  // from the left, from below
  Vec2 low = Vec2::Zero(), high = Vec2::Zero();
  bool holds(const Vec2& p) const { return (p - low).minCoeff() >= 0 && (high - p).minCoeff() >= 0; }
};

struct Tiling {
  int columns = 0, rows = 0;
  std::vector<PageWindow> pages;                 // those that are printed, row by row
  Vec2 low = Vec2::Zero(), high = Vec2::Zero();  // of all the windows
  bool too_many = false;                         // more than anybody lays together: no pages
};

// Windows of this size that overlap. Guarantees that every point of the piece (lines that belong_to_piece) lies on a
// page that is printed.
Tiling tiling(const TemplateDrawing& drawing, const Vec2& window, double overlap_mm);

// The part of a segment within a rectangle; false where there is none.
bool clip(const Vec2& low, const Vec2& high, Vec2& from, Vec2& to);

}  // namespace halfhard
