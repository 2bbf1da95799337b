// Bench cards: one A4 sheet a bend, in the order made, with a picture of the piece in the bender before and after, what
// to do in numbered steps, the clock, the figures large, and a line to tick for each piece made by the same table.
// A straight piece gets one card. A run that fails carries the finding in place of its marks.
#pragma once

#include <vector>

#include "exporters/sheet/drawing.h"

namespace halfhard {

std::vector<Sheet> bench_cards(const Plan& plan, const Run& run);

// Pieces made by the same table share one set of papers, that of the first of them.
bool leads_its_pieces(const Plan& plan, const Run& run);

}  // namespace halfhard
