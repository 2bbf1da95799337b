// Exact clearances: a tube against a body, two tubes, a tube against itself. Site frame, mm.
//
// A tube is the union of the discs of one radius square to its centre line: flat ends, no caps. A body is an Obstacle
// (obstacle.h): a shape with its motion, every position of which counts.
// Apart: the exact distance between the two solids. Meeting: the least signed distance from the centre line to the
// body (negative inside) less the radius; two tubes: the least distance of the centre lines less both radii. Touching
// is 0, so a separation is negative exactly where the solids meet.
//
// Guarantees: no place is nearer than the result by more than 1e-6 mm (certified by branch and bound on the arc
// length), and the place found is closed in on to 1e-9 mm plus 1e-14 of the largest coordinate; `uncertainty_mm` is
// what a body's own description adds (see Obstacle::uncertainty_mm). Symmetric in two tubes to that bound. Solids that
// share no more than kTouching_mm count as touching (a flat end in a swinging body: kSweptTouching_mm). All positions of
// a motion are as certain; the depth within a body that swings askew is certain to 1e-5 mm, within moving triangles to
// 2e-3 mm. No NaN. An empty triangle body is infinitely far. Throws nothing.
// Requires centre-line radii above the tube's (the job reader sees to it).
#pragma once

#include <limits>
#include <optional>
#include <vector>

#include "geometry/curve/centreline.h"
#include "geometry/distance/obstacle.h"
#include "geometry/distance/solid_piece.h"

namespace halfhard {

// A tube made ready to be measured; holds all it needs, so the centre line may go away. Cheap: about 1 us for 10 bends.
class TubeBody {
 public:
  TubeBody() = default;
  // The outside radius, lagging included.
  TubeBody(const CentreLine& line, double radius_mm);
  // Only the part from `from_mm` to `until_mm` along the line, with flat ends there: for an end that `joins` a fixture.
  // Clamped to the line; where nothing would be left, the far end's disc stays.
  TubeBody(const CentreLine& line, double radius_mm, double from_mm, double until_mm);

  double radius_mm() const { return radius_; }
  const std::vector<SolidPiece>& pieces() const { return pieces_; }
  const Bounds& bounds() const { return bounds_; }  // of the whole solid
  TubeBody moved(const Vec3& shift_mm) const;
  // Thinner, and shorter at both ends, by so much.
  TubeBody shrunk(double by_mm) const;
  TubeBody carried(const Eigen::Isometry3d& by) const;

 private:
  std::vector<SolidPiece> pieces_;
  double radius_ = 0;
  Bounds bounds_;
};

struct Separation {
  double distance_mm = 0;
  // Apart: the two nearest points. Meeting: the deepest point of the (first) centre line, and the body's nearest
  // surface point (the second centre line's nearest point).
  Vec3 at_first = Vec3::Zero(), at_second = Vec3::Zero();
  double along_first_mm = 0;   // along the first centre line, from its start
  double along_second_mm = 0;  // along the second; 0 for a body
  double uncertainty_mm = 0;
};

inline constexpr double kAnyDistance = std::numeric_limits<double>::infinity();

Separation distance(const TubeBody& tube, const Obstacle& body);
Separation distance(const TubeBody& first, const TubeBody& second);
// Pieces none of whose legs are the same or neighbours; nothing where there is no such pair.
std::optional<Separation> self_distance(const CentreLine& line, double radius_mm);

// The same, giving up early: nothing where the distance is certainly `limit_mm` or more. A result may still be at or
// above the limit by the error bound.
std::optional<Separation> distance_nearer_than(double limit_mm, const TubeBody& tube, const Obstacle& body);
std::optional<Separation> distance_nearer_than(double limit_mm, const TubeBody& first, const TubeBody& second);
std::optional<Separation> self_distance_nearer_than(double limit_mm, const CentreLine& line, double radius_mm);

}  // namespace halfhard
