#include "exporters/svg/svg.h"

#include <cmath>
#include <map>
#include <numbers>

#include "exporters/sheet/fonts.h"
#include "exporters/sheet/line_pattern.h"
#include "exporters/sheet/number.h"
#include "exporters/sheet/outline_points.h"
#include "exporters/sheet/text_metrics.h"

namespace halfhard {
namespace {

std::string n(double value) { return short_number(value, 4); }

std::string hex(const std::optional<Colour>& colour) {
  const Colour c = colour.value_or(Colour{});
  std::string out = "#";
  for (const double part : {c.red, c.green, c.blue}) {
    const int level = static_cast<int>(std::lround(std::fmin(std::fmax(part, 0), 1) * 255));
    out += "0123456789abcdef"[level / 16];
    out += "0123456789abcdef"[level % 16];
  }
  return out;
}

std::string escaped(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == '&') {
      out += "&amp;";
    } else if (c == '<') {
      out += "&lt;";
    } else if (c == '>') {
      out += "&gt;";
    } else if (c == '"') {
      out += "&quot;";
    } else {
      out += c;
    }
  }
  return out;
}

class Writer {
 public:
  explicit Writer(double height) : height_(height) {}

  void operator()(const Polyline& line) {
    std::string data;
    for (const Vec2& p : line.points) data += (data.empty() ? "M" : "L") + at(p);
    if (line.closed) data += 'Z';
    stroke(data, line.pen);
  }
  void operator()(const ArcCurve& arc) {
    if (arc.sweep_deg >= 360 - 1e-9) {
      body_ += "<circle cx=\"" + n(arc.centre.x()) + "\" cy=\"" + n(height_ - arc.centre.y()) + "\" r=\"" +
               n(arc.radius) + "\"" + stroke_attributes(arc.pen) + "/>\n";
      return;
    }
    const Vec2 from = point_on(arc, arc.from_deg);
    const Vec2 to = point_on(arc, arc.from_deg + arc.sweep_deg);
    stroke("M" + at(from) + arc_to(arc.radius, arc.radius, 0, arc.sweep_deg > 180, to), arc.pen);
  }
  void operator()(const EllipseArc& ellipse) {
    const double major = ellipse.major.norm();
    const double turn = -std::atan2(ellipse.major.y(), ellipse.major.x()) * 180 / std::numbers::pi;
    // In halves, so that a whole ellipse needs no case of its own.
    std::string data = "M" + at(point_on(ellipse, ellipse.from_deg));
    for (const double part : {0.5, 1.0})
      data += arc_to(major, major * ellipse.ratio, turn, false,
                     point_on(ellipse, ellipse.from_deg + part * ellipse.sweep_deg));
    stroke(data, ellipse.pen);
  }
  void operator()(const Area& area) {
    if (area.hatching) {
      for (const Polyline& line : hatch_lines(area)) (*this)(line);
      return;
    }
    std::string data;
    for (const auto& loop : area.loops) {
      for (std::size_t i = 0; i < loop.size(); ++i) data += (i == 0 ? "M" : "L") + at(loop[i]);
      data += 'Z';
    }
    body_ += "<path d=\"" + data + "\" fill=\"" + hex(area.pen.colour) + "\" fill-rule=\"evenodd\"/>\n";
  }
  void operator()(const Text& text) {
    const LaidLine line = lay_line(text.content, text.bold);
    const Vec2 start = start_of(text, line.width * text.height_mm);
    if (text.clears_ground) clear(box_of(text));
    const std::string place = "translate(" + n(text.at.x()) + ' ' + n(height_ - text.at.y()) + ")" +
                              (text.rotation_deg != 0 ? " rotate(" + n(-text.rotation_deg) + ")" : "") + " translate(" +
                              n(start.x()) + ' ' + n(-start.y()) + ")";
    body_ += "<g transform=\"" + place + " scale(" + n(text.height_mm) + ")\" fill=\"" + hex(text.colour) + "\">";
    for (const PlacedGlyph& glyph : line.glyphs) {
      const std::string id = glyph_id(glyph);
      if (!id.empty()) body_ += "<use href=\"#" + id + "\" x=\"" + n(glyph.x) + "\"/>";
    }
    // The words themselves, unseen: to search, select and read aloud.
    body_ += "<text opacity=\"0\" font-size=\"1.37\" textLength=\"" + n(line.width) +
             "\" lengthAdjust=\"spacingAndGlyphs\">" + escaped(line.content) + "</text></g>\n";
  }

  std::string definitions() const { return "<defs>\n" + definitions_ + "</defs>\n"; }
  const std::string& body() const { return body_; }

 private:
  std::string at(const Vec2& p) const { return n(p.x()) + ' ' + n(height_ - p.y()); }
  // Anticlockwise on the sheet, whose y is turned over here.
  std::string arc_to(double rx, double ry, double turn, bool large, const Vec2& to) const {
    return "A" + n(rx) + ' ' + n(ry) + ' ' + n(turn) + (large ? " 1 0 " : " 0 0 ") + at(to);
  }
  static std::string stroke_attributes(const Pen& pen) {
    std::string out = " fill=\"none\" stroke=\"" + hex(pen.colour) + "\" stroke-width=\"" + n(pen.width_mm) + "\"";
    std::string dashes;
    for (const double length : line_pattern_mm(pen.style)) dashes += (dashes.empty() ? "" : " ") + n(length);
    if (!dashes.empty()) out += " stroke-dasharray=\"" + dashes + "\"";
    return out + " class=\"" + layer_name(pen.layer) + "\"";
  }
  void stroke(const std::string& data, const Pen& pen) {
    body_ += "<path d=\"" + data + "\"" + stroke_attributes(pen) + "/>\n";
  }
  void clear(const TextBox& box) {
    std::string data;
    for (const Vec2& p : box.corners) data += (data.empty() ? "M" : "L") + at(p);
    body_ += "<path d=\"" + data + "Z\" fill=\"#ffffff\"/>\n";
  }
  // Each glyph is drawn once and used by name.
  std::string glyph_id(const PlacedGlyph& glyph) {
    const auto key = std::make_pair(glyph.font, glyph.glyph);
    const auto known = ids_.find(key);
    if (known != ids_.end()) return known->second;
    const std::string path = glyph_path(glyph.font, glyph.glyph);
    std::string id;
    if (!path.empty()) {
      id = "g" + std::to_string(glyph.font) + "-" + std::to_string(glyph.glyph);
      definitions_ += "<path id=\"" + id + "\" d=\"" + path + "\"/>\n";
    }
    return ids_[key] = id;
  }

  double height_;
  std::string definitions_, body_;
  std::map<std::pair<int, unsigned long>, std::string> ids_;
};

}  // namespace

std::string svg(const Sheet& sheet) {
  Writer writer(sheet.size.height_mm);
  for (const Entity& entity : sheet.entities)
    for (const Primitive& primitive : drawn(entity))
      std::visit([&writer](const auto& shape) { writer(shape); }, primitive);
  const std::string w = n(sheet.size.width_mm), h = n(sheet.size.height_mm);
  return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"" + w +
         "mm\" height=\"" + h + "mm\" viewBox=\"0 0 " + w + ' ' + h + "\" stroke-linejoin=\"round\">\n<title>" +
         escaped(drawable(sheet.title)) + "</title>\n" + writer.definitions() +
         "<rect width=\"100%\" height=\"100%\" fill=\"#ffffff\"/>\n" + writer.body() + "</svg>\n";
}

}  // namespace halfhard
