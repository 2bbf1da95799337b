// The bender and what it stands on as bodies, for the piece to be kept clear of: in the bender's frame (forming.h), mm.
// What plays, pictures and judges the bending takes the same bodies.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "geometry/distance/body.h"
#include "geometry/plan/run.h"

namespace halfhard {

// How a body of the bender moves while the lever is pulled.
enum class BenderPart { former, hook, guide, lever, bench, floor, wall };
const char* bender_part_word(BenderPart part);  // "the former"

struct PlacedPart {
  BenderPart part = BenderPart::former;
  Body body;                // at rest, nothing pulled
  bool swings = false;      // with the lever, about the former's axis
  bool by_default = false;  // some figure of it is a usual one, not the job's
};

// Usual figures of what the job does not give; common practice, no source.
struct BenderFigures {
  double former_thickness_mm, hook_length_mm, guide_length_mm, lever_length_mm;
  double above_bench_mm, bench_length_mm, bench_depth_mm, above_floor_mm;
};
// Former one and a half diameters thick; hook and guide as long as the bender's shortest_between and shortest_lever leave
// room for, at most two and three diameters; lever six radii from the former's axis; the tube 180 above a bench of 1200
// by 600 with the bender in its middle, and 1080 above the floor.
BenderFigures usual_figures(const Run& run);
BenderFigures figures_of(const Run& run);  // the job's own where it gives them

// No bench and floor where the tube stands upright or the lever swings down past the bench: there the bench has a gap.
// `turned_over`: the bender the other way up, its swing to the other side of the tube.
std::vector<PlacedPart> bender_parts(const Run& run, bool turned_over = false);

// The frame's axes as the person sees them (x right, y away, z up); hook left and swing towards you where the job does
// not say.
Mat3 seen_by_the_person(const Run& run, bool turned_over = false);

}  // namespace halfhard
