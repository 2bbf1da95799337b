// What stands on a template, in its own flat frame at true size, before it is laid on sheets.
#pragma once

#include <string>
#include <vector>

#include "exporters/bench/flat_stretch.h"
#include "exporters/bench/labels.h"

namespace halfhard {

struct TemplateDrawing {
  std::string title;                             // "hot tail: template of bends 1 to 2"
  std::string failure;                           // "NOT TO BE MADE: ..." in short, or empty
  std::vector<Entity> entities;                  // lines and arcs
  std::vector<Label> labels;                     // still to be placed, with `labels_on`
  bool broken = false;                           // long straights are cut short
  Vec2 low = Vec2::Zero(), high = Vec2::Zero();  // of the tube with its band and its marks: neighbours may lie beyond
};

TemplateDrawing template_drawing(const Plan& plan, const Run& run, const FlatStretch& stretch);

// Is it part of the tube, its band or its marks, not of a neighbour?
bool belongs_to_piece(const Entity& entity);

// The labels within a rectangle, off the lines; those of neighbours that lie beyond it are left out.
std::vector<Entity> labels_on(const TemplateDrawing& drawing, const Vec2& low, const Vec2& high);

// The points of a line or an arc, chords within 0.01 mm for radii up to 250 mm; none for anything else.
std::vector<Vec2> points_of(const Entity& entity);

// A bar of 100 mm with its words, from `left` on, 6 mm high.
std::vector<Entity> hundred_bar(const Vec2& left, LengthUnit unit);

}  // namespace halfhard
