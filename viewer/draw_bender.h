// A generic bench bender of our own drawing, and the bench below it. Millimetres.
#pragma once

#include "geometry/plan/run.h"
#include "viewer/drawn.h"

namespace halfhard {

// The former, the hook, the guide and the lever pulled to an angle, in the bender's own frame (see forming.h).
Part draw_bender(const Run& run, Angle pulled);
double lever_reach_mm(const Run& run);  // from the former's centre to the lever's end
double hook_reach_mm(const Run& run);   // how far the hook reaches back from where the curve starts

// How far the bench's top is below the tube in the bender: a common height of a bender's arms, no source.
inline constexpr double kBenchBelow_mm = 180;

// The bench's top as the person sees it: x right, y away, z up, the origin where the curve starts.
struct Bench {
  double half_mm = 0;  // half its length; 0 where there is none, because tube or lever runs through its level

  Part draw(bool seen_through) const;
  // A tube of this radius about `place` is lower than its top, within its edges.
  bool meets(const Vec3& place, double radius_mm) const;

 private:
  Vec3 middle() const;
  Vec3 half_sizes() const;
};

}  // namespace halfhard
