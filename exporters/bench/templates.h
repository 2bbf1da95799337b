// Full-size templates: each stretch of a run that lies in one plane, at 1:1. Both edges and the centre line, the tube's
// ends, the marks, where curves begin and end, the band within the job's length tolerance (the piece passes where it lies
// between the outer dashed lines with its datum leg on the drawn one), and a bank's next pieces as spacing lines.
// The piece is as cut: insertions are drawn, spare is not. A run that fails says so and shows no marks.
#pragma once

#include <vector>

#include "exporters/sheet/drawing.h"

namespace halfhard {

// One sheet of true size a stretch, for a plotter or a router's DXF. Scale 1, so that a millimetre is a millimetre.
std::vector<Sheet> template_sheets(const Plan& plan, const Run& run);

// The same cut into pages of `paper` (A4 or A3, either way up) that overlap by 10 mm, each with crosses to lay one page
// over the next, its place in the grid and a bar of 100 mm to prove the printer; as few pages as hold the piece. Straights
// longer than a page and a half are broken, their true length written there, but not in a bank, whose next pieces are
// drawn beside.
std::vector<Sheet> template_tiles(const Plan& plan, const Run& run, const SheetSize& paper);

}  // namespace halfhard
