#include "modeller/make/file_names.h"

#include <algorithm>

namespace halfhard {
namespace {

bool plain(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_';
}
bool continues_a_character(char c) { return (static_cast<unsigned char>(c) & 0xC0) == 0x80; }
char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

}  // namespace

std::string safe_name(std::string_view text) {
  std::string safe;
  for (const char c : text) {
    if (plain(c)) {
      safe += c;
    } else if (!continues_a_character(c)) {
      safe += '_';
    }
  }
  return safe.empty() ? "_" : safe;
}

std::string UniqueNames::name_for(std::string_view text) {
  const std::string safe = safe_name(text);
  std::string name = safe;
  for (int k = 2;; ++k) {
    std::string key = name;
    std::transform(key.begin(), key.end(), key.begin(), lower);
    if (taken_.insert(key).second) return name;
    name = safe + "_" + std::to_string(k);
  }
}

}  // namespace halfhard
