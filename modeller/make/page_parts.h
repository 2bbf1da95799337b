// The drawings that the job page shows, as SVG.
#pragma once

#include "exporters/page/job_page.h"
#include "modeller/make/drawn_sheets.h"

namespace halfhard {

PageParts page_parts_of(const DrawnSheets& drawn);

}  // namespace halfhard
