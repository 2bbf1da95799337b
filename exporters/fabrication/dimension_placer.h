// Puts dimensions and labels on a view one after another, each only where it can be read: its text off every other text
// and line, its own lines off every text. Sheet mm. Same calls in the same order, same places.
#pragma once

#include <vector>

#include "exporters/sheet/text_metrics.h"

namespace halfhard {

// Entities that stand or fall together, and boxes that nothing else may enter.
struct Placement {
  std::vector<Entity> entities;
  std::vector<TextBox> room;
};

class DimensionPlacer {
 public:
  // What stands inside these corners only.
  DimensionPlacer(const Vec2& low, const Vec2& high) : low_(low), high_(high) {}

  // Something drawn already.
  void mark(const Entity& entity);
  // The first of the candidates that can be read, marked and returned in `out`; false where none can.
  bool place(const std::vector<Entity>& candidates, std::vector<Entity>& out);
  bool place(const std::vector<Placement>& candidates, std::vector<Entity>& out);
  bool readable(const Entity& entity) const;

 private:
  bool free(const TextBox& box) const;

  struct Stroke {
    Vec2 from, to;
  };
  Vec2 low_, high_;
  std::vector<TextBox> boxes_;
  std::vector<Stroke> strokes_;
};

// An upright box.
TextBox box_between(const Vec2& low, const Vec2& high);

}  // namespace halfhard
