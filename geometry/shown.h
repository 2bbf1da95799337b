// Numbers as a person reads them: lengths to 0.5 mm or 1/32 in, angles to 0.1 degree. Never used where a machine reads
// (JSON and CSV are exact). Independent of the user's locale. Halves round away from 0.
#pragma once

#include <string>

#include "geometry/angle.h"
#include "geometry/plan.h"

namespace halfhard {

// "62.5 mm"; "2 15/32 in".
std::string shown_length(double mm, LengthUnit unit);
// The same without the unit, for table cells and dimensions: "62.5"; "2 15/32".
std::string shown_length_bare(double mm, LengthUnit unit);
// For drawings of inch jobs, feet and inches: 2'-3 1/2"; mm jobs as shown_length_bare.
std::string shown_dimension(double mm, LengthUnit unit);
// "45" or "22.5", without a sign of degree.
std::string shown_angle_bare(Angle angle);
// With the degree sign.
std::string shown_angle(Angle angle);
// Shortest text of at most `decimals` decimals, no trailing zeros, no "-0".
std::string shown_number(double value, int decimals);

}  // namespace halfhard
