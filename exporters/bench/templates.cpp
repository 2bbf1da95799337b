#include "exporters/bench/templates.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "exporters/bench/template_drawing.h"
#include "exporters/sheet/text_metrics.h"
#include "geometry/shown.h"

namespace halfhard {
namespace {

constexpr double kMargin_mm = 10;   // of paper that printers leave white
constexpr double kOverlap_mm = 10;  // of one page and the next
constexpr double kStrip_mm = 22;    // at the foot of a page: bar and words
constexpr double kMostPages = 120;  // more than this nobody lays together: the sheet of true size is for a plotter

Text line_of(std::string content, const Vec2& at, double height_mm, bool bold = false) {
  Text text;
  text.content = std::move(content);
  text.at = at;
  text.height_mm = height_mm;
  text.bold = bold;
  return text;
}

Entity shifted(const Entity& entity, const Vec2& shift) {
  Entity moved = entity;
  if (auto* line = std::get_if<Polyline>(&moved)) {
    for (Vec2& point : line->points) point += shift;
  } else if (auto* arc = std::get_if<ArcCurve>(&moved)) {
    arc->centre += shift;
  } else if (auto* text = std::get_if<Text>(&moved)) {
    text->at += shift;
  }
  return moved;
}

std::string band_words(const Plan& plan) {
  return "Solid: both edges of the tube. Dashed: " + shown_length(plan.tolerance.length_mm, plan.unit) +
         " outside them; a piece that leaves the dashed band fails. Chain: centre line.";
}

// ---- pages

struct Rect {
  Vec2 low, high;
  bool holds(const Vec2& p) const {
    return p.x() >= low.x() && p.x() <= high.x() && p.y() >= low.y() && p.y() <= high.y();
  }
};

// The part of a segment within the page; false where there is none.
bool clip(const Rect& page, Vec2& from, Vec2& to) {
  double enter = 0, leave = 1;
  const Vec2 way = to - from;
  for (int axis = 0; axis < 2; ++axis) {
    if (way[axis] == 0) {
      if (from[axis] < page.low[axis] || from[axis] > page.high[axis]) return false;
      continue;
    }
    const double a = (page.low[axis] - from[axis]) / way[axis], b = (page.high[axis] - from[axis]) / way[axis];
    enter = std::max(enter, std::min(a, b));
    leave = std::min(leave, std::max(a, b));
  }
  if (enter >= leave) return false;
  const Vec2 start = from;
  from = start + enter * way;
  to = start + leave * way;
  return true;
}

Pen pen_of_entity(const Entity& entity) {
  if (const auto* line = std::get_if<Polyline>(&entity)) return line->pen;
  return std::get<ArcCurve>(entity).pen;
}

// What of an entity lies on the page, in the template's frame: clipped lines, whole texts.
std::vector<Entity> on_page(const Entity& entity, const Rect& page) {
  std::vector<Entity> out;
  if (const auto* text = std::get_if<Text>(&entity)) {
    // A text that straddles two pages stands whole on the one that holds its middle, moved in as far as need be.
    const TextBox box = box_of(*text);
    if (!page.holds((box.corners[0] + box.corners[2]) / 2)) return out;
    Text inside = *text;
    inside.at +=
        (page.low - box.corners[0]).cwiseMax(Vec2::Zero()) + (page.high - box.corners[2]).cwiseMin(Vec2::Zero());
    out.emplace_back(std::move(inside));
    return out;
  }
  const std::vector<Vec2> points = points_of(entity);
  std::vector<Vec2> kept;
  const auto flush = [&] {
    if (kept.size() >= 2) out.emplace_back(Polyline{kept, false, pen_of_entity(entity)});
    kept.clear();
  };
  for (size_t i = 0; i + 1 < points.size(); ++i) {
    Vec2 from = points[i], to = points[i + 1];
    if (!clip(page, from, to)) {
      flush();
      continue;
    }
    if (kept.empty() || (kept.back() - from).norm() > 1e-9) {
      flush();
      kept.push_back(from);
    }
    kept.push_back(to);
  }
  flush();
  return out;
}

// A page's window on the template, and how many there are each way.
struct Grid {
  Vec2 window, step;
  double columns, rows;  // whole numbers; double, because a run may be a hundred kilometres long
};

Grid grid_of(const TemplateDrawing& drawing, const SheetSize& paper) {
  Grid grid;
  grid.window = Vec2(paper.width_mm - 2 * kMargin_mm, paper.height_mm - 2 * kMargin_mm - kStrip_mm);
  grid.step = grid.window - Vec2(kOverlap_mm, kOverlap_mm);
  const Vec2 size = drawing.high - drawing.low;
  const auto count = [](double length, double window, double step) {
    return length <= window ? 1.0 : 1 + std::ceil((length - window) / step);
  };
  grid.columns = count(size.x(), grid.window.x(), grid.step.x());
  grid.rows = count(size.y(), grid.window.y(), grid.step.y());
  return grid;
}

// Crosses in the middle of the overlaps: they fall on those of the pages around.
void add_crosses(Sheet& sheet, const Grid& grid, const Vec2& corner) {
  const Pen pen{Layer::frame, LineStyle::continuous, 0.25, std::nullopt};
  const double inset = kOverlap_mm / 2;
  for (const double x : {inset, grid.window.x() - inset})
    for (const double y : {inset, grid.window.y() - inset}) {
      const Vec2 at = corner + Vec2(x, y);
      sheet.entities.emplace_back(line_between(at - Vec2(4, 0), at + Vec2(4, 0), pen));
      sheet.entities.emplace_back(line_between(at - Vec2(0, 4), at + Vec2(0, 4), pen));
      sheet.entities.emplace_back(circle(at, 2, pen));
    }
}

void add_strip(Sheet& sheet, const Plan& plan, const TemplateDrawing& drawing, const std::string& place) {
  const Vec2 foot(kMargin_mm, kMargin_mm);
  sheet.add(hundred_bar(foot, plan.unit));
  const double width = sheet.size.width_mm - 2 * kMargin_mm;
  const std::string heading = drawing.failure.empty() ? drawing.title : drawing.failure;
  sheet.add(line_of(shortened(heading, width, 3.5, true), foot + Vec2(0, 16), 3.5, true));
  sheet.add(
      line_of(shortened(place + ". Print at 100 %, not fitted to the page.", width, 2.5), foot + Vec2(0, 11.5), 2.5));
  sheet.add(line_of(shortened(band_words(plan), width, 1.8), foot + Vec2(0, 8), 1.8));
}

void add_pages(std::vector<Sheet>& sheets, const Plan& plan, const TemplateDrawing& drawing, const SheetSize& paper) {
  const Grid grid = grid_of(drawing, paper);
  const int rows = static_cast<int>(grid.rows), columns = static_cast<int>(grid.columns);
  const Vec2 corner(kMargin_mm, kMargin_mm + kStrip_mm);
  // What needs one page only that way stands in its middle.
  const Vec2 free = (grid.window - (drawing.high - drawing.low)).cwiseMax(Vec2::Zero());
  const Vec2 origin = drawing.low - free / 2;
  for (int row = 0; row < rows; ++row) {
    for (int column = 0; column < columns; ++column) {
      const Vec2 low = origin + Vec2(column * grid.step.x(), row * grid.step.y());
      const Rect page{low, low + grid.window};
      std::vector<Entity> seen;
      for (const Entity& entity : drawing.entities) {
        for (Entity& part : on_page(entity, page)) seen.emplace_back(shifted(part, corner - low));
      }
      if (seen.empty()) continue;
      Sheet sheet;
      sheet.size = paper;
      sheet.unit = plan.unit;
      const std::string place = "Column " + std::to_string(column + 1) + " of " + std::to_string(columns) +
                                " from the left, row " + std::to_string(row + 1) + " of " + std::to_string(rows) +
                                " from below; lay cross on cross";
      sheet.title = drawing.title + ", column " + std::to_string(column + 1) + ", row " + std::to_string(row + 1);
      sheet.add(std::move(seen));
      add_crosses(sheet, grid, corner);
      add_strip(sheet, plan, drawing, place);
      sheets.push_back(std::move(sheet));
    }
  }
}

// In place of the pages of a stretch that would need too many.
Sheet too_long(const Plan& plan, const TemplateDrawing& drawing, const SheetSize& paper) {
  Sheet sheet;
  sheet.size = paper;
  sheet.unit = plan.unit;
  sheet.title = drawing.title;
  const Vec2 size = drawing.high - drawing.low;
  const std::string words = "This template is " + shown_length(size.x(), plan.unit) + " by " +
                            shown_length(size.y(), plan.unit) + ": too large for " + paper.name +
                            " pages. Plot the DXF of true size, or set the piece out on the floor by its table.";
  sheet.add(std::move(paragraph(words, {kMargin_mm, paper.height_mm - 30}, paper.width_mm - 2 * kMargin_mm, 5).texts));
  add_strip(sheet, plan, drawing, "No pages");
  return sheet;
}

double pages_needed(const TemplateDrawing& drawing, const SheetSize& paper) {
  const Grid grid = grid_of(drawing, paper);
  return grid.columns * grid.rows;
}

}  // namespace

std::vector<Sheet> template_sheets(const Plan& plan, const Run& run) {
  std::vector<Sheet> sheets;
  for (const FlatStretch& stretch : flat_stretches(run)) {
    const TemplateDrawing drawing = template_drawing(plan, run, stretch);
    Sheet sheet;
    const Vec2 size = drawing.high - drawing.low;
    const double width = std::max(size.x(), 180.0) + 2 * kMargin_mm;
    sheet.size = {"true size", width, size.y() + kStrip_mm + 2 * kMargin_mm};
    sheet.title = drawing.title;
    sheet.unit = plan.unit;
    const Vec2 shift = Vec2(kMargin_mm, kMargin_mm + kStrip_mm) - drawing.low;
    for (const Entity& entity : drawing.entities) sheet.add(shifted(entity, shift));
    add_strip(sheet, plan, drawing, "One sheet of true size");
    sheets.push_back(std::move(sheet));
  }
  return sheets;
}

std::vector<Sheet> template_tiles(const Plan& plan, const Run& run, const SheetSize& paper) {
  std::vector<Sheet> sheets;
  const SheetSize turned{paper.name, paper.height_mm, paper.width_mm};
  for (const FlatStretch& stretch : flat_stretches(run)) {
    const TemplateDrawing drawing = template_drawing(plan, run, stretch);
    const double upright = pages_needed(drawing, paper), lying = pages_needed(drawing, turned);
    if (std::min(upright, lying) > kMostPages) {
      sheets.push_back(too_long(plan, drawing, paper));
    } else {
      add_pages(sheets, plan, drawing, lying < upright ? turned : paper);
    }
  }
  return sheets;
}

}  // namespace halfhard
