// Dimension lines beside a view, stacked: the chain nearest to the view, what is overall outside it, no two on one
// stretch of one line. Sheet mm.
#pragma once

#include <array>
#include <vector>

#include "exporters/fabrication/dimension_placer.h"
#include "exporters/layout/view_layout.h"

namespace halfhard {

// The dimensions of one view along one of its axes: 0 right, stacked below it, else above; 1 up, at its left, else at
// its right.
class Levels {
 public:
  Levels(const PlacedView& view, int axis, LengthUnit unit) : view_(view), axis_(axis), unit_(unit) {}

  // From `a` to `b`, places on the sheet, at the lowest level that is free and reads; false where none is. `outside`:
  // beyond all that stands there. `after`: said after the figure.
  bool place(const Vec2& a, const Vec2& b, bool outside, const std::string& after, DimensionPlacer& placer,
             std::vector<Entity>& out);

 private:
  struct Stretch {
    double low, high;
  };
  Dimension at_level(const Vec2& a, const Vec2& b, int side, int level) const;
  Stretch stretch_of(const Dimension& dimension) const;
  bool free(int side, int level, const Stretch& stretch) const;

  const PlacedView& view_;
  int axis_;
  LengthUnit unit_;
  std::array<std::vector<std::vector<Stretch>>, 2> taken_;  // by side and level
};

}  // namespace halfhard
