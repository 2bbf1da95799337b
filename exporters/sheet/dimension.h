// What a dimension is drawn with, after ISO 129-1 (from memory): filled arrows of 15 degrees, extension lines that
// start a little off the object and pass the dimension line, text above the line, read from the bottom or the right.
// Where there is no room between the extension lines the arrows come from outside, and the text stands beyond.
#pragma once

#include "exporters/sheet/drawing.h"

namespace halfhard {

std::vector<Primitive> drawn_dimension(const Dimension& dimension);

// The text of a dimension as it is drawn: where layout and the DXF writer must know it.
Text text_of(const Dimension& dimension);

// Where the ends of the dimension line stand (aligned, linear).
struct DimensionLine {
  Vec2 first, second;
};
DimensionLine line_of(const Dimension& dimension);
// The arc of an angular dimension.
ArcCurve arc_of(const Dimension& dimension);

}  // namespace halfhard
