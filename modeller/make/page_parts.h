// The drawings that the job page shows, as SVG: those that are read, not those that are printed at full size.
#pragma once

#include "exporters/page/job_page.h"
#include "modeller/make/drawn_sheets.h"

namespace halfhard {

// `cut_list`: its sheets, empty for none.
PageParts page_parts_of(const DrawnSheets& drawn, const std::vector<Sheet>& cut_list);

}  // namespace halfhard
