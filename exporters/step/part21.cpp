#include "exporters/step/part21.h"

#include <charconv>
#include <cmath>
#include <cstdint>

namespace halfhard {
namespace {

constexpr std::uint32_t kReplacement = 0xFFFD;

// The next character of `utf8` from `at` on, which is moved past it.
std::uint32_t next_character(std::string_view utf8, std::size_t& at) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(utf8[i]); };
  const unsigned char first = byte(at++);
  if (first < 0x80) return first;
  const int more = first >= 0xF0 ? 3 : first >= 0xE0 ? 2 : 1;
  if (first < 0xC2 || first > 0xF4) return kReplacement;
  std::uint32_t character = first & (0x3F >> more);
  for (int i = 0; i < more; ++i) {
    if (at >= utf8.size() || (byte(at) & 0xC0) != 0x80) return kReplacement;
    character = character << 6 | (byte(at++) & 0x3F);
  }
  const bool surrogate = character >= 0xD800 && character <= 0xDFFF;
  return surrogate || character > 0x10FFFF ? kReplacement : character;
}

void append_hex(std::string& text, std::uint32_t value, int digits) {
  for (int shift = 4 * (digits - 1); shift >= 0; shift -= 4) text += "0123456789ABCDEF"[value >> shift & 0xF];
}

}  // namespace

std::string step_string(std::string_view utf8) {
  std::string text = "'";
  int open = 0;  // hex digits a character in the escape that stands open
  const auto escape_to = [&](int digits) {
    if (open == digits) return;
    if (open != 0) text += "\\X0\\";
    if (digits != 0) text += digits == 4 ? "\\X2\\" : "\\X4\\";
    open = digits;
  };
  for (std::size_t at = 0; at < utf8.size();) {
    const std::uint32_t character = next_character(utf8, at);
    if (character < 0x7F) {
      escape_to(0);
      const char plain = character < 0x20 ? ' ' : static_cast<char>(character);
      if (plain == '\'' || plain == '\\') text += plain;
      text += plain;
    } else if (character < 0xA0) {  // control characters beyond ASCII
      escape_to(0);
      text += ' ';
    } else {
      escape_to(character > 0xFFFF ? 8 : 4);
      append_hex(text, character, open);
    }
  }
  escape_to(0);
  return text + "'";
}

void Part21Text::start_entity() {
  ++last_;
  append(EntityRef{last_});
  text_ += '=';
}

EntityRef Part21Text::end_entity() {
  text_ += ";\n";
  return {last_};
}

void Part21Text::append(EntityRef entity) {
  text_ += '#';
  append(entity.number);
}

void Part21Text::append(int value) {
  char digits[16];
  text_.append(digits, std::to_chars(digits, digits + sizeof digits, value).ptr);
}

// The shortest text that reads back as the same double; the standard asks for a point in every real and a capital E.
void Part21Text::append(double value) {
  if (value == 0) {
    text_ += "0.";
    return;
  }
  char digits[32];
  const char* end = std::to_chars(digits, digits + sizeof digits, value).ptr;
  bool point = false;
  for (const char* at = digits; at != end; ++at) {
    if (*at == '.') point = true;
    if (*at != 'e') {
      text_ += *at;
      continue;
    }
    if (!point) text_ += '.';
    point = true;
    text_ += 'E';
  }
  if (!point) text_ += '.';
}

void Part21Text::append(const Vec3& vector) {
  text_ += '(';
  append(vector.x());
  text_ += ',';
  append(vector.y());
  text_ += ',';
  append(vector.z());
  text_ += ')';
}

EntityRef add_point(Part21Text& text, const Vec3& point) { return text.add("CARTESIAN_POINT('',", point, ")"); }

EntityRef add_direction(Part21Text& text, const Vec3& unit) {
  // What rounding has left of a 0 is no direction.
  const Vec3 clean = unit.unaryExpr([](double x) { return std::abs(x) < 1e-15 ? 0.0 : x; });
  return text.add("DIRECTION('',", clean, ")");
}

EntityRef add_placement(Part21Text& text, const Vec3& origin, const Vec3& axis, const Vec3& reference) {
  const EntityRef at = add_point(text, origin);
  const EntityRef z = add_direction(text, axis);
  const EntityRef x = add_direction(text, reference);
  return text.add("AXIS2_PLACEMENT_3D('',", at, ",", z, ",", x, ")");
}

}  // namespace halfhard
