#include <algorithm>

#include "viewer/draw_plan.h"
#include "viewer/solids.h"

namespace halfhard {
namespace {

// Along the centre line, which leaves spare and insertion out, unlike the blank that marks are measured on.
double along_line(const Run& run, double along_blank_mm) {
  return along_blank_mm - run.spare_datum_mm - run.datum_insertion_mm();
}

// A mark as a thin ring, proud of the tube so that it is seen from every side.
void add_marks(Layer& layer, const Run& run) {
  constexpr double kHalfWidth_mm = 1.2, kProud_mm = 0.35;
  for (const Bend& bend : run.bends) {
    const double at = along_line(run, bend.mark_mm);
    if (at < 0 || at > run.line.length_mm()) continue;
    append(layer.mesh,
           sleeve(run.line, at - kHalfWidth_mm, at + kHalfWidth_mm, run.tube->outside_radius_mm() + kProud_mm));
  }
}

}  // namespace

Part draw_run(const Run& run) {
  Part part{PartKind::run, run.name, {}};
  const double outside = run.tube->outside_radius_mm();
  part.layers.push_back(
      {Paint::copper, ring_mesh(run.line, outside, run.tube->inside_diameter_mm() / 2, kDrawnChordError_mm), {}});
  Layer marks{Paint::mark, {}, {}};
  add_marks(marks, run);
  if (!marks.mesh.vertices.empty()) part.layers.push_back(std::move(marks));
  if (run.lagging_mm > 0) {
    Layer lagging{Paint::lagging, sleeve(run.line, 0, run.line.length_mm(), run.outside_radius_mm()), {}};
    part.layers.push_back(std::move(lagging));
  }
  return part;
}

Part draw_chosen_stretch(const Run& run, int bend) {
  Part part{PartKind::chosen, run.name, {}};
  double from = 0, to = run.line.length_mm();
  if (bend >= 1 && bend <= static_cast<int>(run.bends.size())) {
    from = along_line(run, run.bends[bend - 1].start_of_bend_mm);
    to = along_line(run, run.bends[bend - 1].end_of_bend_mm);
  }
  const double radius = run.outside_radius_mm() + std::max(1.5, 0.13 * run.tube->outside_diameter_mm);
  part.layers.push_back({Paint::chosen, sleeve(run.line, from, to, radius), {}});
  part.layers.back().halo = true;
  return part;
}

}  // namespace halfhard
