#include "exporters/bench/templates.h"

#include <algorithm>
#include <limits>
#include <string>

#include "exporters/bench/bend_rows.h"
#include "exporters/bench/template_tiling.h"
#include "exporters/sheet/text_metrics.h"
#include "geometry/words/shown.h"

namespace halfhard {
namespace {

constexpr double kMargin_mm = 10;         // of paper that printers leave white
constexpr double kOverlap_mm = 10;        // of one page and the next
constexpr double kStrip_mm = 25;          // at the foot of a page: bar and words
constexpr double kLongStraight_mm = 420;  // longer than an A4 page and a half: broken on pages

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

Pen pen_of_entity(const Entity& entity) {
  if (const auto* line = std::get_if<Polyline>(&entity)) return line->pen;
  return std::get<ArcCurve>(entity).pen;
}

// What of a line lies on the page, in the template's frame.
std::vector<Entity> on_page(const Entity& entity, const PageWindow& page) {
  std::vector<Entity> out;
  const std::vector<Vec2> points = points_of(entity);
  std::vector<Vec2> kept;
  const auto flush = [&] {
    if (kept.size() >= 2) out.emplace_back(Polyline{kept, false, pen_of_entity(entity)});
    kept.clear();
  };
  for (size_t i = 0; i + 1 < points.size(); ++i) {
    Vec2 from = points[i], to = points[i + 1];
    if (!clip(page.low, page.high, from, to)) {
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

// A text stands whole on the page nearest its middle, moved in as far as need be.
struct HomedText {
  size_t page = 0;
  Text text;
};
HomedText homed(Text text, const std::vector<PageWindow>& pages) {
  const TextBox box = box_of(text);
  const Vec2 middle = (box.corners[0] + box.corners[2]) / 2;
  HomedText home;
  double nearest = std::numeric_limits<double>::infinity();
  for (size_t i = 0; i < pages.size(); ++i) {
    const double away = (middle - middle.cwiseMax(pages[i].low).cwiseMin(pages[i].high)).norm();
    if (away >= nearest) continue;
    nearest = away;
    home.page = i;
  }
  const PageWindow& page = pages[home.page];
  text.at += (page.low - box.corners[0]).cwiseMax(Vec2::Zero()) + (page.high - box.corners[2]).cwiseMin(Vec2::Zero());
  home.text = std::move(text);
  return home;
}

// Crosses in the middle of the overlaps: they fall on those of the pages around.
void add_crosses(Sheet& sheet, const Vec2& window, const Vec2& corner) {
  const Pen pen{Layer::frame, LineStyle::continuous, 0.25, std::nullopt};
  const double inset = kOverlap_mm / 2;
  for (const double x : {inset, window.x() - inset})
    for (const double y : {inset, window.y() - inset}) {
      const Vec2 at = corner + Vec2(x, y);
      sheet.entities.emplace_back(line_between(at - Vec2(4, 0), at + Vec2(4, 0), pen));
      sheet.entities.emplace_back(line_between(at - Vec2(0, 4), at + Vec2(0, 4), pen));
      sheet.entities.emplace_back(circle(at, 2, pen));
    }
}

// In 7 mm: the words get smaller before they are cut, so that their end, which says how many more there are, is read.
void add_failure(Sheet& sheet, const std::string& failure, const Vec2& top_left, double width) {
  Paragraph words;
  for (const double height : {3.5, 2.5, 1.8}) {
    words = paragraph(failure, top_left, width, height, true, 1.4 * height);
    if (words.height_mm <= 7) break;
  }
  if (words.height_mm > 7)
    words = paragraph(shortened(failure, 2.8 * width, 1.8, true), top_left, width, 1.8, true, 2.5);
  sheet.add(std::move(words.texts));
}

void add_strip(Sheet& sheet, const Plan& plan, const TemplateDrawing& drawing, const std::string& place) {
  const Vec2 foot(kMargin_mm, kMargin_mm);
  sheet.add(hundred_bar(foot, plan.unit));
  const double width = sheet.size.width_mm - 2 * kMargin_mm;
  const auto line = [&](const std::string& words, double above, double height, bool bold = false) {
    sheet.add(line_of(shortened(words, width, height, bold), foot + Vec2(0, above), height, bold));
  };
  if (drawing.failure.empty()) {
    line(drawing.title, 19, 3.5, true);
  } else {
    add_failure(sheet, drawing.failure, foot + Vec2(0, 24.5), width);
  }
  line(place + ". Print at 100 %, not fitted to the page.", 14.5, 2.5);
  line(band_words(plan), 11, 1.8);
  line(std::string(kBenchCaution) + " Local codes come first.", 8, 1.8);
}

std::string place_of(const PageWindow& page, const Tiling& tiles) {
  if (tiles.pages.size() == 1) return "The only page";
  return "Column " + std::to_string(page.column + 1) + " of " + std::to_string(tiles.columns) + " from the left, row " +
         std::to_string(page.row + 1) + " of " + std::to_string(tiles.rows) + " from below; lay cross on cross";
}

void add_pages(std::vector<Sheet>& sheets, const Plan& plan, const TemplateDrawing& drawing, const Tiling& tiles,
               const SheetSize& paper) {
  const Vec2 corner(kMargin_mm, kMargin_mm + kStrip_mm);
  std::vector<std::vector<Entity>> seen(tiles.pages.size());
  std::vector<Entity> all = drawing.entities;
  std::vector<HomedText> texts;
  for (Entity& entity : labels_on(drawing, tiles.low, tiles.high)) {
    if (auto* text = std::get_if<Text>(&entity)) {
      texts.push_back(homed(std::move(*text), tiles.pages));
    } else {
      all.emplace_back(std::move(entity));
    }
  }
  for (size_t i = 0; i < tiles.pages.size(); ++i) {
    const Vec2 shift = corner - tiles.pages[i].low;
    Sheet sheet;
    sheet.size = paper;
    sheet.unit = plan.unit;
    sheet.title = drawing.title;
    if (tiles.pages.size() > 1)
      sheet.title +=
          ", column " + std::to_string(tiles.pages[i].column + 1) + ", row " + std::to_string(tiles.pages[i].row + 1);
    for (const Entity& entity : all) {
      for (Entity& part : on_page(entity, tiles.pages[i])) sheet.add(shifted(part, shift));
    }
    for (const HomedText& home : texts) {
      if (home.page == i) sheet.add(shifted(home.text, shift));
    }
    add_crosses(sheet, tiles.pages[i].high - tiles.pages[i].low, corner);
    add_strip(sheet, plan, drawing, place_of(tiles.pages[i], tiles));
    sheets.push_back(std::move(sheet));
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

Tiling tiling_on(const TemplateDrawing& drawing, const SheetSize& paper) {
  const Vec2 window(paper.width_mm - 2 * kMargin_mm, paper.height_mm - 2 * kMargin_mm - kStrip_mm);
  return tiling(drawing, window, kOverlap_mm);
}

}  // namespace

std::vector<Sheet> template_sheets(const Plan& plan, const Run& run) {
  std::vector<Sheet> sheets;
  for (const FlatStretch& stretch : flat_stretches(run)) {
    const TemplateDrawing drawing = template_drawing(plan, run, stretch);
    Vec2 low = drawing.low, high = drawing.high;
    for (const Entity& entity : drawing.entities) {
      for (const Vec2& point : points_of(entity)) {
        low = low.cwiseMin(point);
        high = high.cwiseMax(point);
      }
    }
    const Vec2 margin(30, 15);  // labels stand around the tube
    low -= margin;
    high += margin;
    Sheet sheet;
    const double width = std::max(high.x() - low.x(), 180.0) + 2 * kMargin_mm;
    sheet.size = {"true size", width, high.y() - low.y() + kStrip_mm + 2 * kMargin_mm};
    sheet.title = drawing.title;
    sheet.unit = plan.unit;
    const Vec2 shift = Vec2(kMargin_mm, kMargin_mm + kStrip_mm) - low;
    for (const Entity& entity : drawing.entities) sheet.add(shifted(entity, shift));
    for (const Entity& entity : labels_on(drawing, low, high)) sheet.add(shifted(entity, shift));
    add_strip(sheet, plan, drawing, "One sheet of true size");
    sheets.push_back(std::move(sheet));
  }
  return sheets;
}

std::vector<Sheet> template_tiles(const Plan& plan, const Run& run, const SheetSize& paper) {
  std::vector<Sheet> sheets;
  const SheetSize turned{paper.name, paper.height_mm, paper.width_mm};
  for (const FlatStretch& stretch : flat_stretches(run)) {
    // A bank's next pieces lie true beside a whole piece only.
    const TemplateDrawing drawing =
        template_drawing(plan, run, run.bank < 0 ? cut_short(run, stretch, kLongStraight_mm) : stretch);
    const Tiling upright = tiling_on(drawing, paper), lying = tiling_on(drawing, turned);
    const bool turn = !lying.too_many && (upright.too_many || lying.pages.size() < upright.pages.size());
    if (upright.too_many && lying.too_many) {
      sheets.push_back(too_long(plan, drawing, paper));
    } else {
      add_pages(sheets, plan, drawing, turn ? lying : upright, turn ? turned : paper);
    }
  }
  return sheets;
}

}  // namespace halfhard
