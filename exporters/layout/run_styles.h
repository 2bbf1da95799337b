// How runs are told apart: by number, and by line style and colour together, so that a black and white copy still reads.
#pragma once

#include <string>
#include <vector>

#include "exporters/sheet/drawing.h"
#include "geometry/plan/plan.h"

namespace halfhard {

// Pieces of a bank share one. Six styles, then the styles again in other colours.
struct RunStyle {
  std::string family;
  std::vector<int> runs;  // indices into Plan::runs
  Colour colour;
  LineStyle style = LineStyle::continuous;
};
std::vector<RunStyle> run_styles(const Plan& plan);
// Which of them a run has.
size_t style_of(const std::vector<RunStyle>& styles, int run);

// Pipe numbers as people write them: "1-8"; "1, 3, 5-7". `runs` are indices, from 0, ascending.
std::string numbers_text(const std::vector<int>& runs);

}  // namespace halfhard
