// A picture of the piece in a hand bender: a generic one of our own drawing (round former, hook block behind the curve,
// guide and lever handle beyond it), seen as the person at the bench sees it, hidden lines taken away.
// The piece is the true shape in space, turned as it lies; only its long straights are cut short, with break lines, so
// that the picture is not to scale.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "exporters/sheet/drawing.h"
#include "geometry/bending/check_dimension.h"
#include "geometry/bending/forming.h"

namespace halfhard {

struct BenderPicture {
  FormedPiece piece;
  double tube_radius_mm = 7.5;
  BenderStands stands;                    // as the job says; hook left and swing towards you where it does not
  std::optional<std::string> mark_label;  // "260 from the start end"; none: no mark is drawn
  bool with_bender = true;                // false: the piece alone, out of the bender
  std::optional<LocatedCheck> check;      // or where a mark is taped: a dimension line with `check_label`
  std::string check_label;
};

// Sheet mm per true mm that the picture would have in a rectangle of this size.
double picture_scale(const BenderPicture& picture, const Vec2& size);

// Fitted into the rectangle on the sheet, mm: drawing, dimension and labels, as large as the labels' room allows.
std::vector<Entity> bender_picture(const BenderPicture& picture, const Vec2& low, const Vec2& high);

}  // namespace halfhard
