#include "exporters/report/json_writer.h"

#include <charconv>
#include <cmath>

#include "geometry/base/require.h"

namespace halfhard {

std::string exact_number(double value) {
  HALFHARD_REQUIRE(std::isfinite(value));
  if (value == 0) return "0";  // also -0
  char buffer[32];
  return {buffer, std::to_chars(buffer, buffer + sizeof buffer, value).ptr};
}

std::string json_string(std::string_view text) {
  std::string quoted = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') {
      quoted += '\\';
      quoted += c;
    } else if (static_cast<unsigned char>(c) < 0x20) {
      constexpr char kHex[] = "0123456789abcdef";
      quoted += "\\u00";
      quoted += kHex[c >> 4];
      quoted += kHex[c & 15];
    } else {
      quoted += c;
    }
  }
  quoted += '"';
  return quoted;
}

void JsonWriter::new_line() {
  text_ += '\n';
  text_.append(levels_.size(), ' ');
}

void JsonWriter::separate() {
  constexpr std::size_t kPiece = 1 << 16;
  if (sink_ && text_.size() >= kPiece) {
    sink_(text_);
    text_.clear();
  }
  if (after_key_) {
    after_key_ = false;
    return;
  }
  if (levels_.empty()) return;
  if (!first_) text_ += ',';
  new_line();
  first_ = false;
}

void JsonWriter::open(Level level, char bracket) {
  separate();
  text_ += bracket;
  levels_.push_back(level);
  first_ = true;
}

void JsonWriter::close(char bracket) {
  HALFHARD_REQUIRE(!levels_.empty() && !after_key_);
  levels_.pop_back();
  if (!first_) new_line();
  text_ += bracket;
  first_ = false;
}

JsonWriter& JsonWriter::begin_object() {
  open(Level::object, '{');
  return *this;
}
JsonWriter& JsonWriter::end_object() {
  close('}');
  return *this;
}
JsonWriter& JsonWriter::begin_array() {
  open(Level::array, '[');
  return *this;
}
JsonWriter& JsonWriter::end_array() {
  close(']');
  return *this;
}

JsonWriter& JsonWriter::key(std::string_view name) {
  HALFHARD_REQUIRE(!levels_.empty() && levels_.back() == Level::object && !after_key_);
  separate();
  text_ += json_string(name) + ": ";
  after_key_ = true;
  return *this;
}

JsonWriter& JsonWriter::value(double number) {
  separate();
  text_ += exact_number(number);
  return *this;
}
JsonWriter& JsonWriter::value(int number) {
  separate();
  text_ += std::to_string(number);
  return *this;
}
JsonWriter& JsonWriter::value(bool yes) {
  separate();
  text_ += yes ? "true" : "false";
  return *this;
}
JsonWriter& JsonWriter::value(std::string_view text) {
  separate();
  text_ += json_string(text);
  return *this;
}
JsonWriter& JsonWriter::value(const Vec3& vector) {
  separate();
  text_ += "[" + exact_number(vector.x()) + ", " + exact_number(vector.y()) + ", " + exact_number(vector.z()) + "]";
  return *this;
}
JsonWriter& JsonWriter::null() {
  separate();
  text_ += "null";
  return *this;
}

std::string JsonWriter::take() {
  HALFHARD_REQUIRE(levels_.empty());
  text_ += '\n';
  return std::move(text_);
}

}  // namespace halfhard
