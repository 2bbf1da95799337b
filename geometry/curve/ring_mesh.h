// A tube as triangles: its outside, skinned ring by ring along the centre line, and the flat annulus at each end.
// What the window, the job page and pictures draw; distances are never taken from it. Site frame, mm.
#pragma once

#include <array>
#include <vector>

#include "geometry/base/vec.h"
#include "geometry/curve/centreline.h"

namespace halfhard {

struct RingMesh {
  std::vector<Vec3> vertices;
  std::vector<Vec3> normals;                  // unit, outward, one a vertex; smooth along the skin, flat on the ends
  std::vector<double> along_mm;               // one a vertex: where its ring stands on the centre line, from 0
  std::vector<std::array<int, 3>> triangles;  // outward by the right hand
};

// The skin and both ends of a tube about `line`; rings keep one seam without twist. The ends are annuli from
// `inside_radius_mm` to `outside_radius_mm` (whole discs where the inside radius is 0). An empty line gives an empty
// mesh. Requires (asserted): 0 <= inside < outside, outside < the line's radius where it has bends, chord_error_mm > 0.
// Guarantees: every point of a triangle of the skin is within chord_error_mm of the true skin, and every vertex lies on
// it. Source of the bound: the error of linear interpolation over a right triangle with sides a, b of the parameters is
// at most (|Saa| a^2 + 2 |Sab| a b + |Sbb| b^2) / 8, with |Saa| <= R + r, |Sab| <= r, |Sbb| = r for a torus.
RingMesh ring_mesh(const CentreLine& line, double outside_radius_mm, double inside_radius_mm, double chord_error_mm);

// How many sides a ring of this mesh has; at least 8.
int ring_sides(double outside_radius_mm, double chord_error_mm);

}  // namespace halfhard
