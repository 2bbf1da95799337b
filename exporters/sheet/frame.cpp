#include "exporters/sheet/frame.h"

#include <algorithm>

#include "exporters/sheet/text_metrics.h"

namespace halfhard {
namespace {

constexpr double kFilingMargin_mm = 20;
constexpr double kMargin_mm = 10;
constexpr double kBlockWidth_mm = 180;
constexpr double kRow_mm = 9;
constexpr double kLabel_mm = 1.8;
constexpr double kValue_mm = 2.5;
constexpr double kPad_mm = 1.0;

// A cell of the title block: a small label above its value.
struct Cell {
  double width;
  std::string label, value;
  double value_height = kValue_mm;
  bool bold = false;
};

Text text_at(const std::string& content, const Vec2& at, double height) {
  Text text;
  text.content = content;
  text.at = at;
  text.height_mm = height;
  text.layer = Layer::frame;
  return text;
}

void add_cell(std::vector<Entity>& out, const Cell& cell, const Vec2& top_left) {
  if (!cell.label.empty()) out.push_back(text_at(cell.label, top_left + Vec2(kPad_mm, -0.9 - kLabel_mm), kLabel_mm));
  if (cell.value.empty()) return;
  const double room = cell.width - 2 * kPad_mm;
  // Smaller before it is wrapped, wrapped before it is cut.
  struct Fit {
    double height;
    std::size_t lines;
  };
  for (const Fit& fit : {Fit{cell.value_height, 1}, {kValue_mm, 1}, {kLabel_mm, 1}, {kLabel_mm, 2}, {1.3, 3}}) {
    const double height = std::min(fit.height, cell.value_height);
    std::vector<std::string> lines = wrapped(cell.value, room, height, cell.bold);
    const bool last = fit.lines == 3;
    if (lines.size() > fit.lines && !last) continue;
    if (lines.size() > fit.lines) {
      for (std::size_t i = fit.lines; i < lines.size(); ++i) lines[fit.lines - 1] += " " + lines[i];
      lines.resize(fit.lines);
      lines.back() = shortened(lines.back(), room, height, cell.bold);
    }
    const double step = 1.4 * height, foot = lines.size() == 1 ? 1.7 : 0.6;
    for (std::size_t i = 0; i < lines.size(); ++i) {
      const double up = foot + step * static_cast<double>(lines.size() - 1 - i);
      Text value = text_at(lines[i], top_left + Vec2(kPad_mm, -kRow_mm + up), height);
      value.bold = cell.bold;
      out.push_back(value);
    }
    return;
  }
}

// ISO 5456-2: a truncated cone seen from the side and from its small end; the end view stands right of the side view
// in first angle, left of it in third.
void add_projection_symbol(std::vector<Entity>& out, const Vec2& centre, bool third_angle) {
  const Pen line = {Layer::frame, LineStyle::continuous, 0.35, std::nullopt};
  const Pen axis = {Layer::frame, LineStyle::chain, 0.18, std::nullopt};
  constexpr double kSmall = 1.2, kLarge = 2.4, kLength = 4.8, kApart = 4.2;
  const double side = third_angle ? 1 : -1;
  const Vec2 cone = centre + Vec2(side * kApart, 0);
  const Vec2 rings = centre - Vec2(side * kApart, 0);
  out.push_back(Polyline{{cone + Vec2(-kLength / 2, -kSmall), cone + Vec2(kLength / 2, -kLarge),
                          cone + Vec2(kLength / 2, kLarge), cone + Vec2(-kLength / 2, kSmall)},
                         true,
                         line});
  out.push_back(circle(rings, kSmall, line));
  out.push_back(circle(rings, kLarge, line));
  out.push_back(line_between(cone - Vec2(kLength / 2 + 0.8, 0), cone + Vec2(kLength / 2 + 0.8, 0), axis));
  out.push_back(line_between(rings - Vec2(kLarge + 0.8, 0), rings + Vec2(kLarge + 0.8, 0), axis));
  out.push_back(line_between(rings - Vec2(0, kLarge + 0.8), rings + Vec2(0, kLarge + 0.8), axis));
}

void add_row(std::vector<Entity>& out, const std::vector<Cell>& cells, const Vec2& top_left) {
  const Pen thin = {Layer::frame, LineStyle::continuous, 0.25, std::nullopt};
  double x = top_left.x();
  for (std::size_t i = 0; i < cells.size(); ++i) {
    add_cell(out, cells[i], {x, top_left.y()});
    x += cells[i].width;
    if (i + 1 < cells.size()) out.push_back(line_between({x, top_left.y()}, {x, top_left.y() - kRow_mm}, thin));
  }
}

void add_centring_marks(std::vector<Entity>& out, const SheetSize& size, const Border& b) {
  const Pen pen = pen_of(Layer::frame);
  const double cx = size.width_mm / 2, cy = size.height_mm / 2;
  // From the edge of the border outwards only: sheets without a wide margin keep what is inside free.
  out.push_back(line_between({b.left, cy}, {b.left - 5, cy}, pen));
  out.push_back(line_between({b.right, cy}, {b.right + 5, cy}, pen));
  out.push_back(line_between({cx, b.bottom}, {cx, b.bottom - 5}, pen));
  out.push_back(line_between({cx, b.top}, {cx, b.top + 5}, pen));
}

}  // namespace

Border border_of(const SheetSize& size) {
  return {kFilingMargin_mm, kMargin_mm, size.width_mm - kMargin_mm, size.height_mm - kMargin_mm};
}

TitleFields title_fields(const Plan& plan, std::string subtitle, std::string document_type) {
  TitleFields fields;
  fields.owner = plan.title_block.owner;
  fields.identification = plan.title_block.identification;
  fields.revision = plan.title_block.revision;
  fields.date = plan.title_block.date;
  fields.created_by = plan.title_block.created_by;
  fields.approved_by = plan.title_block.approved_by;
  fields.title = plan.title.empty() ? plan.stem : plan.title;
  fields.subtitle = std::move(subtitle);
  fields.document_type = std::move(document_type);
  fields.digest = plan.digest;
  fields.third_angle = plan.title_block.third_angle;
  return fields;
}

Framed frame(const SheetSize& size, const TitleFields& f) {
  Framed out;
  out.border = border_of(size);
  const Border& b = out.border;
  out.entities.push_back(rectangle({b.left, b.bottom}, {b.right, b.top}, pen_of(Layer::frame)));
  add_centring_marks(out.entities, size, b);

  out.block_width_mm = std::min(kBlockWidth_mm, b.width());
  out.block_height_mm = 3 * kRow_mm;
  const double k = out.block_width_mm / kBlockWidth_mm;
  const double left = b.right - out.block_width_mm;
  const double top = b.bottom + out.block_height_mm;
  const Pen line = {Layer::frame, LineStyle::continuous, 0.35, std::nullopt};
  out.entities.push_back(Polyline{{{left, b.bottom}, {left, top}, {b.right, top}}, false, pen_of(Layer::frame)});
  for (int row = 1; row < 3; ++row)
    out.entities.push_back(line_between({left, top - row * kRow_mm}, {b.right, top - row * kRow_mm}, line));

  const std::string sheet = std::to_string(f.sheet) + " of " + std::to_string(f.sheets);
  add_row(out.entities,
          {{60 * k, "owner", f.owner}, {80 * k, "title", f.title}, {40 * k, "document type", f.document_type}},
          {left, top});
  add_row(out.entities,
          {{30 * k, "created by", f.created_by},
           {30 * k, "approved by", f.approved_by},
           {80 * k, "shows", f.subtitle, 3.5, true},
           {40 * k, "identification", f.identification}},
          {left, top - kRow_mm});
  add_row(out.entities,
          {{30 * k, "date of issue", f.date},
           {15 * k, "revision", f.revision},
           {15 * k, "scale", f.scale},
           {80 * k, "digest of the job file", f.digest},
           {18 * k, "sheet", sheet},
           {22 * k, f.shows_projection ? "" : "lengths", f.shows_projection ? "" : "as marked"}},
          {left, top - 2 * kRow_mm});
  if (f.shows_projection)
    add_projection_symbol(out.entities, {b.right - 11 * k, b.bottom + kRow_mm / 2}, f.third_angle);
  return out;
}

}  // namespace halfhard
