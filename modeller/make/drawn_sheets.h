// The sheets that several papers show, drawn once: the drawing takes longest, and PDF, DXF, SVG and the job page show the
// same.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "exporters/drilling/drilling.h"
#include "exporters/sheet/drawing.h"
#include "geometry/plan/plan.h"

namespace halfhard {

struct DrawnSheets {
  std::vector<Sheet> arrangement;                         // empty where there are no runs
  std::vector<DrillingPaper> drilling;                    // by fixture
  std::map<std::string, std::vector<Sheet>> fabrication;  // by run
  std::map<std::string, std::vector<Sheet>> bench_cards;  // by the run that leads its pieces
};

DrawnSheets drawn_sheets(const Plan& plan);

}  // namespace halfhard
