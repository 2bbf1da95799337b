// DIMENSION entities: the measured points, so that any reader can measure again, with the block that shows them.
#pragma once

#include <map>

#include "exporters/dxf/tags.h"

namespace halfhard {

// Style and block names that a drawing's dimensions need.
struct DimensionStyles {
  // DIMLFAC (what the drawing's mm are multiplied by to read) to the style's name.
  std::map<double, std::string> name_by_factor;
};
DimensionStyles dimension_styles(const Sheet& sheet);

// What a dimension's points are multiplied by to read: view scale over sheet scale, in inches for inch jobs.
double length_factor(const Dimension& dimension, const Sheet& sheet);

void dxf_dimension(Tags& out, Handles& handles, const std::string& owner, const std::string& block,
                   const Dimension& dimension, const Sheet& sheet, const DimensionStyles& styles);

}  // namespace halfhard
