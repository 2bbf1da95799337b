// People's text made safe for where it goes in the job page.
#pragma once

#include <string>
#include <string_view>

namespace halfhard {

// For element content and quoted attributes of HTML: & < > " ' escaped, control characters as spaces.
std::string html_text(std::string_view text);

// With its quotes. Also safe inside a script element: < and > are escaped too.
std::string json_text(std::string_view text);

std::string base64(std::string_view bytes);

// A drawing of our own for use inside a page: without what stands before its svg element, its identifiers and the
// references to them marked with `number` so that no two drawings of a page share one.
std::string inline_svg(std::string_view svg, int number);

}  // namespace halfhard
