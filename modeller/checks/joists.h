// Holes and notches in joists: where they may be and how large, by the published rules.
#pragma once

#include <string>
#include <vector>

#include "modeller/checks/check_table.h"

namespace halfhard {

// A hole as a joist sees it. All mm.
struct JoistCut {
  const Run* run = nullptr;
  const Fixture* fixture = nullptr;
  double span_mm = 0, depth_mm = 0;
  double along_mm = 0;       // from `from` of the joist to the middle of the cut
  double off_centre_mm = 0;  // from the middle of the depth, up positive; the face that lies farther off counts
  double diameter_mm = 0;
  Angle off_square;       // between the hole and the joist's breadth
  bool is_notch() const;  // the hole breaks the top or bottom edge
  double notch_depth_mm() const;
  double from_support_mm() const;  // the nearer one
};
std::vector<JoistCut> joist_cuts(const Plan& plan);

// Metric jobs are held to the Approved Document A method, with the NHBC figures for notches beside it: outside one of
// the two a warn, outside both a fail. Inch jobs are held to IRC R502.8.1. Each drilled joist gets a note that shows
// all of them. Solid timber only.
void check_joists(const PlanContext& context, std::vector<Finding>& findings);

}  // namespace halfhard
