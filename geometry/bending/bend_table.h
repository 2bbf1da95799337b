// From a centre line to what is read out at the bench, and back.
#pragma once

#include <string>
#include <vector>

#include "geometry/curve/centreline.h"
#include "geometry/plan/bender.h"
#include "geometry/plan/run.h"

namespace halfhard {

// The inverse form of a centre line: straight, rotation, angle; the last row's angle is 0 and means no bend.
struct ShapeRow {
  double straight_mm = 0;
  Angle rotation;  // from the plane of the bend before; 0 for the first bend
  Angle angle;
};

// Rows of a centre line; start direction and first bend plane are lost (they are where the pipe stands, not its shape).
std::vector<ShapeRow> shape_rows(const CentreLine& line);
// Rebuilds the points: the first leg runs from `start` along `direction`, the first bend turns about `normal`
// (unit, square to `direction`). Requires at least one row; zero angles are allowed and give no intersection.
std::vector<Vec3> points_from_rows(const std::vector<ShapeRow>& rows, double radius_mm, const Vec3& start,
                                   const Vec3& direction, const Vec3& normal);

// How a run is bent; lengths mm.
struct BendingOrder {
  std::vector<End> hook;   // one a bend, by number
  std::vector<int> order;  // bend numbers in the order made
  double datum_insertion_mm = 0, free_insertion_mm = 0;
  double datum_spare_mm = 0, free_spare_mm = 0;
};

// Every number of the bend table except the check dimensions (see forming.h). `order` and `hook` have one entry a bend.
std::vector<Bend> bend_table(const CentreLine& line, const Tube& tube, const Bender& bender,
                             const BendingOrder& bending);

// The signed rotation from one bend plane to the next, right-handed about travel, in (-180, 180].
Angle rotation_between(const Vec3& before, const Vec3& along, const Vec3& after);

// 600 mm folding rule hinged at 300 and laid along both legs: how far apart its points stand. Straight: 600.
double rule_points_mm(Angle angle);
// Offsets from here on would take a right angle or more by the 600 mm rule setting: 600*(1 - cos 45), rounded down.
inline constexpr double kLargestByRule_mm = 175.7;
// The angle that an offset of `true_mm` takes by the 600 mm rule setting: 2*acos((600 - true)/600). 0 < true < 600.
Angle rule_angle(double true_mm);

}  // namespace halfhard
