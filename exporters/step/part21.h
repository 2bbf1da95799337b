// The text of an exchange file as ISO 10303-21 defines it, written entity by entity: numbers are given out from 1, in
// the order of writing. Independent of the user's locale; same calls, same bytes.
#pragma once

#include <string>
#include <string_view>

#include "geometry/base/vec.h"

namespace halfhard {

// An entity written before.
struct EntityRef {
  int number = 0;
};

// Text of a person; see step_string.
struct Quoted {
  std::string_view utf8;
};

// 'text' with quotes and backslashes doubled, what is not ASCII as \X2\....\X0\ (beyond the first plane \X4\), control
// characters as spaces, broken UTF-8 as U+FFFD.
std::string step_string(std::string_view utf8);

class Part21Text {
 public:
  // One entity from its parts in order: texts as they stand, reals, whole numbers, vectors (three reals in brackets),
  // references, people's text.
  template <typename... Parts>
  EntityRef add(const Parts&... parts) {
    start_entity();
    (append(parts), ...);
    text_ += ";\n";
    return {last_};
  }

  // For an entity that is written in pieces: start, append..., end.
  void start_entity();
  EntityRef end_entity();

  void append(std::string_view text) { text_ += text; }
  void append(const char* text) { text_ += text; }
  void append(double value);
  void append(int value);
  void append(const Vec3& vector);
  void append(EntityRef entity);
  void append(Quoted quoted) { text_ += step_string(quoted.utf8); }

  int last_number() const { return last_; }
  std::string take() { return std::move(text_); }

 private:
  std::string text_;
  int last_ = 0;
};

EntityRef add_point(Part21Text& text, const Vec3& point);
EntityRef add_direction(Part21Text& text, const Vec3& unit);
EntityRef add_placement(Part21Text& text, const Vec3& origin, const Vec3& axis, const Vec3& reference);

}  // namespace halfhard
