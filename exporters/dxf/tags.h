// The lowest layer of DXF: group codes with their values, one a line, and handles.
#pragma once

#include <string>

#include "exporters/sheet/drawing.h"
#include "exporters/sheet/number.h"

namespace halfhard {

// Hands out handles 1, 2, 3, ... in hexadecimal.
class Handles {
 public:
  std::string next() { return hex(++last_); }
  std::string seed() const { return hex(last_ + 1); }

 private:
  static std::string hex(unsigned value) {
    std::string out;
    for (; value > 0; value /= 16) out.insert(out.begin(), "0123456789ABCDEF"[value % 16]);
    return out;
  }
  unsigned last_ = 0x1f;
};

class Tags {
 public:
  Tags& operator()(int code, const std::string& value) {
    text_ += std::to_string(code) + '\n' + value + '\n';
    return *this;
  }
  Tags& operator()(int code, const char* value) { return (*this)(code, std::string(value)); }
  Tags& operator()(int code, int value) { return (*this)(code, std::to_string(value)); }
  // Enough digits for any length of ours to 1e-9 mm.
  Tags& operator()(int code, double value) {
    std::string text = short_number(value, 10);
    if (text.find('.') == std::string::npos) text += ".0";
    return (*this)(code, text);
  }
  Tags& point(int code, const Vec2& p) { return (*this)(code, p.x())(code + 10, p.y())(code + 20, 0.0); }
  Tags& flat_point(int code, const Vec2& p) { return (*this)(code, p.x())(code + 10, p.y()); }
  Tags& append(const Tags& other) {
    text_ += other.text_;
    return *this;
  }
  const std::string& text() const { return text_; }

 private:
  std::string text_;
};

// Text as DXF wants it: %% and ^ start codes there.
inline std::string dxf_text(const std::string& content) {
  std::string out;
  for (std::size_t i = 0; i < content.size(); ++i) {
    if (content[i] == '^') {
      out += "^ ";
    } else if (content[i] == '%' && i + 1 < content.size() && content[i + 1] == '%') {
      out += "%%%";
    } else {
      out += content[i];
    }
  }
  return out;
}

}  // namespace halfhard
