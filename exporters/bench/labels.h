// Finds room for a picture's labels: beside the place that each belongs to, off the lines and off each other, with a thin
// line back to the place where it stands away from it. Sheet mm. Same input, same places.
#pragma once

#include <string>
#include <vector>

#include "exporters/sheet/drawing.h"

namespace halfhard {

struct Label {
  std::string text;
  Vec2 at = Vec2::Zero();  // the place that it names
  double height_mm = 2.5;
  bool bold = false;
  Layer layer = Layer::text;
};

// Rectangles and strokes that labels keep off, and the area that they stay in.
struct LabelGround {
  Vec2 low = Vec2::Zero(), high = Vec2::Zero();
  std::vector<std::vector<Vec2>> strokes;
};

struct PlacedLabels {
  std::vector<Entity> entities;  // texts with their leaders, in the order asked
  double crowding = 0;           // mm of stroke under them, and much more where two meet; 0 where all stand free
};

// Every label stays in the ground; where there is no free room the place with the fewest strokes under it is taken, its
// ground cleared.
PlacedLabels placed_labels(const std::vector<Label>& labels, const LabelGround& ground);

}  // namespace halfhard
