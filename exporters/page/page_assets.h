// What bundle.mjs writes at build time: the viewer with the library that it is built on, the style, and that library's
// licence, which the page must carry.
#pragma once

#include <string_view>

namespace halfhard::page {

extern const std::string_view kViewerScript;
extern const std::string_view kPageStyle;
extern const std::string_view kViewerLicence;

}  // namespace halfhard::page
