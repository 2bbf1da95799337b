#include "exporters/page/markup.h"

#include <algorithm>

namespace halfhard {

std::string html_text(std::string_view text) {
  std::string safe;
  for (const char c : text) {
    switch (c) {
      case '&':
        safe += "&amp;";
        break;
      case '<':
        safe += "&lt;";
        break;
      case '>':
        safe += "&gt;";
        break;
      case '"':
        safe += "&quot;";
        break;
      case '\'':
        safe += "&#39;";
        break;
      default:
        safe += static_cast<unsigned char>(c) < 0x20 || c == 0x7F ? ' ' : c;
    }
  }
  return safe;
}

std::string json_text(std::string_view text) {
  std::string safe = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') {
      safe += '\\';
      safe += c;
    } else if (static_cast<unsigned char>(c) < 0x20 || c == '<' || c == '>' || c == '&') {
      safe += "\\u00";
      safe += "0123456789abcdef"[c >> 4 & 0xF];
      safe += "0123456789abcdef"[c & 0xF];
    } else {
      safe += c;
    }
  }
  return safe + '"';
}

std::string base64(std::string_view bytes) {
  constexpr std::string_view kLetters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string text;
  text.reserve(bytes.size() / 3 * 4 + 4);
  for (std::size_t at = 0; at < bytes.size(); at += 3) {
    const std::size_t count = std::min<std::size_t>(3, bytes.size() - at);
    unsigned group = 0;
    for (std::size_t i = 0; i < 3; ++i) {
      group = group << 8 | (i < count ? static_cast<unsigned char>(bytes[at + i]) : 0u);
    }
    for (std::size_t i = 0; i < 4; ++i) text += i <= count ? kLetters[group >> (18 - 6 * i) & 63] : '=';
  }
  return text;
}

std::string inline_svg(std::string_view svg, int number) {
  const std::size_t begin = svg.find("<svg");
  if (begin == std::string_view::npos) return "";
  const std::string mark = "s" + std::to_string(number) + "-";
  std::string text;
  const std::string_view rest = svg.substr(begin);
  for (std::size_t at = 0; at < rest.size();) {
    bool marked = false;
    for (const std::string_view before : {" id=\"", "href=\"#", "url(#"}) {
      if (rest.substr(at).starts_with(before)) {
        text += before;
        text += mark;
        at += before.size();
        marked = true;
        break;
      }
    }
    if (!marked) text += rest[at++];
  }
  return text;
}

}  // namespace halfhard
