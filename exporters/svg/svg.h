// SVG of one sheet, in mm with a viewBox. Letters are outlines, so that it looks the same on every machine; the words
// lie over them unseen for searching and reading aloud.
#pragma once

#include <string>

#include "exporters/sheet/drawing.h"

namespace halfhard {

std::string svg(const Sheet& sheet);

}  // namespace halfhard
