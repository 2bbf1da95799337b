// Primitives of a drawing as DXF entities. Everything is enlarged by `scale` (Sheet::scale).
#pragma once

#include "exporters/dxf/tags.h"

namespace halfhard {

const char* dxf_line_type(LineStyle style);

// The tags that every entity starts with, up to and with its line type, colour and width.
void dxf_begin(Tags& out, Handles& handles, const std::string& owner, const char* type, const Pen& pen);

void dxf_primitive(Tags& out, Handles& handles, const std::string& owner, const Primitive& primitive, double scale);

}  // namespace halfhard
