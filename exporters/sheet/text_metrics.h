// How wide a text will be, and which glyphs draw it. One font for every paper: DejaVu Sans (and Bold), found through
// fontconfig; where it lacks a character another installed font that has it stands in; where none has it the text
// shows "U+XXXX" instead of an empty box.
// Widths are those of the PDF and the SVG exactly; a DXF reader uses its own copy of the same font.
#pragma once

#include <string>
#include <vector>

#include "exporters/sheet/drawing.h"

namespace halfhard {

// The text as it can be drawn: characters that no installed font has are written U+XXXX, bad UTF-8 as U+FFFD.
std::string drawable(const std::string& content);

// Width of one line, height_mm the height of its capitals.
double text_width_mm(const std::string& content, double height_mm, bool bold = false);

// Cut to the width with "..." at its end where it is wider.
std::string shortened(const std::string& content, double width_mm, double height_mm, bool bold = false);

// Breaks a paragraph into lines no wider than `width_mm`, at spaces; a word that is wider by itself is broken inside.
std::vector<std::string> wrapped(const std::string& paragraph, double width_mm, double height_mm, bool bold = false);

// The paragraph as texts from the top left corner down, line_step_mm apart (0: 1.6 heights).
struct Paragraph {
  std::vector<Entity> texts;
  double height_mm = 0;  // from the top of the first line to the foot of the last
};
Paragraph paragraph(const std::string& content, const Vec2& top_left, double width_mm, double height_mm,
                    bool bold = false, double line_step_mm = 0);

// The box that a text covers, corners anticlockwise from its bottom left.
struct TextBox {
  std::string content;
  Vec2 corners[4];
};
TextBox box_of(const Text& text);
// Where the baseline starts, from Text::at in the text's own (turned) axes, for a line of `width_mm`.
Vec2 start_of(const Text& text, double width_mm);

}  // namespace halfhard
