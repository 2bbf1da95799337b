// The fonts behind text_metrics.h: which glyph of which installed font draws each character. FreeType and fontconfig
// stay behind this header; the PDF writer asks for the font's face, the SVG writer for outlines.
#pragma once

#include <memory>
#include <string>
#include <vector>

namespace halfhard {

// One glyph of a line. Lengths are in heights of a capital.
struct PlacedGlyph {
  int font = 0;  // for font_face and glyph_path
  unsigned long glyph = 0;
  double x = 0;
  int bytes = 0;  // of the drawable text that it stands for
};
struct LaidLine {
  std::string content;  // what is drawn: see drawable()
  std::vector<PlacedGlyph> glyphs;
  double width = 0;
};
// Throws Trouble where the machine has no font at all.
LaidLine lay_line(const std::string& content, bool bold);

// A FreeType face (FT_Face) of a font for others to draw with: they may leave a size and a transform on it, so it is not
// the one that lines are laid and outlines are taken from. Then how many heights of a capital one em is.
void* font_face(int font);
double em_in_capitals(int font);

// The outline of a glyph as SVG path data, y downwards, in heights of a capital; empty for a blank.
std::string glyph_path(int font, unsigned long glyph);

}  // namespace halfhard
