// Colours. Nothing is told by colour alone: failing places carry bands and a sign, see draw_failures.cpp.
#pragma once

#include <array>
#include <string>

#include "viewer/drawn.h"

namespace halfhard {

// sRGB, 0 to 1.
struct Colour {
  double red = 0, green = 0, blue = 0;
  static Colour of(unsigned rgb) {
    return {((rgb >> 16) & 255) / 255.0, ((rgb >> 8) & 255) / 255.0, (rgb & 255) / 255.0};
  }
};

struct Finish {
  Colour colour;
  double opacity = 1;
  double shine = 0;     // specular part
  double width_px = 1;  // of lines
};

struct LabelColours {
  Colour text, ground, frame;
};

struct Theme {
  std::string name;  // "light", "dark"
  Colour background;
  bool dark = false;

  Finish finish(Paint paint) const;
  LabelColours label(LabelKind kind) const;
  Colour line(bool failing) const;  // dimension and leader lines
};

const Theme& light_theme();
const Theme& dark_theme();

}  // namespace halfhard
