// The drawings that the job page shows, as SVG.
#pragma once

#include "exporters/page/job_page.h"

namespace halfhard {

PageParts page_parts_of(const Plan& plan);

}  // namespace halfhard
