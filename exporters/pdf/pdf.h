// PDF of a document, one page a sheet, exact in mm, fonts embedded. Same document, same bytes: no clock in it.
#pragma once

#include <string>

#include "exporters/sheet/drawing.h"

namespace halfhard {

std::string pdf(const Document& document);

}  // namespace halfhard
