// A Plan as a picture: copper with bend numbers and marks, connections as arrows, fixtures translucent, the tightest
// clearances as dimensions, failing places banded and signed. Site frame, mm. Pure: the same plan gives the same
// picture.
#pragma once

#include <map>

#include "geometry/plan/plan.h"
#include "viewer/drawn.h"

namespace halfhard {

struct DrawOptions {
  std::string only_run;  // one run (or all pieces of a bank) with what it joins; empty: all
  std::string chosen;    // name of the run, fixture or connection under the hand; empty: none
  std::string hovered;   // name of the run under the mouse; empty: none
  int chosen_bend = 0;   // its bend, 1-based; 0: none
  int clearances = 2;    // how many of the tightest are shown, failing ones besides
  bool caption = true;
};

// Keeps the parts of the last picture and hands them out again where what they show is the same object (shared by
// address, see Plan), so that an edit remeshes only what it reached.
class PlanDrawer {
 public:
  Drawn draw(const Plan& plan, const DrawOptions& options);

 private:
  // What a part was made from; it is handed out again only for exactly that.
  struct Kept {
    std::shared_ptr<const void> shown;
    Bounds where;
    double size = 0;
    std::shared_ptr<const Part> part;
  };
  std::map<const void*, Kept> kept_, next_;
};

// The parts, one kind a file.
Part draw_run(const Run& run);
Part draw_fixture(const Fixture& fixture, const Bounds& room);
Part draw_connection(const Connection& connection, double outside_diameter_mm);
Part draw_chosen_stretch(const Run& run, int bend);

// What is written beside them.
std::vector<Label> run_labels(const std::vector<const Run*>& runs, const DrawOptions& options);
std::vector<Label> fixture_labels(const Plan& plan, const std::vector<Vec3>& middles);
void gather_failures(std::vector<Label>& labels);
void keep_the_foremost(std::vector<Label>& labels);

// Failing places: bands on the pipe where a finding is about a bend or a whole run, signs with their words, and the
// clearances as dimensions.
struct Failures {
  std::vector<Part> bands;
  std::vector<Label> labels;
  std::vector<DimensionLine> dimensions;
};
Failures draw_failures(const Plan& plan, const std::vector<const Run*>& runs, int clearances);

// Everything but walls: pipes, connections, bodies with their movements.
Bounds picture_bounds(const Plan& plan, const std::vector<const Run*>& runs);
// Leg by leg, corners not rounded.
void add_stretches(std::vector<PipeStretch>& pipes, const CentreLine& line, double radius_mm);
// What a fitted view must hold: the pipes, and of a whole job where its connections are. Without pipes, the fixtures.
std::vector<Vec3> picture_framing(const Plan& plan, const std::vector<const Run*>& runs);
Bounds body_bounds(const Fixture& fixture);  // empty for a plane

// How fine pipes are drawn: the skin is within this of the true tube.
inline constexpr double kDrawnChordError_mm = 0.2;

}  // namespace halfhard
