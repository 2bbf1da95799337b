// Finds what a person could not read on a sheet: texts over texts, over lines of the drawing, or outside the frame.
#pragma once

#include <string>
#include <vector>

#include "exporters/sheet/text_metrics.h"

namespace halfhard {

// Whether a text's box and a convex shape (two points: a line) overlap by more than `slack_mm`; below 0: or come nearer.
bool overlap(const TextBox& box, const std::vector<Vec2>& convex, double slack_mm);

std::vector<TextBox> text_boxes(const Sheet& sheet);

struct Clash {
  std::string first, second;  // contents; second is "frame" or "line OUTLINE" where no text
  Vec2 at = Vec2::Zero();
};
// Pairs of texts that overlap, and texts that leave the sheet's frame (the border of ISO 5457 margins; the whole sheet
// where `has_frame` is false). Boxes are shrunk by `slack_mm` a side.
std::vector<Clash> text_clashes(const Sheet& sheet, bool has_frame = true, double slack_mm = 0.1);
// Texts that a line of the drawing runs through (table and frame lines too); texts that clear their ground are left
// out.
std::vector<Clash> line_clashes(const Sheet& sheet, double slack_mm = 0.2);

}  // namespace halfhard
