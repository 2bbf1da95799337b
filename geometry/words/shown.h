// Numbers as a person reads them: lengths to 0.5 mm or 1/32 in, angles to 0.1 degree. Never used where a machine reads
// (JSON and CSV are exact). Independent of the user's locale. Halves round away from 0.
#pragma once

#include <string>

#include "geometry/base/angle.h"
#include "geometry/base/length_unit.h"
#include "geometry/base/vec.h"

namespace halfhard {

// "62.5 mm"; "2 15/32 in".
std::string shown_length(double mm, LengthUnit unit);
// The same without the unit, for table cells and dimensions: "62.5"; "2 15/32".
std::string shown_length_bare(double mm, LengthUnit unit);
// A gap, or a limit that something must stay below, never looks better than it is: rounded down. 99.9 mm is "99.5 mm".
// What is short of a step by no more than the 0.001 mm that the checks let pass counts as that step.
std::string shown_clearance(double mm, LengthUnit unit);
std::string shown_clearance_bare(double mm, LengthUnit unit);
// What is needed at least, rounded up likewise, without the unit.
std::string shown_least_bare(double mm, LengthUnit unit);
// For drawings of inch jobs, feet and inches: 2'-3 1/2"; mm jobs as shown_length_bare.
std::string shown_dimension(double mm, LengthUnit unit);
// "45" or "22.5", without a sign of degree.
std::string shown_angle_bare(Angle angle);
// With the degree sign.
std::string shown_angle(Angle angle);
// The site's word for a direction along an axis (0 right, 1 back, 2 up), by the sign: "right", "left".
std::string site_word(int axis, double along);
// A place and a way as a person says them: "150 right, 430 up, 20 front" of the job's origin; "up"; "up, 30° towards
// right"; "up, 35.3° towards right and back".
std::string shown_place(const Vec3& at, LengthUnit unit);
std::string shown_way(const Vec3& unit);
// Shortest text of at most `decimals` decimals, no trailing zeros, no "-0".
std::string shown_number(double value, int decimals);

}  // namespace halfhard
