// Writes JSON text straight out: numbers as the shortest text that reads back as the same double, never -0 and never
// NaN or infinity; keys in the order written. (The JSON library's own numbers are not always the shortest.)
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include "geometry/base/angle.h"
#include "geometry/base/vec.h"

namespace halfhard {

// Shortest text that reads back as the same double; independent of the locale. Requires (asserted) a finite value.
std::string exact_number(double value);
// With quotes; control characters escaped. Requires UTF-8.
std::string json_string(std::string_view text);

class JsonWriter {
 public:
  // Takes the text piece by piece, in order; a long text then never stands in memory whole.
  using Sink = std::function<void(std::string_view)>;
  JsonWriter() = default;
  explicit JsonWriter(Sink sink) : sink_(std::move(sink)) {}

  JsonWriter& begin_object();
  JsonWriter& end_object();
  JsonWriter& begin_array();
  JsonWriter& end_array();
  JsonWriter& key(std::string_view name);

  JsonWriter& value(double number);
  JsonWriter& value(int number);
  JsonWriter& value(bool yes);
  JsonWriter& value(std::string_view text);
  JsonWriter& value(const char* text) { return value(std::string_view(text)); }
  JsonWriter& value(const Vec3& vector);
  JsonWriter& null();

  template <class T>
  JsonWriter& member(std::string_view name, const T& member_value) {
    key(name);
    return value(member_value);
  }

  // The text, ended by a line feed; what the sink has not had yet, where there is one. Requires that everything begun is
  // ended.
  std::string take();

 private:
  enum class Level { object, array };
  void open(Level level, char bracket);
  void close(char bracket);
  void separate();
  void new_line();

  Sink sink_;
  std::string text_;
  std::vector<Level> levels_;
  bool first_ = true;
  bool after_key_ = false;
};

}  // namespace halfhard
