// Numbers in files of drawings, free of the user's locale.
#pragma once

#include <charconv>
#include <string>
#include <string_view>

namespace halfhard {

// At most `decimals` decimals, no trailing zeros, no "-0".
inline std::string short_number(double value, int decimals) {
  char buffer[400];
  const auto end = std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::fixed, decimals).ptr;
  std::string_view text(buffer, end - buffer);
  if (text.find('.') != std::string_view::npos) {
    text = text.substr(0, text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.remove_suffix(1);
  }
  return text == "-0" ? "0" : std::string(text);
}

}  // namespace halfhard
