#include "exporters/fabrication/fabrication_sheet.h"

#include <algorithm>
#include <optional>

#include "exporters/arrangement/draw_view.h"
#include "exporters/bench/bend_rows.h"
#include "exporters/bench/marking_sheet.h"
#include "exporters/fabrication/view_dimensions.h"
#include "exporters/sheet/frame.h"
#include "geometry/cautions.h"
#include "geometry/shown.h"

namespace halfhard {
namespace {

constexpr double kPad_mm = 4;
const Colour kRed{0.8, 0, 0};

std::string joined(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += (text.empty() ? "" : " ") + line;
  return text;
}

Table bend_table_of(const BendTableText& text, double width) {
  Table table;
  table.columns.assign(9, {20, AnchorX::centre});
  table.rows = {{"made", "bend", "mark", "hook", "angle", "set to", "turned", "clock from hook", "check"}};
  for (const BendRow& row : text.rows)
    table.rows.push_back({std::to_string(row.made), std::to_string(row.number),
                          text.not_to_be_made.empty() ? row.mark : "none", row.hook, row.angle, row.set_angle,
                          row.rotation, row.clock, text.not_to_be_made.empty() ? row.check : "none"});
  for (const double height : {2.5, 1.8}) {
    table.text_height_mm = height;
    table = fitted(table);
    if (width_mm(table) <= width) break;
  }
  return table;
}

Table leg_table_of(const Plan& plan, const Run& run) {
  Table table;
  table.columns.assign(5, {20, AnchorX::right});
  table.rows = {{"leg, centre to centre", "length", "right", "back", "up"}};
  for (int leg = 0; leg < run.line.leg_count(); ++leg) {
    const Vec3 way = run.line.points()[leg + 1] - run.line.points()[leg];
    const std::string from = leg == 0 ? "datum end" : "bend " + std::to_string(leg);
    const std::string to = leg + 1 == run.line.leg_count() ? "free end" : "bend " + std::to_string(leg + 1);
    table.rows.push_back({from + " to " + to, shown_length_bare(way.norm(), plan.unit),
                          shown_length_bare(way.x(), plan.unit), shown_length_bare(way.y(), plan.unit),
                          shown_length_bare(way.z(), plan.unit)});
  }
  return fitted(table);
}

std::string tolerance_text(const Plan& plan, const Run& run) {
  std::string text = "Tolerance: lengths ±" + shown_length(plan.tolerance.length_mm, plan.unit) + ", angles ±" +
                     shown_angle(plan.tolerance.angle) + ".";
  for (const OffsetRow& offset : run.offsets) {
    const Angle angle = run.bends[offset.first_bend - 1].angle;
    text += " An offset of " + shown_length(offset.true_mm, plan.unit) + " at " + shown_angle(angle) +
            " uses up its length tolerance at " +
            shown_angle(angle_that_uses_up(offset.true_mm, angle, plan.tolerance.length_mm)) + " of error.";
  }
  return text;
}

std::string status_text(const Plan& plan, const Run& run) {
  std::string text;
  for (const Finding& finding : plan.findings)
    if (finding.severity == Severity::warn && finding.where == run.name)
      text += (text.empty() ? "Checks: none fails. Mind: " : " ") + finding.message;
  return text.empty() ? "Checks: none fails." : text;
}

// The column of texts and tables beside the views, carried on to further sheets where it is full.
class SideColumn {
 public:
  SideColumn(double left, double width, double top, double foot, std::vector<Sheet>& sheets, const Sheet& empty)
      : left_(left), width_(width), top_(top), foot_(foot), y_(top), sheets_(sheets), empty_(empty) {}

  void write(const std::string& text, double height, bool bold, std::optional<Colour> colour = std::nullopt) {
    if (text.empty()) return;
    Paragraph block = paragraph(text, {left_, y_}, width_, height, bold);
    if (y_ - block.height_mm < foot_ && y_ < top_) {
      turn();
      block = paragraph(text, {left_, y_}, width_, height, bold);
    }
    for (Entity& entity : block.texts) {
      std::get<Text>(entity).colour = colour;
      sheets_.back().add(std::move(entity));
    }
    y_ -= block.height_mm + 2;
  }
  // As many rows as there is room for, the rest under a heading of its own on the next sheet.
  void lay(Table table) {
    while (table.rows.size() > static_cast<std::size_t>(table.header_rows)) {
      Table part = table;
      part.rows.resize(table.header_rows);
      std::size_t next = table.header_rows;
      while (next < table.rows.size()) {
        part.rows.push_back(table.rows[next]);
        if (y_ - height_mm(part) < foot_) {
          part.rows.pop_back();
          break;
        }
        ++next;
      }
      if (next == static_cast<std::size_t>(table.header_rows)) {
        turn();
        continue;
      }
      part.top_left = {left_, y_};
      y_ -= height_mm(part) + kPad_mm;
      sheets_.back().add(part);
      table.rows.erase(table.rows.begin() + table.header_rows, table.rows.begin() + next);
      if (table.rows.size() > static_cast<std::size_t>(table.header_rows)) turn();
    }
  }
  // What is left below on the last sheet.
  SheetBox room() const { return {{left_, foot_}, {left_ + width_, std::max(foot_, y_)}}; }

 private:
  void turn() {
    sheets_.push_back(empty_);
    y_ = top_;
  }
  double left_, width_, top_, foot_, y_;
  std::vector<Sheet>& sheets_;
  const Sheet& empty_;
};

// `place`: 0 for the front view, 1 for the plan, more for the others.
void draw_view(Sheet& sheet, const Plan& plan, const Run& run, const PlacedView& view, std::size_t place) {
  DimensionPlacer placer(view.cell.low, view.cell.high);
  for (const ViewCurve& curve : view.projection.curves) {
    if (curve.kind == CurveKind::fold) continue;
    const Pen pen = pen_of(curve.kind == CurveKind::centre_line ? Layer::centre
                           : curve.visible                      ? Layer::outline
                                                                : Layer::hidden);
    const Entity entity = entity_of(view.on_sheet(curve.shape), pen);
    placer.mark(entity);
    sheet.add(entity);
  }
  // Its title across the foot of its cell, in as many lines as a narrow cell asks for.
  const std::string words = view.title + "  " + scale_text(view.scale);
  const double room = view.cell.size().x() - 2;
  const std::vector<std::string> lines = wrapped(words, room, 2.5, true);
  for (std::size_t k = 0; k < lines.size(); ++k) {
    Text title;
    title.content = lines[k];
    title.height_mm = 2.5;
    title.bold = true;
    title.anchor_x = AnchorX::centre;
    title.at = {view.cell.centre().x(), view.cell.low.y() + 1.5 + 4 * static_cast<double>(lines.size() - 1 - k)};
    placer.mark(title);
    sheet.add(title);
  }
  // The front view carries right and up, the plan carries back; so every shift is told once.
  if (!view.isometric) sheet.add(view_dimensions(plan, run, view, {place == 0, place <= 1, place == 0}, placer));
  if (view.isometric || place == 0) sheet.add(point_labels(run, view, placer));
}

Scene scene_of_run(const Run& run) {
  Scene scene;
  scene.tubes.push_back({0, run.line, run.tube->outside_radius_mm()});
  return scene;
}

// Returns whether the isometric found room beside the others.
bool draw_views(Sheet& sheet, const Plan& plan, const Run& run, const SheetBox& area) {
  const ViewLayout layout = lay_out_views(scene_of_run(run), area, plan.title_block.third_angle);
  sheet.scale = layout.scale;
  for (std::size_t i = 0; i < layout.views.size(); ++i) draw_view(sheet, plan, run, layout.views[i], i);
  return layout.apart.empty();
}

// Smaller than this an isometric tells nothing: room below the texts, and its scale by that of the views.
constexpr double kIsometricRoom_mm = 60;
constexpr double kSmallestIsometric = 2.5;

// Everything beside the views, from the status of the checks to the cautions.
void write_texts(SideColumn& column, const Plan& plan, const Run& run, double width) {
  const BendTableText text = bend_table_rows(plan, run);
  if (!text.not_to_be_made.empty()) {
    column.write("NOT TO BE MADE", 7, true, kRed);
    column.write(plan.failure_of(run)->message, 3.5, true, kRed);
  } else {
    column.write(status_text(plan, run), 2.5, false);
  }
  column.write(joined(text.about), 2.5, false);
  const bool trimmed = run.blank_length_mm > run.cut_length_mm;
  column.write(
      text.blank_text + (trimmed ? " Finished, it is " + shown_length(run.cut_length_mm, plan.unit) + "." : ""), 2.5,
      true);
  column.write(joined(text.before), 2.5, false);
  if (!text.rows.empty()) column.lay(bend_table_of(text, width));
  column.lay(leg_table_of(plan, run));
  column.write(joined(text.after), 2.5, false);
  column.write(text.trim_text, 2.5, false);
  column.write(tolerance_text(plan, run), 2.5, false);
  column.write(text.likely_error, 2.5, false);
  column.write(caution_paragraph(cautions(plan, run)), 2.5, true);
}

Sheet empty_sheet(const Plan& plan, const Run& run, const SheetSize& size) {
  Sheet sheet;
  sheet.size = size;
  sheet.title = run.name + ", fabrication";
  sheet.unit = plan.unit;
  return sheet;
}

void frame_all(std::vector<Sheet>& sheets, TitleFields fields) {
  fields.sheets = static_cast<int>(sheets.size());
  const std::string scale = scale_text(sheets[0].scale);
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    fields.sheet = static_cast<int>(i) + 1;
    fields.scale = i == 0 ? scale : "";
    fields.shows_projection = i == 0;
    sheets[i].add(frame(sheets[i].size, fields).entities);
  }
}

// A4 serves a pipe whose texts leave its views this much of it, at this scale or larger.
constexpr double kViewsOnA4_mm = 90;
constexpr double kSmallestOnA4 = 5;

// One A4 upright, the views above, the texts below; nothing where the pipe needs more.
std::optional<Sheet> on_a4(const Plan& plan, const Run& run, const TitleFields& fields) {
  const Sheet empty = empty_sheet(plan, run, kA4Upright);
  const Framed framed = frame(empty.size, fields);
  const Border& border = framed.border;
  const double foot = border.bottom + framed.block_height_mm + kPad_mm;
  const double left = border.left + 3, width = border.width() - 6;
  // Once to see how much the texts take, once in their place.
  std::vector<Sheet> trial = {empty};
  SideColumn measured(left, width, border.top - kPad_mm, foot, trial, empty);
  write_texts(measured, plan, run, width);
  const double views_height = measured.room().size().y() - kPad_mm;
  if (trial.size() > 1 || views_height < kViewsOnA4_mm) return std::nullopt;

  const double texts_top = border.top - views_height - kPad_mm;
  const SheetBox views{{border.left + 2, texts_top + 2}, {border.right - 2, border.top - 2}};
  std::vector<Sheet> sheets = {empty};
  if (!draw_views(sheets[0], plan, run, views) || sheets[0].scale > kSmallestOnA4) return std::nullopt;
  SideColumn column(left, width, texts_top, foot, sheets, empty);
  write_texts(column, plan, run, width);
  if (sheets.size() > 1) return std::nullopt;
  frame_all(sheets, fields);
  return sheets[0];
}

}  // namespace

std::vector<Sheet> fabrication_sheets(const Plan& plan, const Run& run) {
  const TitleFields fields = title_fields(plan, run.name, "Fabrication sheet");
  if (const auto sheet = on_a4(plan, run, fields)) return {*sheet};
  const Sheet empty = empty_sheet(plan, run, kA3Lying);
  const Framed framed = frame(empty.size, fields);
  const double left = framed.border.right - framed.block_width_mm + 2;
  const double width = framed.block_width_mm - 4;
  std::vector<Sheet> sheets = {empty};
  const SheetBox views{{framed.border.left + 2, framed.border.bottom + 2}, {left - 4, framed.border.top - 2}};
  const bool isometric_drawn = draw_views(sheets[0], plan, run, views);
  SideColumn column(left, width, framed.border.top - kPad_mm, framed.border.bottom + framed.block_height_mm + kPad_mm,
                    sheets, empty);
  write_texts(column, plan, run, width);
  if (!isometric_drawn) {
    const Scene scene = scene_of_run(run);
    const SheetBox room = column.room();
    const bool fits =
        room.size().y() >= kIsometricRoom_mm && isometric_in(scene, room).scale <= kSmallestIsometric * sheets[0].scale;
    if (!fits) sheets.push_back(empty);
    draw_view(sheets.back(), plan, run, isometric_in(scene, fits ? room : views), 3);
  }
  frame_all(sheets, fields);
  return sheets;
}

Sheet development_sheet(const Plan& plan, const Run& run) {
  constexpr double kMargin = 40;
  Sheet sheet;
  sheet.size = {"own", run.blank_length_mm + 2 * kMargin, 160};
  sheet.title = run.name + ", blank laid straight";
  sheet.unit = plan.unit;
  const double y = 60, r = run.tube->outside_radius_mm();
  const Vec2 start(kMargin, y);
  sheet.add(rectangle(start - Vec2(0, r), start + Vec2(run.blank_length_mm, r), pen_of(Layer::outline)));
  sheet.add(line_between(start - Vec2(5, 0), start + Vec2(run.blank_length_mm + 5, 0), pen_of(Layer::centre)));
  const std::string failure = not_to_be_made(plan, run);
  const std::string heading = run.name + ": blank laid straight, full size; the datum end is on the left";
  sheet.add(
      paragraph(failure.empty() ? heading : failure, {kMargin, 152}, std::max(150.0, run.blank_length_mm), 3.5, true)
          .texts);
  Dimension length;
  length.first = start - Vec2(0, r);
  length.second = length.first + Vec2(run.blank_length_mm, 0);
  length.line_through = start - Vec2(0, r + 12);
  sheet.add(with_text(length, plan.unit));
  for (const Bend& bend : run.bends) {
    for (const double at : {bend.start_of_bend_mm, bend.end_of_bend_mm})
      sheet.add(line_between(start + Vec2(at, -r), start + Vec2(at, r), pen_of(Layer::hidden)));
    if (!failure.empty()) continue;  // no marks on what is not to be made
    const Vec2 mark = start + Vec2(bend.mark_mm, 0);
    sheet.add(line_between(mark - Vec2(0, r), mark + Vec2(0, r + 4), pen_of(Layer::mark)));
    Text text;
    text.content =
        std::to_string(bend.number) + ": " + shown_length_bare(bend.mark_mm, plan.unit) + " from the datum end";
    text.at = mark + Vec2(0, r + 6);
    text.rotation_deg = 90;
    text.anchor_y = AnchorY::middle;
    text.layer = Layer::mark;
    sheet.add(text);
  }
  return sheet;
}

}  // namespace halfhard
