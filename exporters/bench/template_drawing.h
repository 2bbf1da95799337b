// What stands on a template, in its own flat frame at true size, before it is laid on sheets.
#pragma once

#include <string>
#include <vector>

#include "exporters/bench/flat_stretch.h"

namespace halfhard {

struct TemplateDrawing {
  std::string title;             // "hot tail: template of bends 1 to 2"
  std::string failure;           // "NOT TO BE MADE: ..." or empty
  std::vector<Entity> entities;  // lines, arcs and texts
  Vec2 low = Vec2::Zero(), high = Vec2::Zero();
};

TemplateDrawing template_drawing(const Plan& plan, const Run& run, const FlatStretch& stretch);

// The points of a line or an arc, chords within 0.01 mm for radii up to 250 mm; none for anything else.
std::vector<Vec2> points_of(const Entity& entity);

// A bar of 100 mm with its words, from `left` on, 6 mm high.
std::vector<Entity> hundred_bar(const Vec2& left, LengthUnit unit);

}  // namespace halfhard
