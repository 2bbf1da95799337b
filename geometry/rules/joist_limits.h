// The published rules for holes and notches in solid timber joists, as figures for one joist: what the checks judge by
// and what the drilling sheet shades.
#pragma once

#include <optional>

#include "geometry/plan/rules.h"

namespace halfhard {

// Where a cut may be and how large. mm; along the joist from the nearer support.
struct CutLimits {
  double from_mm = 0, to_mm = 0;  // middle of the cut
  double most_mm = 0;             // across a hole; depth of a notch
};

struct JoistLimits {
  const char* name = "";          // whose rule it is
  bool left_whole = false;        // no hole and no notch at all
  std::optional<CutLimits> hole;  // nothing: the rule says nothing of holes
  std::optional<CutLimits> notch;
  bool hole_on_centre_line = false;  // else anywhere in the depth but near the edges
  double hole_from_edge_mm = 0;      // least timber left above and below
};

// Approved Document A method (LABC): notch 0.07-0.25 of span from the support, no deeper than 0.125 of the depth and
// 35 mm; hole 0.25-0.40 of span, on the centre line, no larger than 0.25 of the depth and 65 mm; joists of 100 mm or
// less left whole. The job's own limits in place of these.
JoistLimits approved_document_a(double span_mm, double depth_mm, const Rules& rules);
// NHBC 6.4.18, notches only: 0.1-0.2 of span, no deeper than 0.15 of the depth.
JoistLimits nhbc(double span_mm, double depth_mm);
// IRC R502.8.1: notch no deeper than a sixth of the depth, none in the middle third; hole no larger than a third, 2 in
// from the edges.
JoistLimits irc(double span_mm, double depth_mm);

}  // namespace halfhard
