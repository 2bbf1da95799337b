// Straight curves of a view that lie on one another, cleared up.
#pragma once

#include <vector>

#include "geometry/views/view.h"

namespace halfhard::views {

// Visible lines of one object and kind on one line that touch or overlap become one; hidden lines lose what lies
// under a visible outline, and what lies under another hidden line of their own object. Within 0.002 mm.
void tidy_lines(std::vector<ViewCurve>& curves);

}  // namespace halfhard::views
