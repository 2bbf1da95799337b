#include "viewer/vtk/overlay.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <vtkFloatArray.h>
#include <vtkPointData.h>
#include <vtkTexturedActor2D.h>
#include <vtkUnsignedCharArray.h>

#include "viewer/label_layout.h"

namespace halfhard {
namespace {

struct Spot {
  double x = 0, y = 0;
};

constexpr int kCorners = 16;  // of a disc

// Flat shapes in pixels. Everything is polygons, so that what is added later covers what was added before. Shapes take
// the image's white spot in their colour, texts their part of the image: all is drawn in one go.
class Shapes {
 public:
  void polygon(const std::vector<Spot>& corners, const Colour& colour, double opacity = 1) {
    for (size_t i = 0; i < corners.size(); ++i) places_->InsertNextTuple2(-1, -1);
    add(corners, colour, opacity);
  }
  // A text's part of the image, in its own colours.
  void image(Spot low, double width, double height, const TextAtlas::Place& part) {
    places_->InsertNextTuple2(part.left, part.low);
    places_->InsertNextTuple2(part.right, part.low);
    places_->InsertNextTuple2(part.right, part.high);
    places_->InsertNextTuple2(part.left, part.high);
    add({low, {low.x + width, low.y}, {low.x + width, low.y + height}, {low.x, low.y + height}}, {1, 1, 1}, 1);
  }
  void line(Spot from, Spot to, double width, const Colour& colour) {
    const double dx = to.x - from.x, dy = to.y - from.y, length = std::hypot(dx, dy);
    if (length < 1e-6) return;
    const double nx = -dy / length * width / 2, ny = dx / length * width / 2;
    polygon({{from.x - nx, from.y - ny}, {to.x - nx, to.y - ny}, {to.x + nx, to.y + ny}, {from.x + nx, from.y + ny}},
            colour);
  }
  void rectangle(double x, double y, double width, double height, const Colour& colour, double opacity = 1) {
    polygon({{x, y}, {x + width, y}, {x + width, y + height}, {x, y + height}}, colour, opacity);
  }
  void disc(Spot centre, double radius, const Colour& colour) {
    std::vector<Spot> rim;
    for (int i = 0; i < kCorners; ++i) {
      const double angle = 2 * std::numbers::pi * i / kCorners;
      rim.push_back({centre.x + radius * std::cos(angle), centre.y + radius * std::sin(angle)});
    }
    polygon(rim, colour);
  }
  void give_to(vtkPolyData* data, const TextAtlas::Place& white) const {
    for (vtkIdType i = 0; i < places_->GetNumberOfTuples(); ++i)
      if (places_->GetComponent(i, 0) < 0) places_->SetTuple2(i, white.left, white.low);
    data->GetPointData()->SetTCoords(places_);
    data->SetPoints(points_);
    data->SetPolys(polygons_);
    data->GetPointData()->SetScalars(colours_);
    data->Modified();
  }
  Shapes() {
    colours_->SetNumberOfComponents(4);
    places_->SetNumberOfComponents(2);
  }

 private:
  void add(const std::vector<Spot>& corners, const Colour& colour, double opacity) {
    std::vector<vtkIdType> ids;
    const unsigned char rgba[4] = {byte(colour.red), byte(colour.green), byte(colour.blue), byte(opacity)};
    for (const Spot& corner : corners) {
      ids.push_back(points_->InsertNextPoint(corner.x, corner.y, 0));
      colours_->InsertNextTypedTuple(rgba);
    }
    polygons_->InsertNextCell(static_cast<vtkIdType>(ids.size()), ids.data());
  }
  static unsigned char byte(double value) { return static_cast<unsigned char>(std::lround(255 * value)); }
  vtkSmartPointer<vtkPoints> points_ = vtkSmartPointer<vtkPoints>::New();
  vtkSmartPointer<vtkCellArray> polygons_ = vtkSmartPointer<vtkCellArray>::New();
  vtkSmartPointer<vtkFloatArray> places_ = vtkSmartPointer<vtkFloatArray>::New();  // in the image
  vtkSmartPointer<vtkUnsignedCharArray> colours_ = vtkSmartPointer<vtkUnsignedCharArray>::New();
};

struct Pen {
  Shapes shapes;
  std::vector<PlacedText> texts;
  const Theme& theme;
  double scale;
  int width, height;
};

bool signed_kind(LabelKind kind) { return kind == LabelKind::failing || kind == LabelKind::warning; }

// A triangle with a stroke and a dot: failing. A diamond outline: doubtful.
void draw_sign(Pen& pen, LabelKind kind, Spot centre, double size) {
  const LabelColours colours = pen.theme.label(kind);
  if (kind == LabelKind::failing) {
    const double half = size * 0.6;
    pen.shapes.polygon({{centre.x - half, centre.y - size * 0.5},
                        {centre.x + half, centre.y - size * 0.5},
                        {centre.x, centre.y + size * 0.55}},
                       colours.frame);
    pen.shapes.rectangle(centre.x - 0.06 * size - 0.5, centre.y - size * 0.14, 0.12 * size + 1, size * 0.4,
                         colours.ground);
    pen.shapes.rectangle(centre.x - 0.06 * size - 0.5, centre.y - size * 0.38, 0.12 * size + 1, size * 0.14,
                         colours.ground);
    return;
  }
  const auto diamond = [&](double reach, const Colour& colour) {
    pen.shapes.polygon({{centre.x - reach, centre.y},
                        {centre.x, centre.y - reach},
                        {centre.x + reach, centre.y},
                        {centre.x, centre.y + reach}},
                       colour);
  };
  diamond(size * 0.52, colours.frame);
  diamond(size * 0.30, colours.ground);
}

AtlasText atlas_text(const Pen& pen, const Label& label) {
  const bool bold =
      label.kind == LabelKind::bend || label.kind == LabelKind::failing || label.kind == LabelKind::measure;
  const double size = label.kind == LabelKind::fixture ? 12 : 13;
  return {label.text, pen.theme.label(label.kind).text, static_cast<int>(std::lround(size * pen.scale)), bold};
}

void draw_label(Pen& pen, const Label& label, const LabelWanted& wanted, const LabelPlaced& placed,
                const AtlasText& text, TextAtlas::Size size) {
  const LabelColours colours = pen.theme.label(label.kind);
  const double frame = label.kind == LabelKind::failing ? 2 * pen.scale : pen.scale;
  const Spot middle{placed.x + wanted.width / 2, placed.y + wanted.height / 2};
  if (placed.leader) {
    pen.shapes.line({wanted.x, wanted.y}, middle, (label.kind == LabelKind::failing ? 2.0 : 1.0) * pen.scale,
                    pen.theme.line(label.kind == LabelKind::failing));
    pen.shapes.disc({wanted.x, wanted.y}, 2.2 * pen.scale, pen.theme.line(label.kind == LabelKind::failing));
  }
  if (label.kind == LabelKind::bend && label.text.size() < 3) {
    pen.shapes.disc(middle, wanted.width / 2, colours.frame);
    pen.shapes.disc(middle, wanted.width / 2 - frame, colours.ground);
  } else if (label.kind == LabelKind::fixture) {
    pen.shapes.rectangle(placed.x, placed.y, wanted.width, wanted.height, colours.ground, 0.6);
  } else {
    pen.shapes.rectangle(placed.x, placed.y, wanted.width, wanted.height, colours.frame);
    pen.shapes.rectangle(placed.x + frame, placed.y + frame, wanted.width - 2 * frame, wanted.height - 2 * frame,
                         colours.ground);
  }
  double left = middle.x - size.width / 2.0;
  if (signed_kind(label.kind)) {
    const double sign = wanted.height - 4 * pen.scale;
    draw_sign(pen, label.kind, {placed.x + wanted.height / 2 + 2 * pen.scale, middle.y}, sign);
    left = placed.x + wanted.height + 4 * pen.scale;
  }
  pen.texts.push_back({text, std::round(left), std::round(middle.y - size.height / 2.0)});
}

void draw_dimensions(Pen& pen, const Drawn& drawn, const ViewFrame& frame) {
  for (const DimensionLine& dimension : drawn.dimensions) {
    const Projected from = project(frame, pen.width, pen.height, dimension.from);
    const Projected to = project(frame, pen.width, pen.height, dimension.to);
    const Colour colour = pen.theme.line(dimension.failing);
    const double width = (dimension.failing ? 2.5 : 1.5) * pen.scale;
    pen.shapes.line({from.x, from.y}, {to.x, to.y}, width, colour);
    // Ends as the trade ticks them: a short stroke at 45 degrees.
    for (const Projected& end : {from, to})
      pen.shapes.line({end.x - 4 * pen.scale, end.y - 4 * pen.scale}, {end.x + 4 * pen.scale, end.y + 4 * pen.scale},
                      width, colour);
  }
}

// The site's words, so that nobody has to know which way an axis letter points.
void draw_axes(Pen& pen, const ViewFrame& frame, TextAtlas& atlas) {
  const Spot origin{84 * pen.scale, 72 * pen.scale};
  const double length = 34 * pen.scale;
  const std::pair<const char*, Vec3> axes[] = {
      {"right", Vec3::UnitX()}, {"back", Vec3::UnitY()}, {"up", Vec3::UnitZ()}};
  const Colour colour = pen.theme.line(false);
  for (const auto& [word, direction] : axes) {
    const double x = direction.dot(frame.rightwards()), y = direction.dot(frame.upwards);
    const double seen = std::hypot(x, y);
    if (seen < 0.15) continue;
    const Spot tip{origin.x + length * x, origin.y + length * y};
    pen.shapes.line(origin, tip, 2 * pen.scale, colour);
    const double nx = x / seen, ny = y / seen, head = 6 * pen.scale;
    pen.shapes.polygon({{tip.x + head * nx, tip.y + head * ny},
                        {tip.x - head * 0.5 * ny, tip.y + head * 0.5 * nx},
                        {tip.x + head * 0.5 * ny, tip.y - head * 0.5 * nx}},
                       colour);
    const AtlasText text{word, colour, static_cast<int>(std::lround(12 * pen.scale)), false};
    const TextAtlas::Size size = atlas.size_of(text);
    const double left = tip.x + nx * (head + 2 + size.width / 2.0) - size.width / 2.0;
    const double low = tip.y + ny * (head + 2 + size.height / 2.0) - size.height / 2.0;
    pen.texts.push_back({text, std::round(std::max(4.0, left)), std::round(std::max(4.0, low))});
  }
}

void draw_caption(Pen& pen, const Drawn& drawn, TextAtlas& atlas) {
  if (drawn.caption.empty()) return;
  const LabelKind kind = drawn.failing ? LabelKind::failing : LabelKind::fixture;
  const AtlasText text{drawn.caption, pen.theme.label(kind).text, static_cast<int>(std::lround(14 * pen.scale)),
                       drawn.failing};
  const TextAtlas::Size size = atlas.size_of(text);
  const double high = size.height + 12 * pen.scale, sign = drawn.failing ? high : 0;
  const double wide = size.width + 20 * pen.scale + sign, left = std::round(pen.width - wide - 12 * pen.scale);
  const double low = 12 * pen.scale;
  if (!drawn.failing) {
    pen.shapes.rectangle(left, low, wide, high, pen.theme.label(kind).ground, 0.85);
  } else {
    pen.shapes.rectangle(left, low, wide, high, pen.theme.label(kind).frame);
    pen.shapes.rectangle(left + 2, low + 2, wide - 4, high - 4, pen.theme.label(kind).ground);
    draw_sign(pen, kind, {left + 6 * pen.scale + sign / 2, low + high / 2}, high - 8 * pen.scale);
  }
  pen.texts.push_back({text, std::round(left + 8 * pen.scale + sign), std::round(low + (high - size.height) / 2)});
}

LabelWanted wanted_for(const Pen& pen, const Label& label, const Projected& at, TextAtlas::Size size) {
  LabelWanted wanted;
  wanted.x = at.x;
  wanted.y = at.y;
  wanted.height = std::round(size.height + 6 * pen.scale);
  wanted.width = std::round(size.width + 10 * pen.scale);
  if (signed_kind(label.kind)) wanted.width += wanted.height;
  if (label.kind == LabelKind::bend && label.text.size() < 3) wanted.width = wanted.height = std::round(20 * pen.scale);
  wanted.importance = importance_of(label.kind);
  wanted.reach = reach_of(label.kind);
  wanted.may_cover = label.kind != LabelKind::fixture;
  wanted.on_place = label.kind == LabelKind::fixture;
  return wanted;
}

}  // namespace

Overlay::Overlay(vtkRenderer* renderer) : shapes_(vtkSmartPointer<vtkPolyData>::New()) {
  auto mapper = vtkSmartPointer<vtkPolyDataMapper2D>::New();
  mapper->SetInputData(shapes_);
  mapper->SetScalarModeToUsePointData();
  auto actor = vtkSmartPointer<vtkTexturedActor2D>::New();
  actor->SetMapper(mapper);
  actor->SetTexture(texts_.texture());
  actor->PickableOff();
  renderer->AddActor2D(actor);
}

void Overlay::lay_out(const Drawn& drawn, const ViewFrame& frame, const std::optional<Section>& section,
                      const Theme& theme, int width, int height, double scale) {
  Pen pen{{}, {}, theme, scale, width, height};
  draw_dimensions(pen, drawn, frame);
  std::vector<LabelWanted> wanted;
  std::vector<const Label*> labels;
  std::vector<AtlasText> texts;
  for (const Label& label : drawn.labels) {
    if (label.text.empty() || (section && !section->keeps(label.at))) continue;
    labels.push_back(&label);
    texts.push_back(atlas_text(pen, label));
    wanted.push_back(wanted_for(pen, label, project(frame, width, height, label.at), texts_.size_of(texts.back())));
  }
  const double foot = drawn.caption.empty() ? 0 : 36 * scale;  // the caption's own strip
  for (LabelWanted& label : wanted) label.y -= foot;
  std::vector<KeptClear> kept_clear;
  for (const PipeStretch& pipe : drawn.pipes) {
    const Projected from = project(frame, width, height, pipe.from), to = project(frame, width, height, pipe.to);
    kept_clear.push_back(
        {from.x, from.y - foot, to.x, to.y - foot, pipe.radius_mm * height / 2 / frame.half_height_mm});
  }
  std::vector<LabelPlaced> placed = lay_out_labels(wanted, width, height - foot, kept_clear);
  for (size_t i = 0; i < placed.size(); ++i) {
    wanted[i].y += foot;
    placed[i].y += foot;
    if (placed[i].shown) draw_label(pen, *labels[i], wanted[i], placed[i], texts[i], texts_.size_of(texts[i]));
  }
  if (drawn.site_axes) draw_axes(pen, frame, texts_);
  draw_caption(pen, drawn, texts_);
  texts_.hold(pen.texts);
  for (const PlacedText& each : pen.texts) {
    const TextAtlas::Size size = texts_.size_of(each.text);
    if (size.width > 0) pen.shapes.image({each.x, each.y}, size.width, size.height, texts_.place_of(each.text));
  }
  pen.shapes.give_to(shapes_, texts_.white());
}

}  // namespace halfhard
