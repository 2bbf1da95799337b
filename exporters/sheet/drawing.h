// The neutral drawing: what stands on a sheet of paper, before any file format. Three writers draw it alike: dxf/dxf.h,
// pdf/pdf.h, svg/svg.h.
// Sheet coordinates: mm on the paper, origin bottom left, x right, y up. Angles are degrees, anticlockwise from x.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include <Eigen/Core>

#include "geometry/plan/plan.h"

namespace halfhard {

using Vec2 = Eigen::Vector2d;

// Contract, section 4: OUTLINE HIDDEN CENTRE DIMENSION TEXT TABLE FRAME MARK FIXTURE.
enum class Layer { outline, hidden, centre, dimension, text, table, frame, mark, fixture };
const char* layer_name(Layer layer);

// ISO 128: hidden edges dashed, centre lines chain, neighbouring parts and end positions double chain. The others tell
// runs apart in black and white.
enum class LineStyle { continuous, dashed, chain, double_chain, dotted, long_dashed };

struct Colour {
  double red = 0, green = 0, blue = 0;  // 0 to 1
  friend bool operator==(const Colour&, const Colour&) = default;
};

// Widths from the ISO 128 series .18 .25 .35 .5 .7. Every drawing reads without its colours.
struct Pen {
  Layer layer = Layer::outline;
  LineStyle style = LineStyle::continuous;
  double width_mm = 0.5;
  std::optional<Colour> colour;  // black where not set
  friend bool operator==(const Pen&, const Pen&) = default;
};
// The usual pen of a layer: outlines .5, frame .7, hidden .25 dashed, centre .25 chain, the others .25.
Pen pen_of(Layer layer);

struct Polyline {
  std::vector<Vec2> points;  // at least two
  bool closed = false;
  Pen pen;
};

// A circle where sweep is 360. 0 < sweep <= 360.
struct ArcCurve {
  Vec2 centre = Vec2::Zero();
  double radius = 0;
  double from_deg = 0, sweep_deg = 360;
  Pen pen;
};

// centre + cos t * major + sin t * ratio * (major turned 90 anticlockwise); t from `from_deg` on by `sweep_deg` > 0.
struct EllipseArc {
  Vec2 centre = Vec2::Zero();
  Vec2 major = Vec2::UnitX();
  double ratio = 1;  // minor by major, above 0, at most 1
  double from_deg = 0, sweep_deg = 360;
  Pen pen;
};

// A filled area of one or more closed loops (even-odd), or a hatched one. The edge is not drawn: add a Polyline.
struct Hatching {
  double angle_deg = 45, spacing_mm = 2;
};
struct Area {
  std::vector<std::vector<Vec2>> loops;
  std::optional<Hatching> hatching;  // else solid
  Pen pen;                           // colour of the fill (black where not set); style and width of hatch lines
};

enum class AnchorX { left, centre, right };
enum class AnchorY { baseline, bottom, middle, top };  // middle is half the height of a capital

// One line of text, height_mm the height of its capitals (ISO 3098: 1.8 2.5 3.5 5 7).
struct Text {
  std::string content;  // UTF-8, no line breaks
  Vec2 at = Vec2::Zero();
  double height_mm = 2.5;
  AnchorX anchor_x = AnchorX::left;
  AnchorY anchor_y = AnchorY::baseline;
  double rotation_deg = 0;
  bool bold = false;
  Layer layer = Layer::text;
  std::optional<Colour> colour;
  bool clears_ground = false;  // white behind it, so that lines do not run through it
};

// A dimension keeps the points that it measures: its figure is never typed apart from the geometry.
enum class DimensionKind {
  aligned,   // first to second, straight
  linear,    // first to second along direction_deg
  angular,   // between the rays vertex->first and vertex->second, the side that line_through lies in
  radius,    // first is the centre, second a point on the arc
  diameter,  // first and second are opposite points of the circle
};
struct Dimension {
  DimensionKind kind = DimensionKind::aligned;
  Vec2 first = Vec2::Zero(), second = Vec2::Zero();
  Vec2 vertex = Vec2::Zero();        // angular only
  Vec2 line_through = Vec2::Zero();  // the dimension line or arc passes here; radius: where the text stands
  double direction_deg = 0;          // linear only
  double scale = 1;                  // true mm per sheet mm: 5 in a view at 1:5
  std::string text;                  // as read: "150", "R55", "45°"; never empty
  std::optional<Vec2> text_at;       // centre of the text where it does not stand in the middle above the line
  double text_height_mm = 2.5;
  Pen pen = {Layer::dimension, LineStyle::continuous, 0.25, std::nullopt};
};
// What it measures: true mm, or degrees.
double measured(const Dimension& dimension);
// With its text made from what it measures: "150", "R55", "ø15", "45°", feet and inches in inch jobs.
Dimension with_text(Dimension dimension, LengthUnit unit);

struct Column {
  double width_mm = 20;
  AnchorX align = AnchorX::left;
};
struct Table {
  Vec2 top_left = Vec2::Zero();
  std::vector<Column> columns;
  std::vector<std::vector<std::string>> rows;  // as many cells as columns; '\n' starts a new line in a cell
  int header_rows = 1;                         // bold, with a wide line below
  double text_height_mm = 2.5;
};
double width_mm(const Table& table);
double height_mm(const Table& table);
// Columns as wide as their widest line.
Table fitted(Table table);

using Primitive = std::variant<Polyline, ArcCurve, EllipseArc, Area, Text>;
using Entity = std::variant<Polyline, ArcCurve, EllipseArc, Area, Text, Dimension, Table>;

// What an entity is drawn with: itself, or a dimension's lines, arrows and text, or a table's lines and texts.
std::vector<Primitive> drawn(const Entity& entity);

struct SheetSize {
  std::string name;  // "A4"
  double width_mm = 0, height_mm = 0;
};
// ISO 5457 trimmed sizes. A4 stands upright unless asked otherwise.
inline const SheetSize kA4Upright{"A4", 210, 297};
inline const SheetSize kA4Lying{"A4", 297, 210};
inline const SheetSize kA3Lying{"A3", 420, 297};
inline const SheetSize kA3Upright{"A3", 297, 420};
inline const SheetSize kA2Lying{"A2", 594, 420};
inline const SheetSize kA1Lying{"A1", 841, 594};
inline const SheetSize kA0Lying{"A0", 1189, 841};

struct Sheet {
  SheetSize size = kA4Upright;
  std::string title;
  // True mm per sheet mm of the main view. DXF is written in true mm: everything on the sheet, frame too, is enlarged
  // by it, so that a view at 1:5 measures true in any reader. Views at another scale carry it in their dimensions.
  double scale = 1;
  LengthUnit unit = LengthUnit::mm;
  std::vector<Entity> entities;

  void add(Entity entity) { entities.push_back(std::move(entity)); }
  void add(std::vector<Entity> more) {
    for (Entity& entity : more) entities.push_back(std::move(entity));
  }
};

struct Document {
  std::string title;
  std::vector<Sheet> sheets;
};

// Shorthands.
inline Polyline line_between(const Vec2& from, const Vec2& to, const Pen& pen) { return {{from, to}, false, pen}; }
inline ArcCurve circle(const Vec2& centre, double radius, const Pen& pen) { return {centre, radius, 0, 360, pen}; }
Polyline rectangle(const Vec2& corner, const Vec2& opposite, const Pen& pen);

}  // namespace halfhard
