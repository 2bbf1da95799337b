#include "geometry/occt/solids_held.h"

#include <cctype>
#include <string>

namespace halfhard {
namespace {

bool in_a_name(char c) { return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_'; }

// Past a string or a comment that begins at `at`; `at` itself where there is neither.
std::size_t past_quoted(std::string_view text, std::size_t at) {
  if (text[at] == '\'') {
    const std::size_t end = text.find('\'', at + 1);
    return end == std::string_view::npos ? text.size() : end + 1;
  }
  if (text.substr(at, 2) == "/*") {
    const std::size_t end = text.find("*/", at + 2);
    return end == std::string_view::npos ? text.size() : end + 2;
  }
  return at;
}

}  // namespace

int solids_held(std::string_view text) {
  int count = 0;
  // One entity may be written in parts, a name each: it counts once.
  bool counted_here = false;
  for (std::size_t at = 0; at < text.size();) {
    if (const std::size_t past = past_quoted(text, at); past != at) {
      at = past;
    } else if (text[at] == ';') {
      counted_here = false;
      ++at;
    } else if (in_a_name(text[at])) {
      std::size_t end = at;
      while (end < text.size() && in_a_name(text[end])) ++end;
      const std::string_view name = text.substr(at, end - at);
      const bool solid = name == "MANIFOLD_SOLID_BREP" || name == "BREP_WITH_VOIDS" || name == "FACETED_BREP";
      if (solid && !counted_here) ++count, counted_here = true;
      at = end;
    } else {
      ++at;
    }
  }
  return count;
}

}  // namespace halfhard
