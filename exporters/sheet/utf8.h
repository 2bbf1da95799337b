// UTF-8 to code points and back. Bad bytes become U+FFFD, so that any text can be drawn.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace halfhard {

inline std::vector<char32_t> code_points(std::string_view text) {
  std::vector<char32_t> out;
  std::size_t i = 0;
  while (i < text.size()) {
    const unsigned char lead = text[i];
    const int more = lead < 0x80 ? 0 : lead >> 5 == 6 ? 1 : lead >> 4 == 14 ? 2 : lead >> 3 == 30 ? 3 : -1;
    char32_t c = more == 0 ? lead : more == 1 ? lead & 0x1f : more == 2 ? lead & 0x0f : lead & 0x07;
    bool good = more >= 0 && i + more < text.size();
    for (int k = 1; good && k <= more; ++k) {
      const unsigned char next = text[i + k];
      good = next >> 6 == 2;
      c = c << 6 | (next & 0x3f);
    }
    constexpr char32_t kLeast[] = {0, 0x80, 0x800, 0x10000};
    good = good && c >= kLeast[more] && c <= 0x10ffff && !(c >= 0xd800 && c < 0xe000);
    out.push_back(good ? c : U'\ufffd');
    i += good ? more + 1 : 1;
  }
  return out;
}

inline std::string utf8_of(char32_t c) {
  const auto tail = [c](int shift) { return static_cast<char>(0x80 | (c >> shift & 0x3f)); };
  if (c < 0x80) return {static_cast<char>(c)};
  if (c < 0x800) return {static_cast<char>(0xc0 | c >> 6), tail(0)};
  if (c < 0x10000) return {static_cast<char>(0xe0 | c >> 12), tail(6), tail(0)};
  return {static_cast<char>(0xf0 | c >> 18), tail(12), tail(6), tail(0)};
}

}  // namespace halfhard
