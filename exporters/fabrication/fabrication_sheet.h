// Fabrication sheet of one pipe, A4 where views and texts fit on one at 1:5 or larger, else A3: three orthographic views and an isometric with hidden lines, dimensions centre to
// centre, the bend table, what it is made of, how exact, and what to mind. Where the tables do not fit they go on to
// further sheets. A run that fails says NOT TO BE MADE and why.
// Every leg stands with its components in the table of legs; a dimension that finds no readable room is left out there
// and only there.
#pragma once

#include <vector>

#include "exporters/sheet/drawing.h"

namespace halfhard {

std::vector<Sheet> fabrication_sheets(const Plan& plan, const Run& run);

// The blank, straight and full size, with its marks and where each curve begins and ends: for a router or a plotter.
Sheet development_sheet(const Plan& plan, const Run& run);

}  // namespace halfhard
