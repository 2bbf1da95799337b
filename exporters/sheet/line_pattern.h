// Dashes and gaps of a line style, mm on paper, starting with a dash; empty for a continuous line. Lengths after
// ISO 128-20 (from memory: dash 12d, gap 3d, long dash 24d, dot 0.5d) for d = 0.25, the same for every width so that
// a style looks alike in all three formats.
#pragma once

#include <vector>

#include "exporters/sheet/drawing.h"

namespace halfhard {

inline std::vector<double> line_pattern_mm(LineStyle style) {
  switch (style) {
    case LineStyle::continuous:
      return {};
    case LineStyle::dashed:
      return {3, 0.9};
    case LineStyle::chain:
      return {6, 0.8, 0.4, 0.8};
    case LineStyle::double_chain:
      return {6, 0.8, 0.4, 0.8, 0.4, 0.8};
    case LineStyle::dotted:
      return {0.5, 0.8};
    case LineStyle::long_dashed:
      return {6, 1.5};
  }
  return {};
}

}  // namespace halfhard
