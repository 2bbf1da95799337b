#include "exporters/dxf/entities.h"

#include <cmath>
#include <numbers>

#include "exporters/sheet/outline_points.h"
#include "exporters/sheet/text_metrics.h"

namespace halfhard {
namespace {

constexpr double kRadians = std::numbers::pi / 180;

class Writer {
 public:
  Writer(Tags& out, Handles& handles, const std::string& owner, double scale)
      : out_(out), handles_(handles), owner_(owner), scale_(scale) {}

  void operator()(const Polyline& line) {
    if (line.points.size() == 2 && !line.closed) {
      begin("LINE", line.pen);
      out_(100, "AcDbLine").point(10, at(line.points[0])).point(11, at(line.points[1]));
      return;
    }
    begin("LWPOLYLINE", line.pen);
    out_(100, "AcDbPolyline")(90, static_cast<int>(line.points.size()))(70, line.closed ? 1 : 0)(43, 0.0);
    for (const Vec2& p : line.points) out_.flat_point(10, at(p));
  }
  void operator()(const ArcCurve& arc) {
    const bool whole = arc.sweep_deg >= 360 - 1e-9;
    begin(whole ? "CIRCLE" : "ARC", arc.pen);
    out_(100, "AcDbCircle").point(10, at(arc.centre))(40, arc.radius * scale_);
    if (!whole) out_(100, "AcDbArc")(50, turned(arc.from_deg))(51, turned(arc.from_deg + arc.sweep_deg));
  }
  void operator()(const EllipseArc& ellipse) {
    begin("ELLIPSE", ellipse.pen);
    const bool whole = ellipse.sweep_deg >= 360 - 1e-9;
    const double from = whole ? 0 : turned(ellipse.from_deg) * kRadians;
    const double to = whole ? 2 * std::numbers::pi : from + ellipse.sweep_deg * kRadians;
    out_(100, "AcDbEllipse").point(10, at(ellipse.centre)).point(11, at(ellipse.major));
    out_(40, ellipse.ratio)(41, from)(42, to);
  }
  void operator()(const Area& area) {
    if (area.hatching) {
      for (const Polyline& line : hatch_lines(area)) (*this)(line);
    } else if (area.loops.size() == 1 && (area.loops[0].size() == 3 || area.loops[0].size() == 4)) {
      solid(area);
    } else {
      hatch(area);
    }
  }
  void operator()(const Text& text) {
    Pen pen{text.layer, LineStyle::continuous, text.bold ? 0.35 : 0.25, text.colour};
    begin("TEXT", pen);
    constexpr int kHorizontal[] = {0, 1, 2};
    const int vertical = text.anchor_y == AnchorY::baseline ? 0
                         : text.anchor_y == AnchorY::bottom ? 1
                         : text.anchor_y == AnchorY::middle ? 2
                                                            : 3;
    const int horizontal = kHorizontal[static_cast<int>(text.anchor_x)];
    // The left end of the baseline is always given; the anchor beside it where it is another point.
    const double angle = text.rotation_deg * kRadians;
    const Vec2 start = start_of(text, text_width_mm(text.content, text.height_mm, text.bold));
    const Vec2 left = text.at + Vec2(std::cos(angle) * start.x() - std::sin(angle) * start.y(),
                                     std::sin(angle) * start.x() + std::cos(angle) * start.y());
    out_(100, "AcDbText").point(10, at(left))(40, text.height_mm * scale_)(1, dxf_text(drawable(text.content)));
    if (text.rotation_deg != 0) out_(50, turned(text.rotation_deg));
    out_(7, text.bold ? "HALFHARD_BOLD" : "HALFHARD");
    if (horizontal != 0) out_(72, horizontal);
    if (horizontal != 0 || vertical != 0) out_.point(11, at(text.at));
    out_(100, "AcDbText");
    if (vertical != 0) out_(73, vertical);
  }

 private:
  void begin(const char* type, const Pen& pen) { dxf_begin(out_, handles_, owner_, type, pen); }
  Vec2 at(const Vec2& p) const { return p * scale_; }
  static double turned(double degrees) {
    const double rest = std::fmod(degrees, 360.0);
    return rest < 0 ? rest + 360 : rest;
  }
  void solid(const Area& area) {
    const std::vector<Vec2>& p = area.loops[0];
    begin("SOLID", area.pen);
    // Its third and fourth corners are crossed over.
    out_(100, "AcDbTrace").point(10, at(p[0])).point(11, at(p[1]));
    out_.point(12, at(p.size() == 3 ? p[2] : p[3])).point(13, at(p[2]));
  }
  void hatch(const Area& area) {
    begin("HATCH", area.pen);
    out_(100, "AcDbHatch").point(10, {0, 0})(210, 0.0)(220, 0.0)(230, 1.0)(2, "SOLID")(70, 1)(71, 0);
    out_(91, static_cast<int>(area.loops.size()));
    for (const auto& loop : area.loops) {
      out_(92, &loop == &area.loops.front() ? 3 : 2)(72, 0)(73, 1)(93, static_cast<int>(loop.size()));
      for (const Vec2& p : loop) out_.flat_point(10, at(p));
      out_(97, 0);
    }
    out_(75, 0)(76, 1)(98, 0);
  }

  Tags& out_;
  Handles& handles_;
  const std::string& owner_;
  double scale_;
};

}  // namespace

const char* dxf_line_type(LineStyle style) {
  switch (style) {
    case LineStyle::continuous:
      break;
    case LineStyle::dashed:
      return "DASHED";
    case LineStyle::chain:
      return "CHAIN";
    case LineStyle::double_chain:
      return "DOUBLE_CHAIN";
    case LineStyle::dotted:
      return "DOTTED";
    case LineStyle::long_dashed:
      return "LONG_DASHED";
  }
  return "Continuous";
}

void dxf_begin(Tags& out, Handles& handles, const std::string& owner, const char* type, const Pen& pen) {
  out(0, type)(5, handles.next())(330, owner)(100, "AcDbEntity")(8, layer_name(pen.layer));
  out(6, dxf_line_type(pen.style));
  if (pen.colour) {
    const auto level = [](double part) {
      return static_cast<int>(std::lround(std::fmin(std::fmax(part, 0), 1) * 255));
    };
    out(420, level(pen.colour->red) * 65536 + level(pen.colour->green) * 256 + level(pen.colour->blue));
  }
  out(370, static_cast<int>(std::lround(pen.width_mm * 100)));
}

void dxf_primitive(Tags& out, Handles& handles, const std::string& owner, const Primitive& primitive, double scale) {
  std::visit(Writer(out, handles, owner, scale), primitive);
}

}  // namespace halfhard
