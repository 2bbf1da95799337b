// What parts look like in a program that opens our STEP files, and in the job page. sRGB, 0 to 1.
#pragma once

#include "geometry/plan/fixture.h"

namespace halfhard {

struct PartColour {
  double red = 0, green = 0, blue = 0;
  double transparency = 0;  // 0: none
  friend auto operator<=>(const PartColour&, const PartColour&) = default;
};

// Copper, leaning to the colour that the trade thinks of for the service.
PartColour tube_colour(Service service);
PartColour lagging_colour();
PartColour fixture_colour(FixtureKind kind);

}  // namespace halfhard
