// DXF R2010 (AC1024), UTF-8, of one sheet: $INSUNITS 4, $MEASUREMENT 1, the layers OUTLINE HIDDEN CENTRE DIMENSION TEXT TABLE FRAME MARK FIXTURE with their line types,
// true DIMENSION entities each with its own *D block. Same sheet, same bytes.
// Coordinates are true mm: sheet mm times Sheet::scale, so that any reader measures true lengths in the main view and
// the frame is drawn that much larger. A dimension in a view at another scale carries the rest in DIMLFAC; inch jobs
// keep mm geometry and carry 1/25.4 there.
#pragma once

#include <string>

#include "exporters/sheet/drawing.h"

namespace halfhard {

std::string dxf(const Sheet& sheet);

}  // namespace halfhard
