#include "exporters/sheet/text_metrics.h"

#include <cmath>
#include <numbers>

#include "exporters/sheet/fonts.h"
#include "exporters/sheet/utf8.h"

namespace halfhard {
namespace {

constexpr double kLineStep = 1.6;
// How far letters reach below the baseline and accents above the capitals, in capital heights (DejaVu Sans: descent of
// "g" 0.285, brackets 0.18 below).
constexpr double kBelow = 0.29;
constexpr double kAbove = 0.08;

// Cuts a word that is too wide for a line by itself.
void add_word_cut(std::vector<std::string>& lines, const std::string& word, double width_mm, double height_mm,
                  bool bold) {
  for (const char32_t c : code_points(word)) {
    const std::string longer = lines.back() + utf8_of(c);
    if (!lines.back().empty() && text_width_mm(longer, height_mm, bold) > width_mm) {
      lines.push_back(utf8_of(c));
    } else {
      lines.back() = longer;
    }
  }
}

}  // namespace

std::string drawable(const std::string& content) { return lay_line(content, false).content; }

double text_width_mm(const std::string& content, double height_mm, bool bold) {
  return lay_line(content, bold).width * height_mm;
}

std::string shortened(const std::string& content, double width_mm, double height_mm, bool bold) {
  if (text_width_mm(content, height_mm, bold) <= width_mm) return content;
  std::string kept;
  for (const char32_t c : code_points(content)) {
    if (text_width_mm(kept + utf8_of(c) + "...", height_mm, bold) > width_mm) break;
    kept += utf8_of(c);
  }
  return kept + "...";
}

std::vector<std::string> wrapped(const std::string& paragraph_text, double width_mm, double height_mm, bool bold) {
  std::vector<std::string> lines(1);
  std::string word;
  const auto end_word = [&] {
    if (word.empty()) return;
    const std::string longer = lines.back().empty() ? word : lines.back() + ' ' + word;
    if (text_width_mm(longer, height_mm, bold) <= width_mm) {
      lines.back() = longer;
    } else {
      if (!lines.back().empty()) lines.emplace_back();
      add_word_cut(lines, word, width_mm, height_mm, bold);
    }
    word.clear();
  };
  for (const char c : paragraph_text) {
    if (c == ' ' || c == '\n' || c == '\t' || c == '\r') {
      end_word();
      if (c == '\n') lines.emplace_back();
    } else {
      word += c;
    }
  }
  end_word();
  return lines;
}

Paragraph paragraph(const std::string& content, const Vec2& top_left, double width_mm, double height_mm, bool bold,
                    double line_step_mm) {
  const double step = line_step_mm > 0 ? line_step_mm : kLineStep * height_mm;
  Paragraph out;
  double baseline = top_left.y() - height_mm;
  for (const std::string& line : wrapped(content, width_mm, height_mm, bold)) {
    if (!line.empty()) {
      Text text;
      text.content = line;
      text.at = {top_left.x(), baseline};
      text.height_mm = height_mm;
      text.bold = bold;
      out.texts.push_back(text);
    }
    baseline -= step;
  }
  out.height_mm = top_left.y() - (baseline + step) + kBelow * height_mm;
  return out;
}

Vec2 start_of(const Text& text, double width_mm) {
  const double h = text.height_mm;
  const double left = text.anchor_x == AnchorX::left ? 0 : text.anchor_x == AnchorX::centre ? -width_mm / 2 : -width_mm;
  double baseline = 0;
  if (text.anchor_y == AnchorY::bottom) baseline = kBelow * h;
  if (text.anchor_y == AnchorY::middle) baseline = -h / 2;
  if (text.anchor_y == AnchorY::top) baseline = -h;
  return {left, baseline};
}

TextBox box_of(const Text& text) {
  const double h = text.height_mm;
  const double width = text_width_mm(text.content, h, text.bold);
  const Vec2 start = start_of(text, width);
  const double left = start.x(), baseline = start.y();
  // Only as deep as its letters: a figure has no descender.
  const bool deep = text.content.find_first_of("gjpqy,;()[]{}|/@QJ_$") != std::string::npos;
  const double below = deep ? kBelow * h : 0;
  const double angle = text.rotation_deg * std::numbers::pi / 180;
  const Vec2 u(std::cos(angle), std::sin(angle));
  const Vec2 v(-u.y(), u.x());
  const auto corner = [&](double x, double y) { return Vec2(text.at + x * u + y * v); };
  const double low = baseline - below;
  const double high = baseline + h * (1 + kAbove);
  return {text.content, {corner(left, low), corner(left + width, low), corner(left + width, high), corner(left, high)}};
}

}  // namespace halfhard
