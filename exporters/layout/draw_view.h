// A placed view as entities: pipes in their styles, fixtures lighter, marks, and labels where there is room.
#pragma once

#include <vector>

#include "exporters/layout/callouts.h"
#include "exporters/layout/label_placer.h"
#include "exporters/layout/run_styles.h"
#include "exporters/layout/view_layout.h"
#include "exporters/sheet/drawing.h"

namespace halfhard {

// What the views of one arrangement share.
struct Arrangement {
  const Plan* plan = nullptr;
  std::vector<RunStyle> styles;
  std::vector<Callout> callouts;
};

// In which of the views a callout, or a hole, is labelled: where the gap shows longest, or where the fewest holes stand
// behind one another.
struct ViewDuties {
  std::vector<const Callout*> callouts;
  std::vector<size_t> holes;  // indices into Plan::drillings
  bool connections = false;   // names of connections
};
std::vector<ViewDuties> share_duties(const Arrangement& arrangement, const std::vector<PlacedView>& views);

std::vector<Entity> draw_view(const Arrangement& arrangement, const PlacedView& view, const ViewDuties& duties,
                              LabelPlacer& placer);

// The pens of a pipe's outline and centre line.
Pen run_outline_pen(const RunStyle& style);
Pen run_centre_pen(const RunStyle& style);
Entity entity_of(const FlatShape& shape, const Pen& pen);

}  // namespace halfhard
