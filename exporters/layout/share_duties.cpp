// Shares out among the views what is labelled once.
#include <algorithm>

#include "exporters/layout/draw_view.h"

namespace halfhard {
namespace {

constexpr double kSame_mm = 0.3;  // on paper: holes nearer than this are one behind another

// How many holes a view shows at the place of this one.
int at_one_place(const Plan& plan, const PlacedView& view, size_t hole) {
  const Vec2 at = view.on_sheet(plan.drillings[hole].centre);
  return static_cast<int>(std::count_if(plan.drillings.begin(), plan.drillings.end(), [&](const Drilling& other) {
    return (view.on_sheet(other.centre) - at).norm() < kSame_mm;
  }));
}

}  // namespace

std::vector<ViewDuties> share_duties(const Arrangement& arrangement, const std::vector<PlacedView>& views) {
  std::vector<ViewDuties> duties(views.size());
  for (const Callout& callout : arrangement.callouts) {
    const Vec3 gap = callout.clearance->at_second - callout.clearance->at_first;
    size_t best = 0;
    double longest = -1;
    for (size_t i = 0; i < views.size(); ++i) {
      const double length = views[i].view.flat(gap).norm() * (views[i].isometric ? 0.5 : 1);
      if (length > longest + 1e-6) {
        longest = length;
        best = i;
      }
    }
    duties[best].callouts.push_back(&callout);
  }
  // A hole where the fewest stand behind one another, and of such views where it is seen into; never in the isometric
  // where there is another.
  const Plan& plan = *arrangement.plan;
  for (size_t hole = 0; hole < plan.drillings.size(); ++hole) {
    size_t best = 0;
    double worst = 1e300;
    for (size_t i = 0; i < views.size(); ++i) {
      const double into = std::abs(plan.drillings[hole].direction.dot(views[i].view.look));
      const double cost = at_one_place(plan, views[i], hole) + (1 - into) / 2 + (views[i].isometric ? 1000 : 0);
      if (cost < worst - 1e-6) {
        worst = cost;
        best = i;
      }
    }
    duties[best].holes.push_back(hole);
  }
  if (!views.empty()) duties.front().connections = true;
  return duties;
}

}  // namespace halfhard
