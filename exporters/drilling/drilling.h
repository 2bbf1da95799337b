// Drilling sheets: one for each drilled face of a panel, joist or wall, with the warning to find cables and pipes first,
// hole centres from two edges, diameters, and the zones that the timber rules allow; and the face at true size for a
// router. Same plan, same papers.
#pragma once

#include <string>
#include <vector>

#include "exporters/sheet/drawing.h"
#include "geometry/plan/plan.h"

namespace halfhard {

struct DrillingPaper {
  std::string name;  // the fixture's; with its side where more than one face of it is drilled: "cabinet, the left"
  Sheet sheet;       // A3, to print
  // 1:1, for dxf(): (0, 0) is the lower left corner of the face, or what an endless wall is measured from. Outline on
  // OUTLINE, holes on MARK, their crosses on CENTRE, names on TEXT; no frame.
  Sheet true_size;
};

// Empty where nothing is drilled.
std::vector<DrillingPaper> drilling_papers(const Plan& plan);

}  // namespace halfhard
